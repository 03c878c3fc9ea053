#!/usr/bin/env python3
"""What a build and a save cost, as ratios of one run, against the floor: reading the same files and
writing as many bytes into as many files of the same names. A benchmark, never a test.

    python3 tests/benches/at_once.py                       # the starter library and 2,000 entries
    python3 tests/benches/at_once.py 97 1000 2000
    python3 tests/benches/at_once.py --whole               # 97, 1,000, 2,000 and 10,000
    python3 tests/benches/at_once.py --against OLD 1000     # an earlier program beside it
    python3 tests/benches/at_once.py --saves 50 2000        # so many saves in the preview
    python3 tests/benches/at_once.py --count 97             # instructions too, by callgrind (slow)

Ends with the goals and what was reached. Fewer entries than the starter library has are as many as it
has. First: cargo build --release --bins --example floor --example generated; the general-purpose
generator is hugo, as Debian has it, and is left out where it is not there. Writes below /dev/shm where
there is one. Processor time is the figure to trust: others may be at work on the machine.
"""

import argparse
import http.client
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HOUSE = Path(__file__).resolve().parents[2]
BUILT = Path(os.environ.get("RUNGBOOK_BUILT", HOUSE / "target" / "release"))
SHM = Path("/dev/shm")


def run(command, where):
    """Wall time, processor time (ms) and peak memory (MB) of a process."""
    begun = time.monotonic()
    child = subprocess.Popen(command, cwd=where, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    wall = (time.monotonic() - begun) * 1000
    assert os.waitstatus_to_exitcode(status) in (0, 1), f"{command} ended with {status}"
    return wall, (used.ru_utime + used.ru_stime) * 1000, used.ru_maxrss / 1000


def floor(where, what, *more):
    command = [BUILT / "examples" / "floor", what, "content", *more]
    times = []
    for _ in range(5):
        shutil.rmtree(where / "copied", ignore_errors=True)
        times.append(float(subprocess.run(command, cwd=where, capture_output=True, check=True).stdout))
    shutil.rmtree(where / "copied", ignore_errors=True)
    return sorted(times)[2]


def old_floor(where, entries):
    """The floor at the bytes that an entry took before any of this: five files, 98 kB."""
    old = where / "as-before"
    for entry in range(entries):
        (old / str(entry % 50)).mkdir(parents=True, exist_ok=True)
        for number in range(5):
            with open(old / str(entry % 50) / f"{entry}-{number}", "wb") as file:
                file.truncate(19_600)
    time_of_it = floor(where, "copy", "as-before", "copied")
    shutil.rmtree(old)
    return time_of_it


PLAIN = {
    "config.toml": 'title = "Plain"\nbaseURL = "/"\ndisableKinds = ["taxonomy", "term", "RSS"]\n[markup.goldmark.renderer]\nunsafe = false\n',
    "layouts/_default/single.html": "<!doctype html><title>{{ .Title }}</title><h1>{{ .Title }}</h1>{{ .Content }}\n",
    "layouts/_default/list.html": "<!doctype html><title>All</title>{{ range .Pages }}<a href='{{ .RelPermalink }}'>{{ .Title }}</a> {{ end }}\n",
    "layouts/index.html": "<!doctype html><title>All</title>{{ range .Site.RegularPages }}<a href='{{ .RelPermalink }}'>{{ .Title }}</a> {{ end }}\n",
}


def plain_pages(where):
    """Wall and processor time (ms) of a general-purpose generator that builds one plain page of each
    entry's name and body, the median of three; nothing where it is not there."""
    if not shutil.which("hugo"):
        return None
    site = where / "plain"
    for name, text in PLAIN.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text)
    for file in (where / "pristine" / "movements").rglob("*.md"):
        _, front, body = file.read_text().split("---\n", 2)
        name = next(line for line in front.splitlines() if line.startswith("name:"))[5:].strip().strip('"')
        page = site / "content" / "movements" / file.name
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(f"---\ntitle: {json.dumps(name)}\n---\n{body}")
    times = []
    for _ in range(3):
        shutil.rmtree(site / "public", ignore_errors=True)
        times.append(run(["hugo", "--quiet"], site)[:2])
    shutil.rmtree(site)
    return sorted(times)[1]


def changed(file, start, to):
    """A file with the first line that begins so changed."""
    lines = file.read_text().splitlines(keepends=True)
    at = next(n for n, line in enumerate(lines) if line.strip().startswith(start))
    lines[at] = to(lines[at])
    file.write_text("".join(lines))


