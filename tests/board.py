"""Solves 200 small classes again with scipy (PyPI): milp for all of them, and linear_sum_assignment for
those that are one person to one thing.
Never with the program's own model: rows are written anew here from what is used.
`cargo test --test board` leaves the cases in target/tmp/board first.
"""

import json
import pathlib
import unittest

import numpy
from scipy.optimize import Bounds, LinearConstraint, linear_sum_assignment, milp

ROOT = pathlib.Path(__file__).parent.parent
CASES = json.loads((ROOT / "target" / "tmp" / "board" / "cases.json").read_text(encoding="utf-8"))


class Program:
    """A case as rows: an offer a column, then what each person holds, then who is alone, then the worst."""

    def __init__(self, case):
        self.case = case
        self.columns = [(s, o) for s, one in enumerate(case["sets"]) for o in range(len(one["offers"]))]
        held = [r for r, one in enumerate(case["resources"]) if one["held"]]
        self.held = {(who, r): len(self.columns) + n for n, (who, r) in enumerate(
            (who, r) for who in range(case["people"]) for r in held)}
        others = [(s, m) for s, one in enumerate(case["sets"]) for m in range(3) if m != one["own"]]
        first = len(self.columns) + len(self.held)
        self.alone = {other: first + n for n, other in enumerate(others)}
        self.worst = first + len(self.alone)
        self.rows, self.low, self.high = [], [], []
        self.one_each()
        self.counts()
        self.totals()
        self.company()

    def company(self):
        sets = self.case["sets"]
        for (s, movement), alone in self.alone.items():
            terms = [(at, 1 if of == s else -1) for at, of, _, o in self.offers()
                     if o["movement"] == movement and sets[of]["line"] == sets[s]["line"]]
            self.row(terms + [(alone, -1)], -numpy.inf, 0)

    def prices(self):
        price = numpy.zeros(self.worst + 1)
        for at, _, _, o in self.offers():
            price[at] = o["cost"]
        for alone in self.alone.values():
            price[alone] = self.case["alone"]
        return price

    def row(self, terms, low, high):
        row = numpy.zeros(self.worst + 1)
        for at, n in terms:
            row[at] += n
        self.rows.append(row)
        self.low.append(low)
        self.high.append(high)

    def offers(self):
        for at, (s, o) in enumerate(self.columns):
            one = self.case["sets"][s]
            yield at, s, one["who"], one["offers"][o]

    def one_each(self):
        for s in range(len(self.case["sets"])):
            self.row([(at, 1) for at, of, _, _ in self.offers() if of == s], 1, 1)

    def counts(self):
        for r, thing in enumerate(self.case["resources"]):
            if not thing["held"]:
                terms = [(at, n) for at, _, _, o in self.offers() for used, n in o["uses"] if used == r]
                self.row(terms, 0, thing["count"])
                continue
            for s, one in enumerate(self.case["sets"]):
                terms = [(at, n) for at, of, _, o in self.offers() if of == s for used, n in o["uses"] if used == r]
                self.row(terms + [(self.held[one["who"], r], -1)], -numpy.inf, 0)
            self.row([(at, 1) for (_, of), at in self.held.items() if of == r], 0, thing["count"])

    def totals(self):
        for person in range(self.case["people"]):
            terms = [(at, o["cost"]) for at, _, who, o in self.offers() if who == person]
            self.row(terms + [(self.worst, -1)], -numpy.inf, 0)

    def least(self, price, worst=numpy.inf):
        rest = self.worst - len(self.columns)
        whole = numpy.array([1] * len(self.columns) + [0] * (rest + 1))
        top = numpy.array([1.0] * len(self.columns) + [numpy.inf] * rest + [worst])
        rows = LinearConstraint(numpy.array(self.rows), self.low, self.high)
        found = milp(price, constraints=rows, integrality=whole, bounds=Bounds(0, top))
        return round(found.fun) if found.success else None

    def best(self):
        worst_alone = numpy.zeros(self.worst + 1)
        worst_alone[self.worst] = 1
        worst = self.least(worst_alone)
        if worst is None:
            return None
        return [worst, self.least(self.prices(), worst + 1e-6)]


def as_assignment(case):
    """Costs of people against pieces and against doing without, where a case is no more than that."""
    sets = case["sets"]
    one_each = len({one["who"] for one in sets}) == len(sets)
    single = all(len(o["uses"]) <= 1 and all(n == 1 for _, n in o["uses"]) for one in sets for o in one["offers"])
    if not (one_each and single):
        return None
    pieces = [r for r, thing in enumerate(case["resources"]) for _ in range(thing["count"])]
    costs = numpy.full((len(sets), len(pieces) + len(sets)), 1e6)
    for s, one in enumerate(sets):
        for o in one["offers"]:
            places = [at for at, r in enumerate(pieces) if o["uses"] and o["uses"][0][0] == r]
            for at in places if o["uses"] else [len(pieces) + s]:
                costs[s, at] = min(costs[s, at], o["cost"])
    return costs


class AnotherSolver(unittest.TestCase):
    def test_two_hundred_come_out_alike(self):
        self.assertEqual(len(CASES), 200)
        for at, case in enumerate(CASES):
            self.assertEqual(Program(case).best(), case["found"], f"case {at}")

    def test_assignments_come_out_alike(self):
        seen = 0
        for at, case in enumerate(CASES):
            costs = as_assignment(case)
            if costs is None:
                continue
            rows, columns = linear_sum_assignment(costs)
            least = costs[rows, columns].sum()
            price = Program(case)
            alone_is_free = price.prices()
            alone_is_free[list(price.alone.values())] = 0
            program = price.least(alone_is_free)
            self.assertEqual(program is None, least >= 1e6, f"case {at}")
            if program is not None:
                self.assertEqual(program, round(least), f"case {at}")
                # The board's sum, which first spares the worst-off, is never below it.
                self.assertGreaterEqual(case["found"][1], round(least), f"case {at}")
            seen += 1
        self.assertGreater(seen, 30)


if __name__ == "__main__":
    unittest.main()
