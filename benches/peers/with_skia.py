"""Reads a job and makes as many pages as are asked for. Usage: JOB PAGES FONT BOLD OUT"""
import sys

import skia
import yaml

import page

job, pages, font, bold, out = sys.argv[1:]
with open(job, encoding="utf-8") as text:
    yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
POINTS = 72 / 25.4
faces = [skia.Typeface.MakeFromFile(font), skia.Typeface.MakeFromFile(bold)]
fonts = {}
stream = skia.FILEWStream(out)
with skia.PDF.MakeDocument(stream) as document:
    for number in range(int(pages)):
        with document.page(page.WIDTH * POINTS, page.HEIGHT * POINTS) as canvas:
            canvas.scale(POINTS, POINTS)
            for x, y, to_x, to_y, width in page.lines(number):
                canvas.drawLine(x, y, to_x, to_y, skia.Paint(StrokeWidth=width, Style=skia.Paint.kStroke_Style))
            ink = skia.Paint()
            for x, y, em, heavy, words in page.texts(number):
                face = fonts.setdefault((em, heavy), skia.Font(faces[heavy], em))
                canvas.drawString(words, x, y, face, ink)