EDITS = {
    "one changed body": lambda c: (c / "movements/brace/plank.md").open("a").write("\nA word more.\n"),
    "one changed cue": lambda c: changed(c / "movements/brace/plank.md", "- {say:", lambda l: l.replace("say: ", "say: Now ", 1)),
    "one changed name": lambda c: changed(c / "movements/brace/plank.md", "name:", lambda l: l.rstrip() + " again\n"),
    "one changed trait": lambda c: changed(c / "movements/brace/plank.md", "traits:", lambda l: l.replace(": 1", ": 2", 1)),
    "one changed ladder": lambda c: changed(c / "ladders/row.yaml", "goal:", lambda l: "goal: Another goal\n"),
    "one changed theme word": None,
}


def builds(program, where, out):
    """Rows of one program: name, (wall, processor, peak)."""
    site, kept = where / out, where / f".{out}.rungbook-kept"
    command = [program, "build", "--out", out]
    for folder in (site, kept):
        shutil.rmtree(folder, ignore_errors=True)
    rows = {"cold, nothing kept": run(command, where)}
    assert (site / "index.html").is_file(), "no site was written: `rungbook check` says why"
    shutil.rmtree(site)
    rows["cold, all kept"] = run(command, where)
    rows["unchanged"] = run(command, where)
    content = where / "content"
    for name, edit in EDITS.items():
        if edit:
            edit(content)
            rows[name] = run(command, where)
        else:
            (where / "look" / "styles").mkdir(parents=True, exist_ok=True)
            (where / "look" / "styles" / "own.css").write_text("p { margin: 0 }\n")
            rows[name] = run([*command, "--theme", "look"], where)
    return rows


def weight(site):
    files = [file for file in site.rglob("*") if file.is_file()]
    return sum(file.stat().st_size for file in files), len(files)


