"""How the doubts of readings combine: by the package uncertainties, and by drawing a million times.

Each input is `name=value±U unit` with U the expanded uncertainty (k = 2), as the program reads it.
A name that stands twice in a formula is one reading: its shares are summed before they are squared.
"""

import math

import numpy as np
import uncertainties
from uncertainties import umath

from common import exact, package, write

DRAWS = 1_000_000

# case, formula, unit, function of (mathematics, readings), readings name: (value, U, unit).
CASES = [
    ("metal left", "wall - depth", "mm", lambda m, wall, depth: wall - depth,
     {"wall": (14.2, 0.1, "mm"), "depth": (12.9, 0.2, "mm")}),
    ("metal left of a drill point", "wall - depth - drill/(2 tan(59°))", "mm",
     lambda m, wall, depth, drill: wall - depth - drill / (2 * m.tan(math.radians(59))),
     {"wall": (22.0, 0.1, "mm"), "depth": (16.5, 0.2, "mm"), "drill": (8.4, 0.05, "mm")}),
    ("spindle speed", "1000 v/(pi d)", "rev/min", lambda m, v, d: 1000 * v / (math.pi * d),
     {"v": (25.0, 2.5, "m/min"), "d": (38.1, 0.02, "mm")}),
    ("surface speed", "pi d n/1000", "m/min", lambda m, d, n: math.pi * d * n / 1000,
     {"d": (60.0, 0.04, "mm"), "n": (265.0, 10.6, "rev/min")}),
    ("interference, two instruments", "bush - housing", "mm", lambda m, bush, housing: bush - housing,
     {"bush": (20.041, 0.004, "mm"), "housing": (20.006, 0.0095, "mm")}),
    ("interference, one zero", "(bush + zero) - (housing + zero)", "mm",
     lambda m, bush, housing, zero: (bush + zero) - (housing + zero),
     {"bush": (20.041, 0.002, "mm"), "housing": (20.006, 0.003, "mm"), "zero": (0.0, 0.008, "mm")}),
    ("clearance from two sums of one zero", "(bore + zero) - (shaft - zero)", "mm",
     lambda m, bore, shaft, zero: (bore + zero) - (shaft - zero),
     {"bore": (16.03, 0.005, "mm"), "shaft": (15.99, 0.004, "mm"), "zero": (0.0, 0.003, "mm")}),
    ("case left", "case - before - removed", "mm", lambda m, case, before, removed: case - before - removed,
     {"case": (0.9, 0.1, "mm"), "before": (0.12, 0.03, "mm"), "removed": (0.15, 0.0125, "mm")}),
    ("float after a cut on each side", "float + 2 removed", "mm",
     lambda m, float, removed: float + 2 * removed,
     {"float": (0.22, 0.02, "mm"), "removed": (0.1, 0.0125, "mm")}),
    ("bore from a reading that enters twice", "outside - 2 wall", "mm",
     lambda m, outside, wall: outside - 2 * wall,
     {"outside": (28.0, 0.02, "mm"), "wall": (2.512, 0.01, "mm")}),
    ("step of a mean of two readings", "(a + b)/2 - c", "mm", lambda m, a, b, c: (a + b) / 2 - c,
     {"a": (31.02, 0.008, "mm"), "b": (31.03, 0.008, "mm"), "c": (30.5, 0.006, "mm")}),
    ("warm size brought to 20 °C", "size (1 - alpha (t - 20)/1000000)", "mm",
     lambda m, size, alpha, t: size * (1 - alpha * (t - 20) / 1e6),
     {"size": (80.012, 0.006, "mm"), "alpha": (23.0, 2.0, "1e-6/K"), "t": (27.0, 2.0, "degC")}),
    ("running clearance warm", "clearance + (ah - ash) d (t - 20)/1000000", "mm",
     lambda m, clearance, ah, ash, d, t: clearance + (ah - ash) * d * (t - 20) / 1e6,
     {"clearance": (0.04, 0.01, "mm"), "ah": (22.0, 1.0, "1e-6/K"), "ash": (11.5, 1.0, "1e-6/K"),
      "d": (25.0, 0.01, "mm"), "t": (90.0, 10.0, "degC")}),
    ("cutting power", "force v/60000", "kW", lambda m, force, v: force * v / 60000,
     {"force": (850.0, 85.0, "N"), "v": (28.0, 1.2, "m/min")}),
    ("press force", "0.2 p pi d l", "N", lambda m, p, d, l: 0.2 * p * math.pi * d * l,
     {"p": (25.3, 1.5, "MPa"), "d": (20.0, 0.005, "mm"), "l": (24.0, 0.1, "mm")}),
    ("ring area", "pi (big² - small²)/4", "mm2", lambda m, big, small: math.pi * (big**2 - small**2) / 4,
     {"big": (40.0, 0.05, "mm"), "small": (20.0, 0.02, "mm")}),
    ("ring area of one wall", "pi (big² - (big - 2 wall)²)/4", "mm2",
     lambda m, big, wall: math.pi * (big**2 - (big - 2 * wall) ** 2) / 4,
     {"big": (40.0, 0.05, "mm"), "wall": (10.0, 0.02, "mm")}),
    ("set-over depth", "dial cos(over)", "mm", lambda m, dial, over: dial * m.cos(over * (math.pi / 180)),
     {"dial": (0.5, 0.0125, "mm"), "over": (60.0, 0.5, "deg")}),
    ("roughness in theory", "1000 f²/(18 sqrt(3) r)", "um",
     lambda m, f, r: 1000 * f**2 / (18 * math.sqrt(3) * r),
     {"f": (0.1, 0.002, "mm/rev"), "r": (0.8, 0.04, "mm")}),
    ("bolt circle from one chord of three", "2 side/sqrt(3)", "mm", lambda m, side: 2 * side / math.sqrt(3),
     {"side": (43.3, 0.05, "mm")}),
    ("clamp", "1000 torque/(0.2 d)", "N", lambda m, torque, d: 1000 * torque / (0.2 * d),
     {"torque": (22.0, 1.3, "N·m"), "d": (8.0, 0.05, "mm")}),
    ("spring clamp lost", "6 rate change", "N", lambda m, rate, change: 6 * rate * change,
     {"rate": (12.5, 0.6, "N/mm"), "change": (0.35, 0.03, "mm")}),
]


