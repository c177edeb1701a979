"""Whole commands beside each other, in turn, in one run: medians and ratios.

    python3 -m venv /tmp/peers && /tmp/peers/bin/pip install -r benches/peers/requirements.txt
    cargo build --release --locked
    /tmp/peers/bin/python benches/peers/run.py [ROUNDS]

The peers make as many pages of as many lines and texts from a script; this program works the set-ups out, draws them and checks the
pages. The floor reads the job and writes as many bytes. DejaVu Sans Condensed must be on the machine (package fonts-dejavu-extra).
"""
import os
import pathlib
import re
import statistics
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).parent
ROOT = HERE.parent.parent
FONTS = pathlib.Path("/usr/share/fonts/truetype/dejavu")
FONT, BOLD = FONTS / "DejaVuSansCondensed.ttf", FONTS / "DejaVuSansCondensed-Bold.ttf"
PROGRAM = pathlib.Path(os.environ.get("SETOVER", ROOT / "target/release/setover"))


def part(number):
    return f"""  - part: distance piece {number}
    material: case-hardened steel
    hardness: 60 HRC
    case-depth: 1.0 ± 0.1 mm
    operations:
      - face: {{outside: 52 mm, inside: 32 mm, length: {21.85 + number % 50 / 100:.2f} ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um,
          square-within: 0.02 mm, least-case: 0.5 mm, removed-before: 0 mm, float: opens, as-found-float: 0.42 ± 0.01 mm, bears: in-groove,
          hold: {{in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}}}}
"""


def job(folder, count):
    """A job of so many operations, one set-up each; a file holds a thousand."""
    files = []
    for first in range(0, count, 1000):
        path = folder / f"job-{count}-{first}.yaml"
        parts = "".join(part(number) for number in range(first, min(count, first + 1000)))
        path.write_text(f"job: Distance pieces\nshop: {ROOT}/examples/shop.yaml\nparts:\n{parts}", encoding="utf-8")
        files.append(str(path))
    return files


def pages_of(pdf):
    """How many pages a file of this program has: its page objects stand unpacked."""
    return len(re.findall(rb"/Type\s*/Page\b", pdf.read_bytes()))


def once(command):
    """Wall seconds, processor seconds and greatest memory (MB) of one command."""
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode > 1:
        sys.exit(f"{command} ended with {process.returncode}")
    return wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def beside(title, commands, rounds):
    """Runs commands in turn and prints each one's medians, and its ratio to the first, round by round."""
    for command in commands.values():
        once(command)
    runs = [{name: once(command) for name, command in commands.items()} for _ in range(rounds)]
    own = next(iter(commands))
    print(f"\n{title}\n{'':<12}{'wall ms':>10}{'cpu ms':>10}{'MB':>8}{'own / it':>10}")
    for name in commands:
        wall, cpu, memory = (statistics.median(run[name][at] for run in runs) for at in range(3))
        ratio = statistics.median(run[own][0] / run[name][0] for run in runs)
        print(f"{name:<12}{wall * 1000:>10.1f}{cpu * 1000:>10.1f}{memory:>8.1f}{ratio:>10.2f}", flush=True)


def main():
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        floor = folder / "floor"
        subprocess.run(["rustc", "-O", "-o", floor, HERE / "floor.rs"], check=True)
        # Two pages a set-up; the peers make as many pages.
        for set_ups in (1, 5, 50, 500):
            files = job(folder, set_ups)
            out = folder / "own.pdf"
            commands = {"setover": [PROGRAM, "sheets", *files, "-o", out]}
            once(commands["setover"])
            pages = pages_of(out)
            commands["floor"] = [floor, files[0], str(out.stat().st_size), folder / "floor.pdf"]
            for name in ("reportlab", "skia", "typst"):
                script, written = HERE / f"with_{name}.py", folder / f"{name}.pdf"
                commands[name] = [sys.executable, script, files[0], str(pages), FONT, BOLD, written]
            few = rounds if pages < 1000 else min(rounds, 3)
            beside(f"{set_ups} set-ups to PDF, {pages} pages, {out.stat().st_size / 1000:.0f} kB", commands, few)
        for count in (1, 1000, 10000):
            commands = {"setover": [PROGRAM, "plan", *job(folder, count)], "empty": [floor]}
            beside(f"plan of {count} operations", commands, rounds if count < 10000 else 3)


if __name__ == "__main__":
    main()
