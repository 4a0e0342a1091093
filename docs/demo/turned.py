"""Turned and round parts: bearings, rings, washers, gears, shafts, springs, dowels."""

# ruff: noqa: PLR0917  (a drawing is figures in the order x, y, size)

from math import cos, pi, sin

from docs.demo.bench import Bench, Pen, Point, round_points


def ring(b: Bench, x: float, y: float, outer: float, inner: float, tone: str = "steel") -> None:
    def outline(pen: Pen) -> None:
        pen.disc(x, y, outer)
        pen.disc(x, y, inner, on=False)

    b.part(outline, tone)


def bearing(b: Bench, x: float, y: float, r: float, *, sealed: bool, groove: bool = False) -> None:
    """A ball bearing from its sealed or its open side."""
    ring(b, x, y, r, r * 0.44, "bright")
    if groove:
        b.hole(lambda pen: pen.arc(x, y, r * 0.955, r * 0.022, 0, 1))
    if sealed:
        b.part(lambda pen: pen.arc(x, y, r * 0.69, r * 0.3, 0, 1), "rubber", 0)
        b.ink(x, y - r * 0.69, "6004 sealed", int(r * 0.11), "#c8ccd0")
        return
    b.hole(lambda pen: pen.arc(x, y, r * 0.69, r * 0.26, 0, 1))
    for px, py in round_points(x, y, r * 0.69, 9):
        b.part(lambda pen, px=px, py=py: pen.disc(px, py, r * 0.115), "bright", 2)


def in_bore(b: Bench, side: str, sealed: bool, groove: bool = False) -> None:
    """A bearing in its bore of the case."""
    b.part(lambda pen: pen.box(600, 420, 900, 640, 60), "alloy")
    for x, y in ((200, 150), (1000, 150), (200, 690), (1000, 690)):
        b.hole(lambda pen, x=x, y=y: pen.disc(x, y, 24))
    b.hole(lambda pen: pen.disc(600, 420, 262))
    bearing(b, 600, 420, 250, sealed=sealed, groove=groove)
    b.tape(600, 800, side)


def seal(b: Bench) -> None:
    b.part(lambda pen: pen.box(600, 410, 860, 600, 60), "alloy")
    b.hole(lambda pen: pen.disc(600, 410, 236))
    ring(b, 600, 410, 224, 108, "rubber")
    b.part(lambda pen: pen.arc(600, 410, 196, 30, 0, 1), "steel", 0)
    b.part(lambda pen: pen.arc(600, 410, 118, 12, 0, 1), "dark", 2)
    b.tape(600, 780, "lip faces in, 1.2 mm below")
    b.arrow((900, 410), (740, 410))


def domed_washer(b: Bench) -> None:
    ring(b, 600, 430, 270, 120, "bright")
    b.stamp(600, 240, "OUT", 66)
    b.part(lambda pen: pen.arc(600, 430, 145, 8, 0, 1), "steel", 0)
    b.tape(600, 800, "OUT is the hollow side")


def splined_washer(b: Bench) -> None:
    def outline(pen: Pen) -> None:
        pen.disc(560, 430, 250)
        pen.teeth(560, 430, 150, 14, 22, on=False)

    b.part(outline, "bright")
    b.part(lambda pen: pen.arc(560, 430, 240, 14, 0, 1), "steel", 0)
    b.part(lambda pen: pen.box(990, 430, 30, 470, 6), "bright")
    b.part(lambda pen: pen.poly([(1005, 195), (1024, 230), (1024, 630), (1005, 665)]), "steel", 3)
    b.tape(600, 800, "chamfer to second gear")


def circlip(b: Bench) -> None:
    def outline(pen: Pen) -> None:
        pen.arc(520, 420, 220, 44, 0.08, 0.92)
        for x in (395, 645):
            pen.disc(x, 236, 42)

    b.part(outline, "dark")
    for x in (395, 645):
        b.hole(lambda pen, x=x: pen.disc(x, 236, 15))
    b.part(lambda pen: pen.box(960, 420, 26, 440, 3), "dark")
    b.part(lambda pen: pen.box(976, 420, 5, 440, 1), "bright", 0)
    b.tape(960, 700, "sharp edge out", 30)
    b.arrow((1010, 420), (1110, 420))


def pin_circlips(b: Bench) -> None:
    for x in (370, 830):
        b.part(lambda pen, x=x: pen.disc(x, 420, 220), "alloy")
        b.hole(lambda pen, x=x: pen.disc(x, 420, 150))
        b.part(lambda pen, x=x: pen.arc(x, 420, 140, 18, 0.56, 1.44), "bright", 4)
    b.tape(600, 780, "gaps at 6 o'clock")


def piston_rings(b: Bench) -> None:
    for x, y, turn, word in (
        (310, 330, 4 / 12, "top"),
        (890, 330, 8 / 12, "2nd"),
        (600, 560, 0, "oil"),
    ):
        b.part(lambda pen, x=x, y=y, t=turn: pen.arc(x, y, 210, 20, t + 0.02, t + 0.98), "dark")
        b.ink(x, y, word, 40, "#2c2622")
    for x, y, turn in ((310, 330, 0.37), (890, 330, 0.70)):
        b.marker([(x + 210 * sin(2 * pi * turn), y - 210 * cos(2 * pi * turn))], "#f4f0e0", 13)
    b.tape(600, 830, "dots up")