def main():
    draw = np.random.default_rng(14253)
    lines = []
    for case, formula, unit, work, readings in CASES:
        doubtful = {name: uncertainties.ufloat(value, doubt / 2.0, tag=name)
                    for name, (value, doubt, _) in readings.items()}
        result = work(umath, **doubtful)
        drawn = work(np, **{name: draw.normal(value, doubt / 2.0, DRAWS)
                            for name, (value, doubt, _) in readings.items()})
        # Signed shares: slope of the result for a reading, times the doubt of that reading.
        slopes = {variable.tag: slope for variable, slope in result.derivatives.items()}
        shares = "; ".join(f"{name}={exact(float(slopes[name] * doubt))}"
                           for name, (_, doubt, _) in readings.items())
        given = "; ".join(f"{name}={value!r}±{doubt!r} {unit_of}"
                          for name, (value, doubt, unit_of) in readings.items())
        lines.append([case, formula, given, unit, exact(float(result.nominal_value)),
                      exact(float(2.0 * result.std_dev)), f"{2.0 * np.std(drawn):.4g}", shares])
    write("uncertainty.csv", [package("uncertainties"), package("numpy")],
          ["case", "formula", "given", "unit", "value", "expanded_k2", "expanded_k2_drawn",
           "signed_shares_k2"], lines)
    for line in lines:
        print(f"{line[0]}: {float(line[5]):.5g} drawn {line[6]}")


main()
