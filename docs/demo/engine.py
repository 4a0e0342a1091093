"""Parts of the engine that are drawn once each."""

from docs.demo.bench import Bench, Pen, round_points
from docs.demo.flat import bolt
from docs.demo.turned import gear


def column(b: Bench) -> None:
    b.part(lambda pen: pen.line([(600, 560), (430, 120)], 60), "dark")
    b.part(lambda pen: pen.line([(600, 560), (770, 120)], 60), "dark")
    b.part(lambda pen: pen.box(600, 620, 420, 200, 30), "cast")
    for x in (440, 760):
        for y in (570, 680):
            b.hole(lambda pen, x=x, y=y: pen.disc(x, y, 20))
    b.marker([(520, 700), (520, 770)], "#e8e4d0", 14)
    b.tape(830, 800, "paint line to the cover's line", 30)


def silencer(b: Bench) -> None:
    b.part(lambda pen: pen.box(620, 360, 560, 400, 120), "dark")
    b.part(lambda pen: pen.box(620, 360, 440, 280, 80), "cast", 3)
    for i in range(5):
        for j in range(3):
            b.hole(lambda pen, i=i, j=j: pen.disc(470 + i * 75, 290 + j * 70, 16))
    b.part(lambda pen: pen.box(620, 620, 90, 140, 10), "steel")
    b.hole(lambda pen: pen.oval(620, 684, 38, 16))
    b.arrow((820, 600), (820, 740))
    b.tape(320, 760, "outlet down")


def carburettor(b: Bench) -> None:
    b.part(lambda pen: pen.box(600, 300, 420, 240, 40), "alloy")
    b.part(lambda pen: pen.box(600, 520, 300, 260, 90), "cast")
    b.hole(lambda pen: pen.disc(600, 300, 96))
    b.part(lambda pen: pen.box(600, 300, 12, 190, 4), "brass", 2)
    b.part(lambda pen: pen.line([(810, 270), (960, 200)], 30), "steel")
    b.part(lambda pen: pen.disc(960, 200, 34), "rubber")
    b.part(lambda pen: pen.poly(round_points(600, 650, 46, 6)), "brass", 3)
    b.tape(1000, 330, "choke", 30)
    b.sides()


def insulator(b: Bench) -> None:
    def outline(pen: Pen) -> None:
        pen.box(600, 420, 560, 360, 60)
        pen.disc(600, 420, 120, on=False)
        for x in (390, 810):
            pen.disc(x, 420, 34, on=False)
        pen.poly([(560, 230), (640, 230), (600, 290)], on=False)

    b.part(outline, "rubber")
    b.part(lambda pen: pen.arc(600, 420, 140, 18, 0, 1), "dark", 2)
    b.tape(600, 160, "notch up")
    b.tape(600, 740, "this side to the carburettor")


def flywheel(b: Bench) -> None:
    b.part(lambda pen: pen.teeth(600, 420, 370, 20, 40), "cast")
    b.part(lambda pen: pen.disc(600, 420, 300), "alloy", 3)
    for turn in (0.22, 0.3):
        b.part(lambda pen, t=turn: pen.arc(600, 420, 330, 52, t, t + 0.05), "bright", 3)
    b.hole(lambda pen: pen.disc(600, 420, 80))
    b.hole(lambda pen: pen.box(600, 338, 36, 40, 4))
    for px, py in round_points(600, 420, 190, 2, 0.25):
        b.hole(lambda pen, x=px, y=py: pen.disc(x, y, 24))
    b.arrow((600, 230), (600, 312))
    b.tape(600, 850, "keyway at 12")


def key(b: Bench) -> None:
    b.part(lambda pen: pen.box(600, 560, 1000, 180, 20), "steel")
    b.hole(lambda pen: pen.box(600, 486, 330, 34, 6))

    def outline(pen: Pen) -> None:
        pen.disc(600, 430, 170)
        pen.box(600, 300, 400, 220, 0, on=False)

    b.part(outline, "bright")
    b.tape(600, 200, "1.5 mm proud of the shaft")


