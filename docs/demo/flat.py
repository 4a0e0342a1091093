"""Flat and cast parts: covers, plates, gaskets, forks, the head, the barrel, the clutch."""

from docs.demo.bench import Bench, Pen, Point, round_points
from docs.demo.turned import gear, ring


def bolt(b: Bench, x: float, y: float, length: float) -> None:
    """A bolt lying on the bench, head up."""
    b.part(lambda pen: pen.box(x, y + length / 2, 22, length, 4), "bright", 6)
    for i in range(int(length / 2 / 9)):
        b.hole(lambda pen, i=i: pen.box(x, y + length - 6 - i * 9, 22, 3, 1))
    b.part(lambda pen: pen.box(x, y, 46, 32, 6), "steel", 6)


def cover(b: Bench, bolts: int, odd: int, word: str, window: str = "") -> None:
    """A cover with its bolts laid beside it in their order, the odd one longer."""
    b.part(lambda pen: pen.box(470, 400, 700, 560, 130), "alloy")
    b.part(lambda pen: pen.box(470, 400, 560, 420, 90), "cast", 3)
    for i, (x, y) in enumerate(_around(470, 400, 620, 480, bolts), start=1):
        b.hole(lambda pen, x=x, y=y: pen.disc(x, y, 18))
        if i == odd:
            b.marker(round_points(x, y, 28, 24) + round_points(x, y, 28, 1), width=5)
        b.ink(x + 44, y, str(i), 24)
    if window:
        b.part(lambda pen: pen.disc(470, 400, 90), "dark", 3)
        b.ink(470, 400, window, 30, "#e8e4da")
    for i in range(bolts):
        long = i + 1 == odd
        bolt(b, 890 + (i % 5) * 62, 150 + (i // 5) * 290, 190 if long else 110)
        if long:
            b.arrow(
                (890 + (i % 5) * 62, 440 + (i // 5) * 290),
                (890 + (i % 5) * 62, 372 + (i // 5) * 290),
            )
    b.tape(500, 800, word)


def _around(x: float, y: float, w: float, h: float, n: int) -> list[Point]:
    """`n` places along the edge of a box, clockwise from its upper left."""
    places = []
    for i in range(n):
        along = (i + 0.25) / n * 2 * (w + h)
        if along < w:
            places.append((x - w / 2 + along, y - h / 2))
        elif along < w + h:
            places.append((x + w / 2, y - h / 2 + along - w))
        elif along < 2 * w + h:
            places.append((x + w / 2 - (along - w - h), y + h / 2))
        else:
            places.append((x - w / 2, y + h / 2 - (along - 2 * w - h)))
    return places


def retainer(b: Bench, screws: int, word: str) -> None:
    """A retainer plate with OUT stamped on it, over its bearing."""
    b.part(lambda pen: pen.box(600, 400, 940, 640, 60), "alloy")
    ring(b, 600, 400, 240, 100, "bright")
    corners = round_points(600, 400, 270, screws, 0.0 if screws == 3 else 0.25)

    def outline(pen: Pen) -> None:
        for px, py in corners:
            pen.line([(600, 400), (px, py)], 130)
        pen.disc(600, 400, 205)
        pen.disc(600, 400, 120, on=False)

    b.part(outline, "steel")
    for px, py in corners:
        b.part(lambda pen, x=px, y=py: pen.disc(x, y, 38), "bright", 3)
        b.hole(lambda pen, x=px, y=py: pen.line([(x - 20, y), (x + 20, y)], 8))
        b.hole(lambda pen, x=px, y=py: pen.line([(x, y - 20), (x, y + 20)], 8))
    b.stamp(600, 562, "OUT", 56)
    b.tape(600, 800, word)


def fork(b: Bench, x: float, toward: int, letter: str, tone: str = "steel") -> None:
    """A shift fork on its rail from above; its C opens toward the right (1) or the left (-1)."""
    side = toward * 150

    def outline(pen: Pen) -> None:
        pen.box(x, 250, 120, 150, 30)
        pen.line([(x, 300), (x, 420)], 64)
        turned = 0.25 if toward > 0 else 0.75
        pen.arc(x + side * 0.35, 540, 130, 52, turned + 0.17, turned + 0.83)

    b.part(outline, tone)
    if letter:
        b.stamp(x, 258, letter, 84)


def forks(b: Bench, lit: str, word: str) -> None:
    """The three forks on their rail; the one that is meant is bright, the others are dark."""
    b.part(lambda pen: pen.box(600, 250, 1060, 56, 26), "bright")
    for x, toward, letter in ((230, 1, "L"), (560, 1, ""), (890, 1, "R")):
        meant = lit == (letter or "middle")
        fork(b, x, toward, letter, "bright" if meant else "dark")
        if meant:
            b.arrow((x + toward * 40, 730), (x + toward * 150, 730))
    b.tape(600, 120, word)
    b.sides()


def fork_rail(b: Bench) -> None:
    b.part(lambda pen: pen.box(600, 400, 1000, 80, 36), "bright")
    for x in (860, 930, 1000):
        b.hole(lambda pen, x=x: pen.box(x, 400, 24, 80, 3))
    b.arrow((820, 560), (1040, 560))
    b.tape(600, 560, "groove this end")
    b.sides()


def gasket(b: Bench) -> None:
    def outline(pen: Pen) -> None:
        pen.box(600, 420, 620, 620, 120)
        pen.disc(600, 420, 205, on=False)
        for x, y in ((350, 170), (850, 170), (350, 670), (850, 670)):
            pen.disc(x, y, 30, on=False)
        pen.box(850, 420, 60, 150, 24, on=False)

    b.part(outline, "copper", 5)
    b.part(lambda pen: pen.arc(600, 420, 222, 16, 0, 1), "bright", 2)
    b.tape(600, 830, "bead up")


def cylinder_head(b: Bench) -> None:
    for i in range(9):
        b.part(lambda pen, i=i: pen.box(430, 150 + i * 66, 640, 40, 10), "alloy", 6)
    b.part(lambda pen: pen.box(430, 415, 330, 330, 40), "cast", 5)
    b.hole(lambda pen: pen.disc(430, 190, 78))
    b.ink(430, 190, "exhaust", 26, "#e8e0d0")
    for i, (x, y) in enumerate(((170, 190), (690, 190), (690, 640), (170, 640)), start=1):
        b.hole(lambda pen, x=x, y=y: pen.disc(x, y, 24))
        b.ink(x + 44, y, str(i), 28)
        bolt(b, 850 + i * 66, 260, 300 if i == 4 else 200)
    b.arrow((1114, 690), (1114, 590))
    b.tape(990, 160, "hole 4 is longer", 30)
    b.tape(430, 830, "exhaust to the front")


def barrel(b: Bench) -> None:
    for i in range(10):
        wide = 760 if i in (4, 5) else 640
        b.part(lambda pen, i=i, w=wide: pen.box(600, 130 + i * 62, w, 38, 12), "cast", 6)
    b.part(lambda pen: pen.disc(600, 410, 205), "steel")
    b.hole(lambda pen: pen.disc(600, 410, 172))
    b.part(lambda pen: pen.arc(600, 410, 172, 6, 0.05, 0.45), "bright", 0)
    for x in (575, 625):
        b.marker([(x, 742)], "#23262a", 14)
    b.tape(600, 830, "two dots to the crankcase's two")


def clutch_drum(b: Bench) -> None:
    ring(b, 600, 420, 340, 268, "steel")
    for px, py in round_points(600, 420, 304, 12):
        b.hole(lambda pen, x=px, y=py: pen.disc(x, y, 30))
    b.part(lambda pen: pen.disc(600, 420, 262), "dark", 2)
    gear(b, 600, 420, 120, n=16, tone="bright")
    b.hole(lambda pen: pen.disc(600, 420, 54))
    b.tape(600, 820, "against the shoulder")


def steel_plates(b: Bench) -> None:
    for x, y in ((400, 360), (600, 440), (800, 520)):
        ring(b, x, y, 250, 170, "bright")
        for px, py in round_points(x, y, 166, 8):
            b.part(lambda pen, px=px, py=py: pen.box(px, py, 30, 30, 4), "bright", 0)
    b.tape(330, 800, "sharp edge out")


def pressure_plate(b: Bench) -> None:
    b.part(lambda pen: pen.disc(600, 420, 320), "alloy")
    for px, py in round_points(600, 420, 215, 4, 0.125):
        b.part(lambda pen, x=px, y=py: pen.disc(x, y, 74), "cast", 3)
        b.hole(lambda pen, x=px, y=py: pen.disc(x, y, 34))
    b.hole(lambda pen: pen.disc(600, 420, 70))
    b.arrow((600, 330), (600, 130), "#2c3036")
    b.marker([(600, 76)], "#b3261e", 20)
    b.tape(860, 90, "arrow to the dot")


def tab_washer(b: Bench) -> None:
    def outline(pen: Pen) -> None:
        pen.disc(600, 420, 220)
        pen.box(600, 180, 90, 120, 8)
        pen.disc(600, 420, 120, on=False)

    b.part(outline, "steel")
    b.part(lambda pen: pen.box(600, 142, 90, 44, 6), "dark", 2)
    b.tape(600, 780, "tab in the notch of the hub")


def shift_drum(b: Bench) -> None:
    b.part(lambda pen: pen.disc(600, 400, 310), "steel")
    b.part(lambda pen: pen.disc(600, 400, 250), "bright", 2)
    for px, py in round_points(600, 400, 300, 5, 10.5 / 12):
        b.hole(lambda pen, x=px, y=py: pen.disc(x, y, 40))
    b.hole(lambda pen: pen.disc(600, 400, 70))
    spot = round_points(600, 400, 300, 1, 10.5 / 12)[0]
    b.marker([spot], "#b3261e", 34)
    b.ink(600, 240, "12", 36, "#5a5e64")
    b.tape(600, 810, "neutral at half past 10")
