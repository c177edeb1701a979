"""A bush pressed into a housing, solved as a boundary-value problem and not by Lamé's formula.

Plane stress, linear elastic, axially symmetric. In each ring, with u the radial displacement and s
the radial stress, Hooke's law and equilibrium are two first-order equations:

    u' = (1 - nu²) s/E - nu u/r          s' = (E u/r + nu s - s)/r

Free at the bush bore and at the housing's outside; at the joint the stress is one and the two
displacements differ by half the diametral interference. scipy's collocation solves both rings at
once on 0 .. 1. Lamé's closed form is used nowhere in this file.
"""

import numpy as np
from scipy.integrate import solve_bvp

from common import exact, package, write

# E in MPa and nu: round figures of the kind of metal, not anybody's grade.
METALS = {"bronze": (103000.0, 0.34), "brass": (103400.0, 0.32), "steel": (205000.0, 0.29),
          "cast-iron": (105000.0, 0.26), "aluminium": (71000.0, 0.33), "magnesium": (45000.0, 0.35)}
SCALE = 1000.0  # displacements in um, so that both unknowns are of one size


def hoop(u, s, r, young, poisson):
    return young * (u / SCALE) / r + poisson * s


def solve(joint, bore, outside, interference, bush, housing):
    """Pressure, the four hoop stresses (MPa), close-in of the bore and growth outside (mm, diametral)."""
    (e_i, v_i), (e_o, v_o) = bush, housing
    inner = (bore / 2.0, joint / 2.0)
    outer = (joint / 2.0, outside / 2.0)

    def ring(u, s, limits, x, young, poisson):
        r = limits[0] + x * (limits[1] - limits[0])
        span = limits[1] - limits[0]
        du = SCALE * (1.0 - poisson**2) * s / young - poisson * u / r
        ds = (hoop(u, s, r, young, poisson) - s) / r
        return span * du, span * ds

    def slopes(x, y):
        du_i, ds_i = ring(y[0], y[1], inner, x, e_i, v_i)
        du_o, ds_o = ring(y[2], y[3], outer, x, e_o, v_o)
        return np.vstack([du_i, ds_i, du_o, ds_o])

    def borders(left, right):
        return np.array([left[1], right[3], right[1] - left[3],
                         left[2] - right[0] - SCALE * interference / 2.0])

    mesh = np.linspace(0.0, 1.0, 201)
    result = solve_bvp(slopes, borders, mesh, np.zeros((4, mesh.size)), tol=1e-10, max_nodes=200000)
    if not result.success:
        raise RuntimeError(result.message)
    left, right = result.sol(0.0), result.sol(1.0)
    return [-right[1],
            hoop(left[0], left[1], inner[0], e_i, v_i), hoop(right[0], right[1], inner[1], e_i, v_i),
            hoop(left[2], left[3], outer[0], e_o, v_o), hoop(right[2], right[3], outer[1], e_o, v_o),
            -2.0 * left[0] / SCALE, 2.0 * right[2] / SCALE]


def cases():
    """Two cases with round sizes, then thirty drawn inside the range of a workshop."""
    yield "bronze in aluminium", 20.0, 16.0, 40.0, 0.035, "bronze", "aluminium"
    yield "brass in steel", 101.6, 50.8, 127.0, 0.051, "brass", "steel"
    draw = np.random.default_rng(286)
    pairs = [("bronze", "aluminium"), ("bronze", "cast-iron"), ("bronze", "steel"),
             ("steel", "aluminium"), ("steel", "cast-iron"), ("bronze", "magnesium"),
             ("brass", "aluminium"), ("cast-iron", "aluminium"), ("steel", "steel"),
             ("cast-iron", "cast-iron")]
    for number in range(30):
        bush, housing = pairs[number % len(pairs)]
        joint = round(float(draw.uniform(8.0, 90.0)), 2)
        bore = round(joint * float(draw.uniform(0.5, 0.93)), 2)
        outside = round(joint * float(draw.uniform(1.25, 6.0)), 1)
        interference = round(joint * float(draw.uniform(0.0004, 0.002)), 4)
        yield f"drawn {number + 1}", joint, bore, outside, interference, bush, housing


def main():
    lines = []
    for name, joint, bore, outside, interference, bush, housing in cases():
        values = solve(joint, bore, outside, interference, METALS[bush], METALS[housing])
        lines.append([name, joint, bore, outside, interference, bush, *METALS[bush], housing,
                      *METALS[housing], *(exact(float(value)) for value in values), "1e-9"])
    write("press.csv", [package("numpy"), package("scipy")],
          ["case", "joint_mm", "bush_bore_mm", "housing_outside_mm", "interference_mm",
           "bush", "bush_e_mpa", "bush_nu", "housing", "housing_e_mpa", "housing_nu",
           "joint_pressure_mpa", "hoop_bush_bore_mpa", "hoop_bush_outside_mpa",
           "hoop_housing_joint_mpa", "hoop_housing_outside_mpa", "close_in_mm", "growth_mm",
           "relative_tolerance"], lines)


main()
