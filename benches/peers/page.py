"""The page that every peer draws: about 120 lines and 150 texts, as a sheet has, and one sketch among them."""

LINES, TEXTS = 120, 150
WIDTH, HEIGHT = 210.0, 297.0


def lines(number):
    """From and to, mm from the upper left corner, and a width."""
    for at in range(60):
        y = 60 + at * 3.8
        yield (12.0, y, 198.0, y, 0.25)
    for at in range(LINES - 60):
        x = 20 + at % 20 * 4.0
        y = 20 + at // 20 * 8.0 + number % 7 * 0.1
        yield (x, y, x + 3.0, y + 6.0, 0.35)


def texts(number):
    """Place of the base line, mm, height of the em, mm, whether bold, and the words."""
    for at in range(TEXTS):
        row, column = divmod(at, 3)
        words = ("%d.%d spindle step %d rev/min" % (number, at, 38 + at * 7), "feed %.2f mm/rev" % (0.05 + at / 500),
                 "%.3f ± %.3f mm" % (21.85 - at / 97 + number / 1000, 0.01 + at / 9000))[column]
        yield (14.0 + column * 62.0, 62.0 + row * 4.5, 3.4, column == 0, words)
