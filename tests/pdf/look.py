"""Opens PDF files in several readers: none may warn, all must count the same pages, and the words that are copied out or read by
the tags must come in one order, the order of the zones."""

import json
import re
import subprocess
import sys
from pathlib import Path

# A balloon is a digit in a circle: some readers give the letter that it stands for, some the digit.
DIGITS = str.maketrans("①②③④", "1234")
# That a file is PDF/UA is claimed by whoever has had it checked: ours does not say so.
EXPECTED = {"UA-28-004"}

faults = []


def said(name, *command):
    """What a program prints; whatever it prints beside that is a fault."""
    run = subprocess.run(command, capture_output=True, text=True, errors="replace")
    warned = command[0] == "qpdf" and "WARNING" in run.stdout
    if run.returncode != 0 or run.stderr.strip() or warned:
        faults.append(f"{name}: {' '.join(command)}: {run.returncode} {run.stdout[:200]} {run.stderr[:400]}")
    return run.stdout


def letters(text):
    """A text without its spaces: where lines are broken each reader decides for itself."""
    return re.sub(r"\s", "", text).translate(DIGITS)


def first_apart(one, other):
    """Where two texts part, with what stands round it."""
    pairs = enumerate(zip(one, other))
    at = next((at for at, (a, b) in pairs if a != b), min(len(one), len(other)))
    return f"…{one[max(at - 30, 0):at + 30]}… and …{other[max(at - 30, 0):at + 30]}…"


def lies_in(some, whole):
    """Whether a text is another one from which pieces are left out."""
    letters_of_whole = iter(whole)
    return all(letter in letters_of_whole for letter in some)


def look(path):
    """A file in every reader; gives back how many pages it has."""
    name, file = path.stem, str(path)
    said(name, "qpdf", "--check", file)
    pages = {
        "qpdf": int(said(name, "qpdf", "--show-npages", file)),
        "poppler": int(re.search(r"^Pages:\s+(\d+)", said(name, "pdfinfo", file), re.MULTILINE)[1]),
        "MuPDF": int(re.search(r"^Pages:\s+(\d+)", said(name, "mutool", "info", "-M", file), re.MULTILINE)[1]),
        "Ghostscript": len(re.findall(r"^Page ", said(name, "gs", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=nullpage", file), re.MULTILINE)),
    }
    said(name, "mutool", "draw", "-N", "-q", "-r", "40", "-o", "/dev/null", "-F", "pgm", file)
    copied = letters(said(name, "pdftotext", "-raw", file, "-"))
    tagged = said(name, "pdfinfo", "-struct-text", file)
    orders = {
        "MuPDF": letters(said(name, "mutool", "draw", "-N", "-q", "-F", "txt", file)),
        "the tags": letters("".join(re.findall(r'^\s*"(.*)"$', tagged, re.MULTILINE))),
    }
    try:
        import pypdfium2
    except ImportError:
        pass
    else:
        document = pypdfium2.PdfDocument(file)
        pages["PDFium"] = len(document)
        text = letters("".join(page.get_textpage().get_text_bounded() for page in document))
        for page in document:
            page.render(scale=0.5)
        # It sorts words of one height in a picture by their place: the letters are the same.
        if sorted(text) != sorted(copied):
            faults.append(f"{name}: PDFium reads other letters than poppler")
    if len(set(pages.values())) != 1:
        faults.append(f"{name}: pages {pages}")
    for reader, text in orders.items():
        # A strip that is repeated overleaf is copied out, and decoration to the tags.
        if text != copied and not (reader == "the tags" and len(text) > 0.95 * len(copied) and lies_in(text, copied)):
            faults.append(f"{name}: {reader} reads otherwise than poppler copies: {first_apart(text, copied)}")
    return pages["qpdf"]


def universal(paths):
    """The checker of PDF/UA over all files; says how many of its rules it holds."""
    checker = Path(sys.executable).parent / "pdfua"
    if not checker.exists():
        return "no checker of PDF/UA"
    run = subprocess.run([checker, "check", "--format", "json", *map(str, paths)], capture_output=True, text=True)
    decoder, text = json.JSONDecoder(), run.stdout.strip()
    reports = []
    while text:
        report, end = decoder.raw_decode(text)
        reports.extend(report if isinstance(report, list) else [report])
        text = text[end:].strip()
    if len(reports) != len(paths):
        faults.append(f"PDF/UA: {len(reports)} files looked at, not {len(paths)}")
    for report in reports:
        for finding in report["findings"]:
            if finding["rule_id"] not in EXPECTED:
                faults.append(f"{report['file']}: {finding['rule_id']}, {finding['location']}: {finding['message']}")
    rules = {report["coverage"]["summary"] for report in reports}
    return f"PDF/UA: {', '.join(sorted(rules))}, but for {', '.join(sorted(EXPECTED))}"


def main():
    paths = [Path(of) for of in sys.argv[1:]]
    pages = sum(look(path) for path in paths)
    checked = universal(paths)
    for fault in faults:
        print(fault)
    print(f"{len(paths)} files, {pages} pages in qpdf, poppler, MuPDF, Ghostscript and PDFium, {len(faults)} faults; {checked}")
    return 1 if faults or not paths else 0


if __name__ == "__main__":
    sys.exit(main())
