"""Pitch and minor diameters of screw threads, from tables and packages that are not the project's.

    python threads.py TABLE

TABLE has one row per thread with designation, family, major_mm, pitch_mm, tpi,
flank_angle_included_deg, basic_pitch_dia_mm, basic_minor_dia_internal_mm. Its designation, major
diameter and pitch are the inputs; its two diameters are read only to say where anybody disagrees.
"""

import csv
import importlib.resources
import math
import re
import sys

from screw_thread_lib.threads import Assembly

from common import READ, package, rows, write

INCH = 25.4
PITCH, MINOR = "pitch_diameter", "minor_diameter_internal"
COLUMN = {PITCH: "basic_pitch_dia_mm", MINOR: "basic_minor_dia_internal_mm"}
# Half a unit of the project's third decimal, and a hair for binary fractions.
OURS = 0.0005 + 1e-9


def pitch_of(row):
    """The pitch in mm: from the threads per inch where the form is an inch form."""
    if "metric" in row["family"] or row["family"].startswith("BA"):
        return float(row["pitch_mm"])
    return INCH / float(row["tpi"])


def major_of(row):
    """The major diameter in mm: an inch size exactly, not from a column rounded to 0.0001 mm."""
    size = re.match(r"(\d+)(?:/(\d+))?(?: BS[WF]|-\d+ BSC)", row["designation"])
    if size:
        return int(size[1]) / int(size[2] or 1) * INCH
    return float(row["major_mm"])


def printed(table):
    """The figures of read/threads.csv, in mm, with the size of their last digit."""
    where = {row["source"]: row["independence"] for row in rows(READ / "threads-sources.csv")}
    for row in rows(READ / "threads.csv"):
        factor = INCH if row["unit"] == "in" else 1.0
        # A trailing nought may be lost on a page: the rest of its column says the digits.
        digit = {"mm": 0.001, "in": 0.001 if len(row["minor_diameter"]) == 5 else 0.0001}[row["unit"]]
        independence = where[row["source"]]
        if independence.startswith("see"):
            independence = "transcription" if "BSC" in row["designation"] else "independent"
        for quantity, key in ((PITCH, "pitch_diameter"), (MINOR, "minor_diameter")):
            if row[key] and row["designation"] in table:
                yield (row["designation"], quantity, float(row[key]) * factor, digit * factor,
                       row["source"], independence)


def by_screw_thread_lib(table):
    """PyPI screw_thread_lib: the 60 degree basic profile of ISO 68-1 and ASME B1.1."""
    for name, row in table.items():
        if row["family"].startswith(("ISO", "UN")):
            major = float(row["major_mm"])
            thread = Assembly({"n": 1.0 / pitch_of(row), "dbsc": major})
            for quantity, value in ((PITCH, thread.D2bsc), (MINOR, thread.D1bsc)):
                yield name, quantity, value, 0.0, "screw_thread_lib", "independent"


def by_bd_warehouse(table):
    """PyPI bd_warehouse: its table of ISO 228-1, columns pitch_diameter and minor_diameter."""
    path = importlib.resources.files("bd_warehouse") / "data" / "iso_228_1.csv"
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            name = f"G {row['size']}"
            if name in table:
                for quantity, key in ((PITCH, "pitch_diameter"), (MINOR, "minor_diameter")):
                    yield name, quantity, float(row[key]), 0.001, "bd_warehouse", "independent"


def by_form(table):
    """The rounded forms from their geometry: angle and crest radius, nothing else.

    A V of the included angle has the height p/(2 tan(a/2)); a circle of radius r that touches both
    flanks stands r (1/sin(a/2) - 1) below the sharp corner. Twice that is lost; what stays is the
    depth. Radii: Whitworth 0.137329 p (BS 84), cycle p/6 (BS 811), BA 0.1808346 p (BS 93).
    """
    for name, row in table.items():
        family, pitch = row["family"], pitch_of(row)
        half = math.radians(float(row["flank_angle_included_deg"])) / 2.0
        radius = {"BSW": 0.13732908, "BSF": 0.13732908, "BSP": 0.13732908, "Cyc": 1.0 / 6.0,
                  "BA ": 0.1808346}.get(family[:3])
        if radius is None:
            continue
        depth = pitch * (0.5 / math.tan(half) - 2.0 * radius * (1.0 / math.sin(half) - 1.0))
        major = major_of(row)
        # BA tables are rounded to 0.005 mm.
        digit = 0.01 if family.startswith("BA") else 0.0
        yield name, PITCH, major - depth, digit, "form", "recomputed"
        yield name, MINOR, major - 2.0 * depth, digit, "form", "recomputed"