def springs(b: Bench, places: list[Point], close_at_bottom: bool, word: str) -> None:
    for x, y in places:
        gaps = [52, 48, 44, 40, 34, 28, 24, 20, 18] if close_at_bottom else [38] * 9
        top = y - sum(gaps) / 2
        for turn, gap in enumerate(gaps):
            low = top + gap
            if turn < len(gaps) - 1:  # the far half of the turn, seen between the near ones
                back = [(x + 62, top - 6), (x - 62, low + 18)]
                b.part(lambda pen, points=back: pen.line(points, 11), "dark", 2)
            top = low
        top = y - sum(gaps) / 2
        for gap in gaps:
            near = [(x - 62, top + 18), (x + 62, top - 6)]
            b.part(lambda pen, points=near: pen.line(points, 15), "bright", 4)
            top += gap
    b.tape(600, 800, word)


def gear(b: Bench, x: float, y: float, r: float, *, n: int, tone: str = "steel") -> None:
    b.part(lambda pen: pen.teeth(x, y, r, n, r * 0.12), tone)
    b.part(lambda pen: pen.arc(x, y, r * 0.62, r * 0.05, 0, 1), "dark", 0)


def second_gear(b: Bench) -> None:
    gear(b, 600, 420, 330, n=26)
    for px, py in round_points(600, 420, 225, 4, 0.1):
        b.part(lambda pen, x=px, y=py: pen.box(x, y, 92, 92, 22), "bright")
    b.hole(lambda pen: pen.teeth(600, 420, 118, 12, 18))
    b.tape(600, 810, "dogs to the flywheel side")


def shaft(b: Bench, word: str) -> None:
    b.part(lambda pen: pen.box(600, 400, 1000, 70, 14), "bright")
    b.part(lambda pen: pen.box(330, 400, 150, 210, 10), "steel")
    for i in range(9):
        b.hole(lambda pen, i=i: pen.box(330, 310 + i * 22, 150, 7, 2))
    b.part(lambda pen: pen.box(560, 400, 190, 130, 10), "steel")
    for i in range(7):
        b.hole(lambda pen, i=i: pen.box(960, 372 + i * 9.5, 240, 3, 1))
    b.hole(lambda pen: pen.box(770, 400, 90, 22, 11))
    b.arrow((940, 560), (1090, 560))
    b.tape(700, 560, word)
    b.sides()


def dowels(b: Bench) -> None:
    b.part(lambda pen: pen.box(600, 470, 960, 400, 40), "alloy")
    for x in (330, 870):
        b.hole(lambda pen, x=x: pen.disc(x, 420, 74))
        ring(b, x, 420, 66, 42, "bright")
    b.tape(600, 560, "5 mm proud")


def jet(b: Bench, word: str, hexagon: bool) -> None:
    x, y = 600, 400
    b.part(lambda pen: pen.box(x, y + 120, 150, 220, 8), "brass")
    for i in range(8):
        b.hole(lambda pen, i=i: pen.box(x, y + 40 + i * 25, 150, 6, 2))
    if hexagon:
        b.part(lambda pen: pen.box(x, y - 60, 270, 150, 14), "brass")
        b.part(lambda pen: pen.box(x, y - 60, 120, 150, 4), "brass", 0)
        b.stamp(x, y - 60, "95", 60)
    else:
        b.part(lambda pen: pen.box(x, y - 70, 230, 140, 30), "brass")
        b.hole(lambda pen: pen.box(x, y - 118, 40, 44, 2))
    b.part(
        lambda pen: pen.poly(
            [(x - 75, y + 226), (x + 75, y + 226), (x + 24, y + 300), (x - 24, y + 300)]
        ),
        "brass",
    )
    b.tape(600, 820, word)


def detent(b: Bench) -> None:
    b.part(lambda pen: pen.disc(240, 420, 70), "bright")
    for i in range(9):
        b.part(
            lambda pen, i=i: pen.line([(380 + i * 32, 480), (404 + i * 32, 360)], 13), "bright", 5
        )
    b.part(lambda pen: pen.box(840, 420, 180, 110, 6), "steel")
    for i in range(8):
        b.hole(lambda pen, i=i: pen.box(764 + i * 21, 420, 5, 110, 1))
    b.part(lambda pen: pen.poly(round_points(990, 420, 118, 6)), "steel")
    b.tape(240, 600, "ball", 32)
    b.tape(520, 600, "spring", 32)
    b.tape(900, 600, "plug", 32)
    b.tape(600, 780, "in this order, ball first")


def push_rods(b: Bench) -> None:
    for x in (480, 720):
        b.part(lambda pen, x=x: pen.line([(x, 170), (x, 700)], 30), "bright")
        b.part(lambda pen, x=x: pen.box(x, 160, 66, 70, 20), "steel")
        b.hole(lambda pen, x=x: pen.oval(x, 140, 20, 11))
        b.part(lambda pen, x=x: pen.disc(x, 716, 26), "steel")
    b.tape(960, 160, "cup up")
    b.arrow((960, 420), (960, 240))


def valve(b: Bench, word: str) -> None:
    b.part(lambda pen: pen.box(480, 420, 640, 34, 12), "bright")
    b.part(
        lambda pen: pen.poly(
            [(800, 402), (930, 250), (970, 250), (970, 590), (930, 590), (800, 438)]
        ),
        "steel",
    )
    b.hole(lambda pen: pen.box(205, 420, 12, 40, 3))
    for y in (300, 344, 500, 548):
        b.marker([(944, y)], "#4a3a30", 10)
    b.tape(600, 760, word)
