"""Reads a job and makes as many pages as are asked for. Usage: JOB PAGES FONT BOLD OUT"""
import sys

import yaml
from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

import page

job, pages, font, bold, out = sys.argv[1:]
with open(job, encoding="utf-8") as text:
    yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
pdfmetrics.registerFont(TTFont("S", font))
pdfmetrics.registerFont(TTFont("B", bold))
canvas = Canvas(out, pagesize=(page.WIDTH * mm, page.HEIGHT * mm), pageCompression=1, invariant=1)
for number in range(int(pages)):
    for x, y, to_x, to_y, width in page.lines(number):
        canvas.setLineWidth(width * mm)
        canvas.line(x * mm, (page.HEIGHT - y) * mm, to_x * mm, (page.HEIGHT - to_y) * mm)
    for x, y, em, heavy, words in page.texts(number):
        canvas.setFont("B" if heavy else "S", em * mm)
        canvas.drawString(x * mm, (page.HEIGHT - y) * mm, words)
    canvas.showPage()
canvas.save()
