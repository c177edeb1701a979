"""Doubts of sums of readings that may share an instrument, a second time: by the matrix of covariances (GUM 5.2.2), at 101 steps of the
correlation where nobody knows it, the greatest of them. The readings are not kept: both sides make them from the same whole numbers,
case by case.

venv/bin/python correlation.py        # writes correlation.csv beside it; the seed is in its first row
"""

import numpy

from common import SEED, Dice, exact, package, write

CASES = 2000
STEPS = 101


def case_of(case):
    """Terms: how often each counts, its instrument, its doubt, what of that is its own where the instrument says so, and more of its own."""
    dice = Dice(case)
    known = [dice.next(2) == 1 for _ in range(3)]
    terms = []
    for _ in range(2 + dice.next(7)):
        times, of, doubt = dice.next(9) - 4, dice.next(3), 1 + dice.next(40)
        own, more = 1 + dice.next(doubt), dice.next(2) * dice.next(20)
        terms.append((times, of, doubt, own if known[of] else None, more))
    return terms


def squared(terms):
    """The squared doubt of the sum: each instrument by its own matrix, the worst of 101 correlations where none is known."""
    whole = sum((times * more) ** 2 for times, _, _, _, more in terms)
    for instrument in range(3):
        group = [term for term in terms if term[1] == instrument]
        if not group:
            continue
        times = numpy.array([term[0] for term in group], dtype=float)
        doubts = numpy.array([term[2] for term in group], dtype=float)
        if group[0][3] is not None:
            shared = numpy.sqrt(doubts**2 - numpy.array([term[3] for term in group], dtype=float) ** 2)
            covariance = numpy.outer(shared, shared)
            numpy.fill_diagonal(covariance, doubts**2)
            whole += float(times @ covariance @ times)
            continue
        worst = 0.0
        for step in range(STEPS):
            covariance = numpy.outer(doubts, doubts) * (step / (STEPS - 1))
            numpy.fill_diagonal(covariance, doubts**2)
            worst = max(worst, float(times @ covariance @ times))
        whole += worst
    return whole


if __name__ == "__main__":
    lines = [[case, exact(max(squared(case_of(case)), 0.0) ** 0.5)] for case in range(CASES)]
    write("correlation.csv", [package("numpy")], ["case", "doubt_um"], [["seed", SEED], *lines])
