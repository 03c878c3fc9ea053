#!/usr/bin/env python3
"""Kills the program at its system calls: whatever it writes is old or new, never between.

`python3 tests/benches/killed.py target/debug/rungbook` needs strace (`apt-get install strace`) and takes
some minutes; `--every 1` tries every call that opens, writes or closes a file too, and not every fifth.
Between two calls that change the disk nothing on it differs, so these are all the moments that there are.
It prints a table of tries and outcomes, and ends with 1 when anything was lost. `--only roster` tries the
tasks whose name says so; `--command "roster keep"` tries any command in a club's folder with a library and
a roster, whatever it changes there. Not part of the gate: what it proves is proved at fewer places there
(tests/site/turns.rs, tests/roster.rs).
"""
import argparse
import collections
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

# Whatever changes the disk is tried at each of its calls; the rest at every so many.
ALWAYS = ["mkdir", "rename", "renameat", "renameat2", "link", "linkat", "unlink", "unlinkat", "rmdir",
          "fsync", "fdatasync", "syncfs", "flock", "chmod", "fchmod", "ftruncate", "symlink", "copy_file_range"]
OFTEN = ["openat", "write", "close"]
LINE = "wren row rung 2 12 reps 2026-11-25\n"
HERE = os.path.dirname(os.path.abspath(__file__))
TINY = os.path.join(HERE, "..", "libraries", "tiny")
# One worker, so that the nth call is the same one each time.
ALONE = dict(os.environ, RAYON_NUM_THREADS="1")


def tree(folder):
    """Every file below a folder with its bytes."""
    found = {}
    for place, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(place, name)
            with open(path, "rb") as file:
                found[os.path.relpath(path, folder)] = file.read()
    return found


class Task:
    """A command that writes, what was there before it, and what must be there after."""

    def __init__(self, name, arguments, text=None, faults=()):
        self.name, self.arguments, self.text, self.faults = name, arguments, text, list(faults)

    def run(self, place, strace=()):
        words = [*strace, PROGRAM, *self.arguments]
        return subprocess.run(words, cwd=place, input=(self.text or "").encode(), env=ALONE,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)

    def traced(self, *inject):
        rules = [word for rule in [*self.faults, *inject] for word in ("-e", "inject=" + rule)]
        return ["strace", "-f", "-qq", "-o", "/dev/null", *rules]

    def calls(self, place):
        """How often each system call happens, in the busiest thread."""
        log = os.path.join(place, "..", "log")
        faults = [word for fault in self.faults for word in ("-e", "inject=" + fault)]
        trace = "trace=" + ",".join("?" + call for call in ALWAYS + OFTEN)
        self.run(place, ["strace", "-f", "-qq", "-o", log, "-e", trace, *faults])
        counts = collections.Counter()
        with open(log, encoding="utf-8", errors="replace") as lines:
            for line in lines:
                found = re.match(r"(\d+) +(\w+)\(", line)
                if found:
                    counts[found.groups()] += 1
        most = {}
        for (_, call), count in counts.items():
            most[call] = max(most.get(call, 0), count)
        return most


def library(place, name="Thornmere Hall"):
    shutil.copytree(TINY, os.path.join(place, "content"), dirs_exist_ok=True)
    path = os.path.join(place, "content/club.yaml")
    with open(path, encoding="utf-8") as file:
        text = file.read()
    with open(path, "w", encoding="utf-8") as file:
        file.write(re.sub(r"^name: .*$", "name: " + name, text, flags=re.M))


def built(place):
    subprocess.run([PROGRAM, "build"], cwd=place, check=True, capture_output=True)


def site(place):
    """The site without what the coach put into it, and whether that is there."""
    found = tree(os.path.join(place, "site"))
    mine = found.pop("photos/hall.txt", None) == b"ours"
    return found, mine


def prepare_build(place):
    library(place)
    built(place)
    os.makedirs(os.path.join(place, "site/photos"))
    with open(os.path.join(place, "site/photos/hall.txt"), "wb") as file:
        file.write(b"ours")
    library(place, "Thornmere Barn")
    path = os.path.join(place, "content/words/kit.yaml")
    with open(path, "a", encoding="utf-8") as file:
        file.write("rope:\n  name: Rope\n  kind: hall\n  check: Pull it.\n")


def prepare_roster(place):
    library(place)
    with open(os.path.join(place, "roster.yaml"), "w", encoding="utf-8") as file:
        file.write("# mine\nwren:\n  kit: [straps] # hers\n  rungs: {row: 2}\n")
    os.chmod(os.path.join(place, "roster.yaml"), 0o600)


