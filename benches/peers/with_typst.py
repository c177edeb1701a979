"""Reads a job and makes as many pages as are asked for. Usage: JOB PAGES FONT BOLD OUT"""
import os
import sys
import tempfile

import typst
import yaml

import page

job, pages, font, bold, out = sys.argv[1:]
with open(job, encoding="utf-8") as text:
    yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
parts = [f'#set page(width: {page.WIDTH}mm, height: {page.HEIGHT}mm, margin: 0mm)\n#set text(font: "DejaVu Sans Condensed")\n']
for number in range(int(pages)):
    if number:
        parts.append("#pagebreak()\n")
    for x, y, to_x, to_y, width in page.lines(number):
        parts.append(f"#place(line(start: ({x}mm, {y}mm), end: ({to_x}mm, {to_y}mm), stroke: {width}mm))\n")
    for x, y, em, heavy, words in page.texts(number):
        weight = "bold" if heavy else "regular"
        parts.append(f'#place(dx: {x}mm, dy: {y - em}mm, text(size: {em}mm, weight: "{weight}", "{words}"))\n')
with tempfile.NamedTemporaryFile("w", suffix=".typ", encoding="utf-8", delete=False) as source:
    source.write("".join(parts))
try:
    typst.compile(source.name, output=out, font_paths=[os.path.dirname(font)])
finally:
    os.unlink(source.name)
