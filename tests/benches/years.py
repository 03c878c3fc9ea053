#!/usr/bin/env python3
"""What grows with the years, in processor time: rosters, ladders, sessions and movements. Never a test.

    cargo build --release && python3 tests/benches/years.py target/release/rungbook

Prints the time of each command on a roster of 30 people with 0, 5,000, 15,000 and 30,000 results, and what
the results alone cost; then checks of libraries with ever longer ladders and sessions and ever more
movements, each with its ratio to the one before: 2 is linear where the size doubles. Processor time is the
figure to trust, the least of five runs.
"""
import os
import shutil
import subprocess
import sys
import tempfile

HOUSE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")
HALL = os.path.join(HOUSE, "tests", "libraries", "hall")
TINY = os.path.join(HOUSE, "tests", "libraries", "tiny")
LINE = "finch-3 push-up rung 2 {} reps 2026-11-25\n"
RESULT = "    - {{ladder: push-up, rung: 4, reps: 12, day: {}-{:02}-{:02}, was: {{movement: push-up}}}}\n"


def once(where, arguments, text=""):
    """Processor time of a command, milliseconds."""
    child = subprocess.Popen([PROGRAM, *arguments], cwd=where, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                             stderr=subprocess.STDOUT)
    child.stdin.write(text.encode())
    child.stdin.close()
    said = child.stdout.read().decode()
    _, status, used = os.wait4(child.pid, 0)
    assert os.waitstatus_to_exitcode(status) in (0, 1), said
    return (used.ru_utime + used.ru_stime) * 1000


def least(where, arguments, text=lambda nth: ""):
    return min(once(where, arguments, text(nth)) for nth in range(5))


def roster(results):
    people = []
    for person in range(30):
        lines = [RESULT.format(2016 + nth // 336, 1 + nth // 28 % 12, 1 + nth % 28) for nth in range(results // 30)]
        people.append(f"finch-{person}:\n  kit: [towel]\n  results:\n" + ("".join(lines) or ""))
    return "".join(people)


def rosters(folder):
    shutil.copytree(HALL, os.path.join(folder, "content"))
    show, add = ["roster", "show"], ["roster", "add", "-", "--today", "2026-12-01"]
    print("a roster of 30 people      results  show   one   add   (ms of processor time)")
    first = None
    for results in (0, 5000, 15000, 30000):
        def fresh():
            with open(os.path.join(folder, "roster.yaml"), "w", encoding="utf-8") as file:
                file.write(roster(results))
        fresh()
        times = [least(folder, show), least(folder, [*show, "finch-3"])]
        tried = []
        for nth in range(5):
            fresh()
            tried.append(once(folder, add, LINE.format(5 + nth)))
        times.append(min(tried))
        first = first or times
        print(f"{'':25} {results:8}  " + "".join(f"{time:5.0f} " for time in times)
              + "  of the results alone: " + ", ".join(f"{time - none:.0f}" for time, none in zip(times, first))
              + f"; adding one beyond reading: {times[2] - times[1] - (first[2] - first[1]):.0f}")


def library(folder, base):
    shutil.rmtree(os.path.join(folder, "content"), ignore_errors=True)
    shutil.copytree(base, os.path.join(folder, "content"))


def grown(folder, what, sizes, make):
    before = None
    for size in sizes:
        make(size)
        time = least(folder, ["check"])
        ratio = f", {time / before:.1f} times the one before" if before else ""
        print(f"{what} of {size}: {time:.0f} ms{ratio}")
        before = time


def ladders(folder):
    def make(size):
        library(folder, HALL)
        rungs = "".join(f"  - {{movement: incline-push-up, hands: {1 + n * 0.25} cm}}\n" for n in range(size))
        with open(os.path.join(folder, "content/ladders/long.yaml"), "w", encoding="utf-8") as file:
            file.write("name: Long\ngoal: far\npattern: push-horizontal\nmoves-up: x\nmoves-down: x\nrungs:\n" + rungs
                       + "sources: [common-practice]\n")
    grown(folder, "a ladder", (75, 150, 300), make)


def sessions(folder):
    def make(size):
        library(folder, HALL)
        path = os.path.join(folder, "content/sessions/monday.yaml")
        with open(path, encoding="utf-8") as file:
            text = file.read()
        with open(path, "w", encoding="utf-8") as file:
            file.write(text.replace("      - {ladder: row}\n", "      - {ladder: row}\n" * size, 1))
    grown(folder, "a session", (50, 100, 200), make)


def movements(folder):
    with open(os.path.join(TINY, "movements/pull-horizontal/strap-row.md"), encoding="utf-8") as file:
        entry = file.read()

    def make(size):
        library(folder, TINY)
        for nth in range(size):
            path = os.path.join(folder, f"content/movements/pull-horizontal/row-{nth}.md")
            with open(path, "w", encoding="utf-8") as file:
                file.write(entry.replace("name: Strap row", f"name: Strap row {nth}").replace("[body row]", "[]"))
    grown(folder, "a library", (1250, 2500, 5000), make)


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    PROGRAM = os.path.abspath(sys.argv[1])
    with tempfile.TemporaryDirectory() as place:
        rosters(place)
        ladders(place)
        sessions(place)
        movements(place)