def events(port):
    """What the preview tells open pages."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
    connection.request("GET", "/preview/events")
    answer = connection.getresponse()
    for line in answer:
        if line.startswith(b"data: "):
            yield json.loads(line[6:])


def page(port, name):
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
    connection.request("GET", f"/{name}")
    body = connection.getresponse().read().decode()
    connection.close()
    return body


def saves(program, where, how_many):
    """From a save to the page with its words, and to the last word on findings; milliseconds."""
    command = [program, "preview", "--port", "0", "--open", "no"]
    child = subprocess.Popen(command, cwd=where, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    try:
        port = int(re.search(r"127\.0\.0\.1:(\d+)", child.stdout.readline()).group(1))
        heard = events(port)
        next(heard)
        entry = where / "content/movements/brace/plank.md"
        before = entry.read_text()
        to_page, to_findings = [], []
        for number in range(how_many):
            words = f"Saved {number} times."
            # A fault comes and goes, so that every save has findings of its own.
            text = before + ("" if number % 2 else "\n# A heading of the wrong level\n") + f"\n{words}\n"
            begun = time.monotonic()
            entry.write_text(text)
            news = next(heard)
            body = page(port, "movements/plank.html")
            while words not in body:
                news = next(heard)
                body = page(port, "movements/plank.html")
            to_page.append((time.monotonic() - begun) * 1000)
            while ("heading" in news["findings"]) == bool(number % 2):
                news = next(heard)
            to_findings.append((time.monotonic() - begun) * 1000)
        return to_page, to_findings
    finally:
        child.kill()
        child.wait()


def median(times):
    return sorted(times)[len(times) // 2]


def late(times):
    return sorted(times)[min(len(times) - 1, int(len(times) * 0.95))]


def counted(program, where):
    """Instructions of a cold build, by callgrind."""
    for folder in ("counted", ".counted.rungbook-kept"):
        shutil.rmtree(where / folder, ignore_errors=True)
    command = ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", program, "build", "--out", "counted"]
    said = subprocess.run(command, cwd=where, capture_output=True, text=True, env={**os.environ, "RAYON_NUM_THREADS": "1"})
    return int(re.search(r"Collected : (\d+)", said.stderr).group(1))


def measure(entries, options):
    where = Path(tempfile.mkdtemp(prefix="rungbook-bench-", dir=SHM if SHM.is_dir() else None))
    try:
        subprocess.run([BUILT / "examples" / "generated", where / "content", str(entries)], check=True)
        pristine = where / "pristine"
        shutil.copytree(where / "content", pristine)
        entries = len(list((pristine / "movements").rglob("*.md")))
        for program, called in [(options.against, "before"), (BUILT / "rungbook", "now")]:
            if not program:
                continue
            shutil.rmtree(where / "content")
            shutil.copytree(pristine, where / "content")
            rows = builds(program, where, "site")
            plain, before = plain_pages(where), old_floor(where, entries)
            size, files = weight(where / "site")
            read, copy = floor(where, "stat"), floor(where, "copy", "site", "copied")
            print(f"\n{entries} entries, {called}: {files} files, {size / 1e6:.1f} MB, {size / entries / 1000:.1f} kB an entry")
            print(f"  floor: read and hash {read:.0f} ms; read and write the same {copy:.0f} ms")
            print(f"  {'':26}{'wall ms':>9}{'cpu ms':>9}{'x floor':>9}{'x read':>8}{'MB':>6}  cpu ms an entry")
            for name, (wall, cpu, peak) in rows.items():
                print(f"  {name:26}{wall:9.0f}{cpu:9.0f}{wall / copy:9.1f}{wall / read:8.1f}{peak:6.0f}  {cpu / entries:.2f}")
            if plain:
                print(f"  {'as many plain pages, hugo':26}{plain[0]:9.0f}{plain[1]:9.0f}")
            reached = {"rows": rows, "plain": plain, "read": read, "copy": copy, "before": before}
            if options.saves:
                shutil.rmtree(where / "content")
                shutil.copytree(pristine, where / "content")
                shown, found = saves(program, where, options.saves)
                print(f"  {'save to page':26}{median(shown):9.0f} median, {late(shown):.0f} of 95 % ({options.saves} saves)")
                print(f"  {'save to findings':26}{median(found):9.0f} median, {late(found):.0f} of 95 %")
                reached["page"] = median(shown)
            if options.count:
                print(f"  instructions of a cold build: {counted(program, where) / 1e6:.0f} million")
            sys.stdout.flush()
        return reached
    finally:
        shutil.rmtree(where, ignore_errors=True)


SAVES = {97: 20, 2000: 40, 10000: 120}


def goals(reached):
    """Every goal with what this run came to, where it has the size."""
    def line(words, goal, found, unit):
        met = "" if found is None else "yes" if found <= goal else "no"
        print(f"  {words:58}{goal:8} {unit:6}{'not run' if found is None else f'{found:.2f}':>9}  {met}")

    def at(entries, take):
        return take(reached[entries]) if entries in reached else None

    print("\ngoals, and what was reached")
    cold = lambda one: one["rows"]["cold, nothing kept"]
    line("cold, 2,000, to a generator's plain pages", 1, at(2000, lambda one: one["plain"] and cold(one)[0] / one["plain"][0]), "times")
    line("the same by processor time", 1, at(2000, lambda one: one["plain"] and cold(one)[1] / one["plain"][1]), "times")
    for entries, goal in SAVES.items():
        line(f"preview, save to page, {entries:,}, median", goal, at(entries, lambda one: one.get("page")), "ms")
    line("one changed body, 2,000, to a stat and hash", 6, at(2000, lambda one: one["rows"]["one changed body"][0] / one["read"]), "times")
    line("unchanged, 2,000, to a stat and hash", 3, at(2000, lambda one: one["rows"]["unchanged"][0] / one["read"]), "times")
    line("cold, all kept, 10,000, to the floor of 98 kB an entry", 3, at(10000, lambda one: one["rows"]["cold, all kept"][0] / one["before"]), "times")
    for entries in (2000, 10000):
        line(f"cold, {entries:,}, processor time an entry above the floor", 1.5, at(entries, lambda one: (cold(one)[1] - one["copy"]) / entries), "ms")
    grown = at(2000, lambda small: at(10000, lambda large: cold(large)[1] / cold(small)[1]))
    line("growth of that from 2,000 to 10,000", 6, grown, "times")
    line("peak memory of a build, 10,000", 400, at(10000, lambda one: cold(one)[2]), "MB")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("entries", nargs="*", type=int, default=[97, 2000])
    parser.add_argument("--against", type=Path, help="an earlier program")
    parser.add_argument("--saves", type=int, default=50)
    parser.add_argument("--whole", action="store_true", help="97, 1,000, 2,000 and 10,000 entries")
    parser.add_argument("--count", action="store_true")
    options = parser.parse_args()
    if options.against:
        options.against = options.against.resolve()
    sizes = [97, 1000, 2000, 10000] if options.whole else options.entries
    goals({entries: measure(entries, options) for entries in sizes})


if __name__ == "__main__":
    main()
