"""Quantiles, root-sum-squares and least squares by numpy and scipy."""

import numpy as np
from scipy import optimize, stats

from common import exact, package, write


def text(points):
    """The points of a data set in one field, not rounded: `x y z; x y z`."""
    return "; ".join(" ".join(repr(float(value)) if value % 1 else f"{value:.0f}"
                              for value in point) for point in points)


def quantiles():
    """What is left under the curve, and the coverage factors that follow from it."""
    for p in (0.5, 0.75, 0.9, 0.95, 0.975, 0.99, 0.995, 0.99865):
        yield "normal-one-sided", f"{p}", "z", stats.norm.ppf(p), 1e-9
    for p in (0.5, 0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973):
        yield "normal-two-sided", f"{p}", "k", stats.norm.ppf((1 + p) / 2), 1e-9
    for k in (1.0, 1.645, 1.96, 2.0, 2.576, 3.0):
        yield "normal-coverage", f"{k}", "probability", stats.norm.cdf(k) - stats.norm.cdf(-k), 1e-9
    for p in (0.95, 0.9545, 0.99):
        for freedom in (1, 2, 3, 4, 5, 7, 9, 14, 19, 29, 99):
            yield "t-two-sided", f"{p} {freedom}", "k", stats.t.ppf((1 + p) / 2, freedom), 1e-9
    # Half-width of a limit to a standard uncertainty: rectangular, triangular, arcsine.
    yield "standard-from-limit", "rectangular", "divisor", 1.0 / stats.uniform(-1, 2).std(), 1e-12
    yield "standard-from-limit", "triangular", "divisor", 1.0 / stats.triang(0.5, -1, 2).std(), 1e-12
    yield "standard-from-limit", "u-shaped", "divisor", 1.0 / stats.arcsine(-1, 2).std(), 1e-12


def root_sum_squares():
    sets = [[3, 4], [0.1, 0.2], [2.89, 2.31, 2.0, 1.02, 2.0], [0.005, 0.003, 0.002, 0.005],
            [0.1, 0.05, 0.02], [1, 1, 1, 1], [0.012, 0.0, 0.005], [9.5, 4, 7, 0.5, 0.5]]
    for values in sets:
        yield "root-sum-square", " ".join(map(str, values)), "u", np.linalg.norm(values), 1e-12


def solve(matrix, right):
    return np.linalg.lstsq(np.asarray(matrix, float), np.asarray(right, float), rcond=None)[0]


def line(points):
    """y = a + b x, the residual standard deviation with n - 2 degrees of freedom."""
    x, y = np.asarray(points, float).T
    fit = stats.linregress(x, y)
    left = y - fit.intercept - fit.slope * x
    return {"a": fit.intercept, "b": fit.slope, "s": np.sqrt(left @ left / (len(x) - 2))}


def plane(points):
    """z = a x + b y + c; flatness about it, and the least distance of two parallel planes (along z)."""
    x, y, z = np.asarray(points, float).T
    a, b, c = solve(np.column_stack([x, y, np.ones_like(x)]), z)
    left = z - a * x - b * y - c
    # Least t with z - plane between 0 and t: a linear programme, exact.
    ones = np.ones_like(x)
    rise = np.column_stack([x, y, ones, 0 * x])
    fall = np.column_stack([-x, -y, -ones, -ones])
    best = optimize.linprog([0, 0, 0, 1], A_ub=np.vstack([rise, fall]), b_ub=np.concatenate([z, -z]),
                            bounds=[(None, None)] * 3 + [(0, None)], method="highs")
    return {"a": a, "b": b, "c": c, "flatness_least_squares": np.ptp(left),
            "flatness_minimum_zone": best.x[3]}


def circle(points):
    """Linear (Kåsa): x² + y² = 2 x cx + 2 y cy + q. Geometric: least squares of the distances."""
    x, y = np.asarray(points, float).T
    two_x, two_y, q = solve(np.column_stack([x, y, np.ones_like(x)]), x**2 + y**2)
    cx, cy = two_x / 2, two_y / 2
    radius = np.sqrt(q + cx**2 + cy**2)
    found = optimize.least_squares(lambda p: np.hypot(x - p[0], y - p[1]) - p[2], [cx, cy, radius],
                                   xtol=1e-15, ftol=1e-15, gtol=1e-15)
    return {"centre_x": cx, "centre_y": cy, "radius": radius, "geometric_centre_x": found.x[0],
            "geometric_centre_y": found.x[1], "geometric_radius": found.x[2]}