def by_ba_series(table):
    """BA from its number alone: p = 0.9^n to 0.01 mm, major 6 p^1.2 to 0.1 mm, depth 0.6 p."""
    for name in table:
        number = re.fullmatch(r"(\d+) BA", name)
        if number:
            pitch = round(0.9 ** int(number[1]), 2)
            major = round(6.0 * pitch ** 1.2, 1)
            yield name, "major_diameter", major, 0.1, "ba-series", "independent"
            yield name, PITCH, major - 0.6 * pitch, 0.01, "ba-series", "independent"
            yield name, MINOR, major - 1.2 * pitch, 0.01, "ba-series", "independent"


# id, source, designations, quantity, who is right, why.
CAUSES = [
    ("T01", "get-it-made", r"M18", MINOR, "ours", "the page prints 15.394; 18 - 1.0825318 x 2.5 = 15.294, which echosupply prints too"),
    ("T02", "britishfasteners", r"7 BA", MINOR, "ours", "the page's own major diameter and pitch (0.0982, 0.0189 in) give 0.0755 in, it prints 0.0753; BS 93 is metric, its figures in mm are authoritative"),
    ("T03", "britishfasteners", r"\d+ BA", MINOR, "ours", "the page rounds the major diameter to 0.001 in first and then takes off 1.2 p (6 BA: 0.110 - 1.2 x 0.0209 = 0.0849 in); BS 93 is metric, its figures in mm are authoritative"),
    ("T04", "trfastenings-bsw", r"9/16 BSW", MINOR, "ours", "the page begins with a major diameter of 0.5626 in; 9/16 in is 0.5625"),
    ("T05", "trfastenings-bsw", r"7/32 BSW", PITCH, "ours", "the page begins with 0.2187 in and takes off a depth of 0.0267; 7/32 in is 0.21875 and BS 84 gives major - 0.640327 p = 0.19207 in"),
    ("T06", "trfastenings-bsw", r"(3/4|1) BSW", MINOR, "ours", "the page takes the rounded depth (0.0640, 0.0800 in) off its rounded pitch diameter; BS 84 gives major - 1.280654 p = 0.62193 and 0.83992 in"),
    ("T07", "tradeclassicbikes", r"9/16 BSF", MINOR, "ours", "the page rounds 9/16 to 0.563 in and takes off 0.080; BS 84 gives 0.5625 - 1.280654/16 = 0.4825 in"),
    ("T08", "form", r"G .*", MINOR, "ours", "ISO 228-1 rounds the depth h to 0.001 mm and takes it off twice (14 tpi: 1.162, 11 tpi: 1.479); the exact form is 0.4 to 0.9 um larger, the table of the standard is what counts"),
]


def cause(source, name, quantity):
    for key, who, names, what, *_ in CAUSES:
        if who == source and re.fullmatch(names, name) and what in (None, quantity):
            return key
    return "?"


def main():
    table = {row["designation"]: row for row in rows(sys.argv[1])}
    lines, found, checked = [], [], set()
    for part in (printed, by_screw_thread_lib, by_bd_warehouse, by_ba_series, by_form):
        for name, quantity, value, digit, source, independence in part(table):
            mine = float(table[name][COLUMN.get(quantity, "major_mm")])
            key = ""
            if abs(value - mine) > 0.5 * digit + OURS:
                key = cause(source, name, quantity)
                why = [(right, text) for k, *_, right, text in CAUSES if k == key]
                found.append([key, name, quantity, f"{mine:.3f}", f"{value:.4f}", source,
                              *(why[0] if why else ("?", "UNEXPLAINED"))])
            elif independence == "independent":
                checked.add((name, quantity))
            lines.append([name, quantity, f"{value:.5f}", f"{digit:g}", source, independence, key])
    packages = [package("screw_thread_lib"), package("bd_warehouse"), "read/threads.csv"]
    write("threads.csv", packages, ["designation", "quantity", "value_mm", "last_digit_mm",
                                    "package", "independence", "disagreement"], lines)
    write("disagreements-threads.csv", packages, ["id", "designation", "quantity", "ours_mm",
                                                  "theirs_mm", "package", "right", "why"], found)
    for quantity in (PITCH, MINOR):
        print(quantity, "independent for", sum((name, quantity) in checked for name in table),
              "of", len(table), "; not:",
              ", ".join(name for name in table if (name, quantity) not in checked))
    return 1 if any(row[0] == "?" for row in found) else 0


sys.exit(main())
