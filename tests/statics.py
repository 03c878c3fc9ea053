"""Solves three still bodies again with numpy and scipy (PyPI), from where joints and contacts are.
Never with the program's masses or equations: the table of segments is typed in here, from print.
`cargo test --test mechanics` leaves the cases in target/tmp/statics first.
"""

import json
import pathlib
import unittest

import numpy
from scipy.optimize import nnls

ROOT = pathlib.Path(__file__).parent.parent
CASES = json.loads((ROOT / "target" / "tmp" / "statics" / "cases.json").read_text(encoding="utf-8"))

# Winter 2009, table 4.1: share of body mass, centre as a share of the length from the first end.
LIMBS = [
    ("hip", "knee", 0.100, 0.433),
    ("knee", "ankle", 0.0465, 0.433),
    ("ankle", "ball", 0.0145, 0.500),
    ("shoulder", "elbow", 0.028, 0.436),
    ("elbow", "wrist", 0.016, 0.430),
]
TRUNK, HEAD, HAND = 0.497, 0.081, 0.006
# What the straps measured over the model, Melrose & Dawes 2015; listed on the page of sources.
ROPE_FACTOR = 1.12
# Centimetres and points below this are rounding in print.
POINTS = 0.05


def centre(case):
    """Centre of mass and mass of a body with a straight trunk."""
    lumps = [(TRUNK, (numpy.array(case["hips"]) + case["shoulders"]) / 2)]
    lumps.append((HEAD, numpy.array(case["head"])))
    for side in (0, 1):
        lumps.append((HAND, numpy.array(case["palm"][side])))
        for first, second, mass, share in LIMBS:
            a, b = (numpy.array(case[end][side]) for end in (first, second))
            lumps.append((mass, a + (b - a) * share))
    mass = sum(mass for mass, _ in lumps)
    return mass, sum(mass * at for mass, at in lumps) / mass


def mean(case, arm):
    return numpy.mean([touch["at"] for touch in case["touches"] if touch["arm"] == arm], axis=0)


def line(case, hand, foot):
    """The direction of the hands' force."""
    if case["anchor"]:
        away = numpy.array(case["anchor"]) - hand
    elif abs(hand[1] - foot[1]) < 0.02:
        return numpy.array([0.0, 1.0])
    else:
        away = numpy.mean(case["shoulder"], axis=0) - hand
    return away / numpy.linalg.norm(away)


def moment(at, force):
    return at[0] * force[1] - at[1] * force[0]


def solved(case):
    """Size of the hands' force and their upward share, in per cent: forces that only push."""
    mass, com = centre(case)
    hand, foot = mean(case, True), mean(case, False)
    along = line(case, hand, foot)
    ways = [(hand, along), (foot, (0.0, 1.0)), (foot, (1.0, 0.0)), (foot, (-1.0, 0.0))]
    rows = [[way[0], way[1], moment(at - com, way)] for at, way in ways]
    forces, miss = nnls(numpy.array(rows).T, numpy.array([0.0, mass, 0.0]))
    factor = ROPE_FACTOR if case["anchor"] else 1.0
    return 100 * factor * forces[0], 100 * factor * forces[0] * along[1], miss


class AnotherSolver(unittest.TestCase):
    def test_masses_sum_to_one(self):
        for case in CASES:
            self.assertAlmostEqual(centre(case)[0], 1.0, delta=2e-4)

    def test_three_cases_come_out_alike(self):
        self.assertEqual(len(CASES), 3)
        for case in CASES:
            size, upward, miss = solved(case)
            self.assertLess(miss, 1e-9, case["name"])
            self.assertAlmostEqual(size, case["along"], delta=POINTS, msg=case["name"])
            self.assertAlmostEqual(upward, case["upward"], delta=POINTS, msg=case["name"])


if __name__ == "__main__":
    unittest.main()