def cylinder(points):
    """Radii at known angles (deg) and heights: r = R + (a + c z) cos t + (b + d z) sin t."""
    angle, z, r = np.asarray(points, float).T
    cos, sin = np.cos(np.radians(angle)), np.sin(np.radians(angle))
    values = solve(np.column_stack([np.ones_like(r), cos, sin, z * cos, z * sin]), r)
    return dict(zip(("radius", "a", "b", "c", "d"), values))


def polar(radii, start=0.0):
    step = 360.0 / len(radii)
    return [(r * np.cos(np.radians(start + i * step)), r * np.sin(np.radians(start + i * step)))
            for i, r in enumerate(radii)]


def rounded(points, digits=6):
    return [tuple(round(float(value), digits) + 0.0 for value in point) for point in points]


GRID = [(x, y) for y in (-50, 0, 50) for x in (-50, 0, 50)]


def grid(heights):
    return [(x, y, h) for (x, y), h in zip(GRID, heights)]


def data_sets():
    yield "line", line, [(0, 0.1), (1, 0.9), (2, 2.1), (3, 2.9), (4, 4.2)]
    yield "line", line, [(20, 0), (40, 4.8), (60, 9.1), (80, 14.3), (100, 18.9), (120, 23.6)]
    yield "plane", plane, grid([0.00, 0.01, 0.02, 0.00, 0.03, 0.02, 0.01, 0.01, 0.04])
    yield "plane", plane, grid([0.05, 0.02, 0.05, 0.02, 0.00, 0.02, 0.05, 0.02, 0.05])
    yield "plane", plane, grid([0.012, 0.008, 0.003, 0.015, 0.021, 0.002, 0.019, 0.011, 0.006])
    yield "plane", plane, grid([-0.10, 0.00, 0.10, -0.05, 0.05, 0.15, 0.00, 0.10, 0.20])
    yield "plane", plane, [(0, 0, 0.0), (180, 0, 0.04), (180, 95, 0.01), (0, 95, 0.05), (90, 47.5, 0.08)]
    yield "circle", circle, rounded(polar([40.03, 39.98, 39.97, 40.02]))
    yield "circle", circle, rounded(polar([40.01, 40.02, 39.99, 39.98, 40.0, 40.01, 40.03, 39.99]))
    yield "circle", circle, rounded(polar([31.75, 31.78, 31.76, 31.74, 31.77, 31.73]), 4)
    yield "circle", circle, [(10, 0), (9.7, 2.6), (8.6, 5.1), (7.0, 7.2), (4.9, 8.7), (2.5, 9.7)]
    bore = [(angle, z, round(39.5 + 0.01 * np.cos(np.radians(angle - 30)) * (1 + z / 80)
                             + 0.004 * np.cos(np.radians(2 * angle)), 4))
            for z in (10, 45, 80) for angle in range(0, 360, 45)]
    yield "cylinder", cylinder, bore
    yield "cylinder", cylinder, [(angle, z, 25 + 0.001 * ((angle // 90 * 3 + z // 20) % 5))
                                 for z in (0, 20, 40) for angle in (0, 90, 180, 270)]


def main():
    lines = []
    for kind, given, quantity, value, allowed in [*quantiles(), *root_sum_squares()]:
        lines.append([kind, given, quantity, exact(float(value)), f"{allowed:g}"])
    for kind, solver, points in data_sets():
        for quantity, value in solver(points).items():
            # The iterated and the programmed answers carry their own stopping error.
            allowed = "1e-7" if quantity.startswith("geometric") else "1e-10"
            allowed = "1e-6" if quantity == "flatness_minimum_zone" else allowed
            lines.append([kind, text(points), quantity, exact(float(value)), allowed])
    write("statistics.csv", [package("numpy"), package("scipy")],
          ["kind", "given", "quantity", "value", "tolerance"], lines)


main()