def rocker(b: Bench, place: int) -> None:
    b.part(lambda pen: pen.box(600, 640, 900, 110, 20), "alloy")
    for x, number in ((360, 1), (840, 2)):
        tone = "bright" if number == place else "dark"

        def outline(pen: Pen, x: int = x) -> None:
            pen.line([(x - 70, 230), (x, 400), (x + 60, 560)], 84)
            pen.disc(x, 400, 78)
            pen.disc(x, 400, 30, on=False)

        b.part(outline, tone)
        b.part(lambda pen, x=x: pen.poly(round_points(x - 70, 230, 42, 6)), "steel", 4)
        b.ink(x, 640, str(number), 60)
    b.tape(600, 120, "inlet is the 1st" if place == 1 else "exhaust is the 2nd")
    b.sides()


def piston(b: Bench) -> None:
    b.part(lambda pen: pen.disc(600, 420, 330), "alloy")
    b.part(lambda pen: pen.disc(600, 420, 296), "bright", 2)
    for x in (480, 720):
        b.hole(lambda pen, x=x: pen.arc(x, 420, 90, 3, 0.1, 0.4))
    b.arrow((600, 360), (600, 150), "#2c3036")
    b.stamp(600, 560, "STD", 44)
    b.tape(600, 830, "arrow to the front, where the exhaust is", 30)


def camshaft(b: Bench) -> None:
    b.part(lambda pen: pen.box(700, 400, 820, 60, 20), "bright")
    for x, y in ((560, 360), (760, 440)):
        b.part(lambda pen, x=x, y=y: pen.box(x, y, 86, 200, 40), "steel")
    gear(b, 300, 400, 230, n=28)
    gear(b, 300, 745, 112, n=14, tone="dark")
    b.marker([(300, 596)], "#f2ead0", 13)
    for x in (285, 317):
        b.marker([(x, 662)], "#f2ead0", 13)
    b.tape(760, 700, "dot between two dots")


def rod(b: Bench) -> None:
    def outline(pen: Pen) -> None:
        pen.line([(600, 190), (600, 560)], 96)
        pen.disc(600, 170, 100)
        pen.disc(600, 620, 170)
        pen.disc(600, 170, 54, on=False)
        pen.disc(600, 620, 112, on=False)

    b.part(outline, "steel")
    b.part(lambda pen: pen.line([(600, 300), (600, 430)], 34), "cast", 0)
    b.hole(lambda pen: pen.disc(735, 560, 15))
    b.arrow((790, 540), (930, 500))
    b.tape(950, 420, "oil hole", 30)
    b.sides()


def rod_cap(b: Bench) -> None:
    def outline(pen: Pen) -> None:
        pen.disc(560, 330, 250)
        pen.box(560, 200, 640, 260, 0, on=False)
        for x in (340, 780):
            pen.box(x, 390, 120, 120, 16)
        pen.disc(560, 330, 165, on=False)
        pen.poly([(530, 560), (590, 560), (575, 740), (545, 740)])

    b.part(outline, "steel")
    for x in (340, 780):
        b.hole(lambda pen, x=x: pen.disc(x, 390, 26))
    for y in (420, 440):
        b.marker([(292, y), (330, y)], "#f2ead0", 7)
    bolt(b, 960, 270, 190)
    bolt(b, 1060, 270, 190)
    b.tape(970, 560, "new bolts", 30)
    b.tape(560, 140, "raised lines meet the rod's")


def crankshaft(b: Bench) -> None:
    b.part(lambda pen: pen.poly([(70, 350), (330, 322), (330, 478), (70, 450)]), "bright")
    b.part(lambda pen: pen.box(390, 400, 130, 170, 10), "bright")
    for x in (500, 720):
        b.part(lambda pen, x=x: pen.box(x, 440, 90, 420, 40), "cast")
    b.part(lambda pen: pen.box(610, 300, 140, 110, 10), "bright")
    b.part(lambda pen: pen.box(860, 400, 190, 150, 10), "bright")
    gear(b, 850, 400, 105, n=14)
    b.part(lambda pen: pen.box(1050, 400, 190, 90, 10), "steel")
    b.tape(220, 220, "taper this side", 30)
    b.sides()
