"""What the scripts of this folder share: where the results go and how a result file begins."""

import csv
import importlib.metadata
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
READ = HERE / "read"
# Of all cases that both sides make anew from whole numbers.
SEED = 20261126


class Dice:
    """Whole numbers that any language can make: a linear congruence of 64 bits, of which the upper 31 count."""

    def __init__(self, case):
        self.state = (SEED + case * 1_000_003) % 2**64
        for _ in range(3):
            self.next(1)

    def next(self, below):
        self.state = (self.state * 6_364_136_223_846_793_005 + 1_442_695_040_888_963_407) % 2**64
        return ((self.state >> 33) * below) >> 31


def package(name):
    """`name==version` of an installed package, as the first line of a result file wants it."""
    return f"{name}=={importlib.metadata.version(name)}"


def rows(path):
    """The rows of a CSV file as dictionaries; lines that begin with `#` are comments."""
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def write(name, packages, header, lines):
    """Writes one result file: what made it, the header with its units, the rows."""
    path = HERE / name
    with open(path, "w", encoding="utf-8", newline="") as file:
        script = pathlib.Path(sys.argv[0]).name
        file.write(f"# made by {script} with {' '.join(packages)}; do not edit\n")
        out = csv.writer(file, lineterminator="\n")
        out.writerow(header)
        out.writerows(lines)
    print(f"{name}: {len(lines)} rows")


def exact(value):
    """A floating-point number with 17 significant digits, which give back the same bits."""
    return format(value, ".17g")
