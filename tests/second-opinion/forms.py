"""Form from readings, a second time: least squares by LAPACK, the narrowest zone and the least that encloses by linear programming
and, for few readings, by trying every set. The readings are not kept: both sides make them from the same whole numbers, case by case.

venv/bin/python forms.py        # writes forms.csv beside it; the seed is in its first row
"""

import itertools
import math

import numpy
from scipy.optimize import linprog

from common import SEED, Dice, exact, package, write

CASES = 2000
FEW = 9


def readings(case, dice, many):
    """How many readings there are, and what each is off: ties, equal heights, noise up to 0.05, one in twenty far out."""
    n = many[0] + dice.next(many[1] - many[0] + 1)
    off = []
    for _ in range(n):
        size = dice.next(1001) - 500
        if case % 10 == 0:
            size = 0
        elif case % 10 == 1:
            size = 100 * (size // 100)
        if dice.next(20) == 0 and case % 10 > 1:
            size *= 4
        off.append(size)
    return n, off


def plane(case, many):
    """Points on a face, in hundredths of a millimetre, and what is read there, in tenths of a micrometre."""
    dice = Dice(case)
    n, off = readings(case, dice, many)
    lean, dip = dice.next(201) - 100, dice.next(201) - 100
    rows, read = [], []
    for z in off:
        x, y = dice.next(20_001), dice.next(20_001)
        if case % 10 == 2:
            y = 2 * x
        if case % 10 == 1:
            x, y = 2_000 * (x // 2_000), 2_000 * (y // 2_000)
        rows.append([x / 100, y / 100, 1.0])
        read.append((z * 10_000 + (lean * x + dip * y)) / 1e8)
    return numpy.array(rows), numpy.array(read)


def turn(case, dice, at, n):
    """One angle of n, in hundredths of a degree: near to equally spaced, exactly so in every second case."""
    degrees = 36_000 * at // n
    return degrees if case % 2 else (degrees + dice.next(24_000 // n + 1)) % 36_000


def circle(case, many):
    dice = Dice(case + 10_000)
    n, off = readings(case, dice, many)
    a, b = dice.next(2001) - 1000, dice.next(2001) - 1000
    rows, read = [], []
    for at, z in enumerate(off):
        angle = math.radians(turn(case, dice, at, n) / 100)
        rows.append([1.0, math.cos(angle), math.sin(angle)])
        read.append(z / 10_000 + a / 10_000 * math.cos(angle) + b / 10_000 * math.sin(angle))
    return numpy.array(rows), numpy.array(read)


def cylinder(case, many):
    dice = Dice(case + 20_000)
    n, off = readings(case, dice, many)
    radius = 33 + dice.next(40)
    wide, lean = dice.next(2001) - 1000, dice.next(201) - 100
    rows, read = [], []
    for at, z in enumerate(off):
        angle = math.radians(turn(case, dice, at, n) / 100)
        depth = (dice.next(12_001) - 6_000) / 100
        c, s = math.cos(angle), math.sin(angle)
        rows.append([1.0, c, s, depth * c, depth * s])
        read.append(radius + z / 10_000 + wide / 10_000 * c + lean / 1e6 * depth * s)
    return numpy.array(rows), numpy.array(read)


def rank(rows):
    scaled = rows / numpy.abs(rows).max(axis=0)
    singular = numpy.linalg.svd(scaled, compute_uv=False)
    return singular[-1] > 1e-9 * singular[0]


def least_squares(rows, read):
    scale = numpy.abs(rows).max(axis=0)
    found, *_ = numpy.linalg.lstsq(rows / scale, read, rcond=None)
    return [*(found / scale), float(numpy.ptp(read - rows @ (found / scale)))]


def programme(rows, read, zone):
    """Least h with z - row·p <= h (and -h <= it, for a zone): the whole zone is 2 h."""
    scale = numpy.abs(rows).max(axis=0)
    middle = read.mean()
    own = rows / scale
    n, m = own.shape
    upper = numpy.hstack([-own, -numpy.ones((n, 1))])
    lower = numpy.hstack([own, -numpy.ones((n, 1))])
    left = numpy.vstack([upper, lower]) if zone else upper
    right = numpy.concatenate([-(read - middle), read - middle]) if zone else -(read - middle)
    options = {"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10}
    bounds = [(None, None)] * (m + 1)
    found = linprog([0.0] * m + [1.0], A_ub=left, b_ub=right, bounds=bounds, method="highs-ds", options=options)
    assert found.status == 0, found.message
    # The set that binds says the height to the last digit.
    binds = numpy.argsort(found.slack)[: m + 1]
    try:
        exact_ones = numpy.linalg.solve(left[binds], right[binds])
        if numpy.all(left @ exact_ones - right <= 1e-12 * max(1.0, numpy.abs(right).max())):
            return float(exact_ones[-1])
    except numpy.linalg.LinAlgError:
        pass
    return float(found.fun)


def every_set(rows, read):
    """The narrowest zone by trying every set of one more reading than there are columns: no zone is narrower than that of any."""
    n, m = rows.shape
    widest = 0.0
    for chosen in itertools.combinations(range(n), m + 1):
        own = rows[list(chosen)]
        _, singular, turned = numpy.linalg.svd(own.T / numpy.abs(rows).max(axis=0)[:, None])
        if singular[-1] < 1e-9 * singular[0]:
            continue
        weights = turned[-1]
        widest = max(widest, 2 * abs(float(weights @ read[list(chosen)])) / float(numpy.abs(weights).sum()))
    return widest


def main():
    lines = [["seed", 0, 0, SEED]]
    kinds = [("plane", plane, (3, 400)), ("circle", circle, (3, 400)), ("cylinder", cylinder, (5, 400))]
    for name, of, many in kinds:
        for case in range(CASES):
            rows, read = of(case, many)
            found = least_squares(rows, read) if rank(rows) else ["in-line"]
            lines.append([f"{name}-least-squares", case, len(read), " ".join(map(shown, found))])
    for name, of, many, zone in [
        ("plane-zone", plane, (4, 120), True),
        ("cylinder-zone", cylinder, (6, 120), True),
        ("circle-encloses", circle, (4, 120), False),
        ("cylinder-encloses", cylinder, (8, 120), False),
    ]:
        tried = 0
        for case in range(CASES):
            rows, read = of(case, many)
            if not rank(rows):
                lines.append([name, case, len(read), "in-line"])
                continue
            if zone:
                height = 2 * programme(rows, read, True)
                if len(read) <= FEW:
                    tried += 1
                    assert abs(every_set(rows, read) - height) < 1e-9, (name, case)
            else:
                height = encloses(rows, read)
            lines.append([name, case, len(read), shown(height)])
        if zone:
            print(f"{name}: {tried} also by every set")
    write("forms.csv", [package("numpy"), package("scipy")], ["what", "case", "n", "result"], lines)


def encloses(rows, read):
    """The least circle, or cylinder, round all: the first column is the radius."""
    n, m = rows.shape
    scale = numpy.abs(rows).max(axis=0)
    middle = read.mean()
    options = {"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10}
    left, right = -rows / scale, -(read - middle)
    found = linprog([1.0] + [0.0] * (m - 1), A_ub=left, b_ub=right, bounds=[(None, None)] * m, method="highs-ds", options=options)
    if found.status == 3:
        return "nothing-bounds-it"
    assert found.status == 0, found.message
    binds = numpy.argsort(found.slack)[:m]
    try:
        exact_ones = numpy.linalg.solve(left[binds], right[binds])
        if numpy.all(left @ exact_ones - right <= 1e-12 * max(1.0, numpy.abs(right).max())):
            return float(exact_ones[0] + middle)
    except numpy.linalg.LinAlgError:
        pass
    return float(found.fun + middle)


def shown(found):
    return found if isinstance(found, str) else format(found, ".13g")


if __name__ == "__main__":
    main()
