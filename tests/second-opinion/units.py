"""Every unit the program understands, brought to its base unit by pint in exact fractions.

pint is told to work in fractions, so each value is the exact ratio rounded once to a double.
"""

from fractions import Fraction

import pint

from common import exact, package, write

# As written after the number, the same for pint, the unit it is held in, the same for pint.
UNITS = [
    ("mm", "mm", "mm", "mm"), ("cm", "cm", "mm", "mm"), ("m", "m", "mm", "mm"),
    ("um", "um", "mm", "mm"), ("µm", "um", "mm", "mm"), ("in", "inch", "mm", "mm"),
    ('"', "inch", "mm", "mm"), ("thou", "thou", "mm", "mm"),
    ("deg", "degree", "deg", "degree"),
    ("degC", "degC", "degC", "degC"), ("°C", "degC", "degC", "degC"), ("degF", "degF", "degC", "degC"),
    ("N", "N", "N", "N"), ("kN", "kN", "N", "N"), ("lbf", "lbf", "N", "N"),
    ("N·m", "N*m", "N·m", "N*m"), ("Nm", "N*m", "N·m", "N*m"),
    ("lbf·ft", "lbf*foot", "N·m", "N*m"), ("lbf·in", "lbf*inch", "N·m", "N*m"),
    ("N/mm", "N/mm", "N/mm", "N/mm"),
    ("MPa", "MPa", "MPa", "MPa"), ("N/mm2", "N/mm**2", "MPa", "MPa"), ("psi", "psi", "MPa", "MPa"),
    ("W", "W", "kW", "kW"), ("kW", "kW", "kW", "kW"), ("hp", "horsepower", "kW", "kW"),
    ("m/min", "m/minute", "m/min", "m/minute"), ("ft/min", "foot/minute", "m/min", "m/minute"),
    ("mm/rev", "mm/revolution", "mm/rev", "mm/revolution"), ("in/rev", "inch/revolution", "mm/rev", "mm/revolution"),
    ("thou/rev", "thou/revolution", "mm/rev", "mm/revolution"),
    ("rev/min", "revolution/minute", "rev/min", "revolution/minute"),
    ("min", "minute", "min", "minute"), ("h", "hour", "min", "minute"),
]
ROUGHNESS = [("um", "um"), ("uin", "microinch")]
VALUES = ["1", "0.001", "0.022", "0.1", "0.3937", "3", "7.5", "12.7", "25.4", "68", "100", "123.456",
          "999.9", "1450", "98765.4321"]
TEMPERATURES = ["-40", "-20", "0", "20", "32", "68", "98.6", "120", "212", "300"]
FRACTIONS = ["1/2", "1/4", "3/8", "5/16", "7/32", "9/64", "1 3/8", "2 15/16"]
ROUGH = ["0.1", "0.4", "0.8", "1.6", "3.2", "6.3", "16", "32", "63", "125"]
THREADS = ["4.5", "8", "11", "13", "19", "20", "26", "28", "40", "56", "80"]

ULP = "2.3e-16"


def number(text):
    """`1 3/8` or `0.022` as an exact fraction."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def main():
    registry = pint.UnitRegistry(non_int_type=Fraction)

    def convert(value, source, target):
        return float(registry.Quantity(value, source).to(target).magnitude)

    lines = []
    for written, source, unit, target in UNITS:
        values = TEMPERATURES if "C" in written or "F" in written else list(VALUES)
        if written in ("in", '"'):
            values = values + FRACTIONS
        note, allowed = "", ULP
        if written == "hp":
            # 550 ft lbf/s is 745.69987 W; the project rounds it to 745.7 W by definition.
            note, allowed = "pint: 550 ft·lbf/s; the project: 745.7 W exactly", "2e-7"
        for value in values:
            lines.append([f"{value} {written}", unit, exact(convert(number(value), source, target)),
                          allowed, note])
    for written, source in ROUGHNESS:
        for value in ROUGH:
            lines.append([f"Ra {value} {written}", "um", exact(convert(number(value), source, "um")),
                          ULP, ""])
    for value in THREADS:
        pitch = registry.Quantity(1 / number(value), "inch").to("mm").magnitude
        lines.append([f"{value} tpi", "mm", exact(float(pitch)), ULP, "pitch = 1/tpi"])
    write("units.csv", [package("Pint")],
          ["text", "unit", "value", "relative_tolerance", "note"], lines)


main()
