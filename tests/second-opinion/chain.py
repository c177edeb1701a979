"""Doubts of chains of lengths, a second time: by a million normal draws of every link. The links are not kept: both sides make them from
the same whole numbers, case by case.

venv/bin/python chain.py        # writes chain.csv beside it; the seed is in its first row
"""

import numpy

from common import SEED, Dice, exact, package, write

CASES = 200
DRAWS = 1_000_000


def links_of(case):
    """How often each link counts, its size in micrometres, its doubt (k = 2) in tenths of a micrometre."""
    dice = Dice(case + 40_000)
    links = []
    for _ in range(2 + dice.next(6)):
        by, size, doubt = dice.next(21) - 10, 5_000 + dice.next(50_001), 10 + dice.next(300)
        links.append((by or 1, size, doubt))
    return links


if __name__ == "__main__":
    lines = []
    for case in range(CASES):
        chance = numpy.random.default_rng([SEED, case])
        gap = numpy.zeros(DRAWS)
        for by, size, doubt in links_of(case):
            gap += by * (size / 1e3 + doubt / 2e4 * chance.standard_normal(DRAWS))
        lines.append([case, exact(float(gap.mean())), exact(2.0 * float(gap.std()))])
    write("chain.csv", [package("numpy")], ["case", "gap_mm", "doubt_mm"], [["seed", SEED, DRAWS], *lines])