def judge_build(place, before, after):
    now = site(place)
    stood = "old" if now == before else "new" if now == after else None
    if stood is None and not os.path.exists(os.path.join(place, "site")):
        stood = "aside"  # between two renames, where the system has no exchange
    elif stood is None:
        return "BETWEEN"
    built(place)
    left = [name for name in os.listdir(place) if "rungbook" in name and not name.endswith("-kept")]
    return stood if site(place) == after and not left else "NOT RECOVERED"


def judge_first(place, _, after):
    stood = "new" if site(place)[0] == after[0] else "old" if not os.path.exists(os.path.join(place, "site")) else None
    if stood is None:
        return "BETWEEN"
    built(place)
    return stood if site(place)[0] == after[0] else "NOT RECOVERED"


def everything(place):
    """What is the club's in a folder, and who may read its roster; what we leave beside it is not."""
    found = {name: text for name, text in tree(place).items() if ".rungbook-" not in name}
    return found, os.stat(os.path.join(place, "roster.yaml")).st_mode & 0o777


def judge_any(task):
    """A command that may be given twice: it stands as before or as after, and the second ends as one does."""
    def judge(place, before, after):
        now = everything(place)
        stood = "old" if now == before else "new" if now == after else None
        if stood is None:
            return "BETWEEN"
        task.run(place)
        left = [name for name in os.listdir(place) if "rungbook" in name and not name.endswith("-kept")]
        return stood if everything(place) == after and not left else "NOT RECOVERED"
    return judge


def judge_new(place, _, after):
    club = os.path.join(place, "club")
    now = tree(club)
    stood = "new" if now == after else "old" if not os.path.exists(os.path.join(club, "content")) else None
    if stood is None:
        return "BETWEEN"
    if stood == "old":
        subprocess.run([PROGRAM, "new", "club"], cwd=place, check=False, capture_output=True)
    left = [name for name in os.listdir(place) if "rungbook" in name]
    return stood if tree(club) == after and not left else "NOT RECOVERED"


NO_EXCHANGE = ["renameat2:error=EINVAL"]
TODAY = ["--today", "2026-12-01"]


def of_the_roster(name, arguments, text=None):
    task = Task(name, arguments, text)
    return task, prepare_roster, everything, judge_any(task)


TASKS = [
    (Task("a first build", ["build"]), library, site, judge_first),
    (Task("a build over another", ["build"]), prepare_build, site, judge_build),
    (Task("the same without an exchange", ["build"], faults=NO_EXCHANGE), prepare_build, site, judge_build),
    of_the_roster("a result for the roster", ["roster", "add", "-", *TODAY], LINE),
    of_the_roster("what the roster did in class", ["roster", "done", "monday", *TODAY]),
    of_the_roster("what the rungs of the roster are", ["roster", "keep"]),
    (Task("a new library", ["new", "club"]), lambda place: None, lambda p: tree(os.path.join(p, "club")), judge_new),
]


def tried(task, prepare, look, judge):
    """Each call, each time it happens: killed there, looked at, and run once more."""
    with tempfile.TemporaryDirectory() as folder:
        model = os.path.join(folder, "model")
        os.makedirs(model)
        prepare(model)
        before = look(model)
        whole = os.path.join(folder, "whole")
        shutil.copytree(model, whole)
        calls = task.calls(whole)
        after = look(whole)
        if before == after:
            sys.exit(f"`{task.name}` changes nothing: nothing can be lost by killing it")
        outcomes = collections.Counter()
        for call, count in sorted(calls.items()):
            step = 1 if call in ALWAYS else EVERY
            # A call that is made to fail cannot be killed too by the same tracer.
            if any(fault.startswith(call + ":") for fault in task.faults):
                continue
            for nth in range(1, count + 1, step):
                place = os.path.join(folder, "try")
                shutil.copytree(model, place)
                task.run(place, task.traced(f"{call}:signal=KILL:when={nth}"))
                outcome = judge(place, before, after)
                outcomes[outcome] += 1
                if outcome.isupper():
                    print(f"  {task.name}: killed at {call} {nth}: {outcome}")
                shutil.rmtree(place)
        return outcomes


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--every", type=int, default=5)
    parser.add_argument("--only", default="", help="the tasks whose name says this")
    parser.add_argument("--command", help="one command, in a folder with a library and a roster")
    given = parser.parse_args()
    PROGRAM, EVERY = os.path.abspath(given.program), given.every
    lost = 0
    chosen = [one for one in TASKS if given.only in one[0].name]
    if given.command:
        chosen = [of_the_roster(given.command, shlex.split(given.command))]
    for one in chosen:
        found = tried(*one)
        lost += sum(count for outcome, count in found.items() if outcome.isupper())
        told = ", ".join(f"{count} {outcome}" for outcome, count in sorted(found.items()))
        print(f"{one[0].name}: {sum(found.values())} kills: {told}", flush=True)
    sys.exit(1 if lost else 0)
