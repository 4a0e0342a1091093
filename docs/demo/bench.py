"""A bench top to lay drawn parts on: metal with a lit edge and a shadow, tape, a marker."""

# ruff: noqa: PLR0917  (a drawing is figures in the order x, y, size)

from collections.abc import Callable, Sequence
from math import cos, pi, sin
from pathlib import Path

import font_roboto
import numpy as np
from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

WIDTH, HEIGHT, SCALE = 1200, 900, 2  # drawn at twice the size, for smooth edges
Point = tuple[float, float]
TONES = {
    "steel": ((222, 226, 230), (128, 134, 142)),
    "bright": ((246, 248, 250), (168, 176, 184)),
    "cast": ((176, 174, 168), (104, 102, 98)),
    "alloy": ((226, 224, 216), (158, 156, 148)),
    "dark": ((108, 110, 114), (52, 54, 58)),
    "rubber": ((70, 70, 72), (30, 30, 32)),
    "brass": ((238, 208, 128), (166, 124, 52)),
    "copper": ((222, 154, 112), (146, 84, 50)),
    "paper": ((206, 192, 160), (172, 156, 122)),
    "cork": ((196, 160, 116), (156, 118, 78)),
    "hole": ((58, 56, 54), (34, 33, 32)),
}
TOPS = {
    "wood": (178, 142, 102),
    "mat": (104, 122, 116),
    "rag": (96, 116, 150),
    "card": (198, 186, 162),
}


def round_points(x: float, y: float, r: float, n: int, start: float = 0.0) -> list[Point]:
    """`n` points on a circle, the first at `start` (0 is twelve o'clock), clockwise."""
    angles = (2 * pi * (i / n) + 2 * pi * start for i in range(n))
    return [(x + r * sin(a), y - r * cos(a)) for a in angles]


class Pen:
    """Draws the outline of one part; `on=False` cuts out of it."""

    def __init__(self, mask: Image.Image) -> None:
        self.draw = ImageDraw.Draw(mask)

    def disc(self, x: float, y: float, r: float, on: bool = True) -> None:
        self.oval(x, y, r, r, on)

    def oval(self, x: float, y: float, rx: float, ry: float, on: bool = True) -> None:
        box = [(x - rx) * SCALE, (y - ry) * SCALE, (x + rx) * SCALE, (y + ry) * SCALE]
        self.draw.ellipse(box, fill=255 * on)

    def box(self, x: float, y: float, w: float, h: float, r: float = 8, on: bool = True) -> None:
        """A rounded box around its middle."""
        box = [(x - w / 2) * SCALE, (y - h / 2) * SCALE, (x + w / 2) * SCALE, (y + h / 2) * SCALE]
        self.draw.rounded_rectangle(box, r * SCALE, fill=255 * on)

    def poly(self, points: Sequence[Point], on: bool = True) -> None:
        self.draw.polygon([(x * SCALE, y * SCALE) for x, y in points], fill=255 * on)

    def line(self, points: Sequence[Point], width: float, on: bool = True) -> None:
        scaled = [(x * SCALE, y * SCALE) for x, y in points]
        self.draw.line(scaled, fill=255 * on, width=int(width * SCALE), joint="curve")
        for x, y in points:
            self.disc(x, y, width / 2, on)

    def arc(self, x: float, y: float, r: float, width: float, start: float, end: float) -> None:
        """Part of a ring, in turns from twelve o'clock, clockwise."""
        steps = max(12, int(abs(end - start) * 120))
        turns = [start + (end - start) * i / steps for i in range(steps + 1)]
        self.line([(x + r * sin(2 * pi * t), y - r * cos(2 * pi * t)) for t in turns], width)

    def teeth(self, x: float, y: float, r: float, n: int, depth: float, on: bool = True) -> None:
        """A toothed disc of `n` teeth, `depth` high, `r` at the tips."""
        points = []
        for i in range(n):
            for share, radius in ((-0.3, r - depth), (-0.16, r), (0.16, r), (0.3, r - depth)):
                a = 2 * pi * (i + share) / n
                points.append((x + radius * sin(a), y - radius * cos(a)))
        self.poly(points, on)


class Bench:
    """The picture. Everything is given in pixels of the finished 1200 x 900."""

    def __init__(self, top: str = "wood", seed: int = 1) -> None:
        self.image = _bench_top(TOPS[top], top == "wood", seed)

    def part(self, outline: Callable[[Pen], None], tone: str = "steel", lift: float = 12) -> None:
        """Lay a part down: its shadow, its metal lit from the upper left, its edge."""
        mask = Image.new("L", self.image.size)
        outline(Pen(mask))
        if lift:
            self._shade(mask, lift)
        light, dark = TONES[tone]
        self.image.paste(_sheen(mask, light, dark), (0, 0), mask)
        self._edge(mask, 5 if lift else 3)

    def hole(self, outline: Callable[[Pen], None]) -> None:
        """A bore or a recess: dark, with its edge the other way round."""
        mask = Image.new("L", self.image.size)
        outline(Pen(mask))
        light, dark = TONES["hole"]
        self.image.paste(_sheen(mask, dark, light), (0, 0), mask)
        self._edge(mask, 3, sunk=True)

    def tape(self, x: float, y: float, text: str, size: int = 34) -> None:
        """A piece of masking tape with a word on it, around its middle."""
        font = _font(size)
        width = font.getlength(text) / SCALE + 44
        height = size * 1.7
        left, right = x - width / 2, x + width / 2
        torn = [(left + (4 if i % 2 else 0), y - height / 2 + height * i / 6) for i in range(7)]
        torn += [(right - (4 if i % 2 else 0), y + height / 2 - height * i / 6) for i in range(7)]
        mask = Image.new("L", self.image.size)
        Pen(mask).poly(torn)
        self._shade(mask, 3)
        self.image.paste(Image.new("RGB", self.image.size, (238, 226, 182)), (0, 0), mask)
        self.ink(x, y, text, size)

    def ink(self, x: float, y: float, text: str, size: int, colour: str = "#22262c") -> None:
        """A word, around its middle."""
        at = (x * SCALE, y * SCALE)
        ImageDraw.Draw(self.image).text(at, text, fill=colour, font=_font(size), anchor="mm")

    def stamp(self, x: float, y: float, text: str, size: int) -> None:
        """A word struck into metal."""
        self.ink(x + 1.2, y + 1.2, text, size, "#f4f6f8")
        self.ink(x, y, text, size, "#3a3e44")

    def marker(self, points: Sequence[Point], colour: str = "#b3261e", width: float = 9) -> None:
        """A stroke of paint or marker."""
        scaled = [(x * SCALE, y * SCALE) for x, y in points]
        draw = ImageDraw.Draw(self.image)
        draw.line(scaled, fill=colour, width=int(width * SCALE), joint="curve")
        for x, y in scaled:
            r = width * SCALE / 2
            draw.ellipse([x - r, y - r, x + r, y + r], fill=colour)

    def arrow(self, start: Point, end: Point, colour: str = "#b3261e") -> None:
        """A marker arrow."""
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = (dx * dx + dy * dy) ** 0.5
        ux, uy = dx / length, dy / length
        left = (end[0] - 34 * ux - 22 * uy, end[1] - 34 * uy + 22 * ux)
        right = (end[0] - 34 * ux + 22 * uy, end[1] - 34 * uy - 22 * ux)
        self.marker([start, end], colour)
        self.marker([left, end, right], colour)

    def sides(self) -> None:
        """Which side is which, as the job's datum has it."""
        self.tape(150, 836, "flywheel side", 30)
        self.tape(1060, 836, "clutch side", 30)
        self.marker([(44, 775), (30, 789), (44, 803)], "#22262c", 5)
        self.marker([(30, 789), (120, 789)], "#22262c", 5)
        self.marker([(1156, 775), (1170, 789), (1156, 803)], "#22262c", 5)
        self.marker([(1170, 789), (1080, 789)], "#22262c", 5)

    def save(self, path: Path) -> None:
        small = self.image.resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS)
        small.save(path, quality=80, optimize=True)

    def _shade(self, mask: Image.Image, lift: float) -> None:
        moved = ImageChops.offset(mask, int(lift * SCALE), int(lift * 1.2 * SCALE))
        soft = moved.filter(ImageFilter.GaussianBlur(lift * SCALE * 0.8))
        dark = Image.new("RGB", self.image.size, (24, 20, 16))
        self.image.paste(dark, (0, 0), soft.point(lambda v: v * 0.55))

    def _edge(self, mask: Image.Image, width: int, sunk: bool = False) -> None:
        move = width * SCALE // 2
        lit = ImageChops.subtract(mask, ImageChops.offset(mask, move, move))
        shaded = ImageChops.subtract(mask, ImageChops.offset(mask, -move, -move))
        if sunk:
            lit, shaded = shaded, lit
        blur = ImageFilter.GaussianBlur(SCALE * 0.8)
        white = Image.new("RGB", self.image.size, "white")
        black = Image.new("RGB", self.image.size, "black")
        for edge, colour, share in ((lit, white, 0.6), (shaded, black, 0.45)):
            kept = ImageChops.multiply(edge.filter(blur), mask)
            self.image.paste(colour, (0, 0), kept.point(lambda v, s=share: v * s))


def _font(size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(font_roboto.RobotoMedium, size * SCALE)


def _sheen(mask: Image.Image, light: tuple, dark: tuple) -> Image.Image:
    """A run from light to dark across the part's own box, with a band as turned metal has."""
    left, top, right, bottom = mask.getbbox() or (0, 0, 1, 1)
    ys, xs = np.mgrid[0 : bottom - top, 0 : right - left].astype(np.float32)
    run = (xs / max(1, right - left) + ys / max(1, bottom - top)) / 2
    run = np.clip(run + 0.08 * np.sin(run * 9), 0, 1)[..., None]
    colours = np.array(light, np.float32) * (1 - run) + np.array(dark, np.float32) * run
    whole = Image.new("RGB", mask.size)
    whole.paste(Image.fromarray(colours.astype(np.uint8)), (left, top))
    return whole


def _bench_top(colour: tuple[int, int, int], grain: bool, seed: int) -> Image.Image:
    height, width = HEIGHT * SCALE, WIDTH * SCALE
    ys, xs = np.mgrid[0:height, 0:width].astype(np.float32)
    light = 1.12 - 0.34 * ((xs / width - 0.35) ** 2 + (ys / height - 0.35) ** 2)
    if grain:
        chance = np.random.default_rng(seed)
        rows = np.cumsum(chance.normal(0, 1, height))
        rows = (rows - np.convolve(rows, np.ones(60) / 60, "same")) * 0.010
        light += np.clip(rows, -0.06, 0.06)[:, None]
        for plank in (0.31, 0.64):
            seam = int(height * (plank + 0.01 * (seed % 3)))
            light[seam : seam + 5] -= 0.35
    picture = np.clip(light[..., None] * np.array(colour, np.float32), 0, 255)
    return Image.fromarray(picture.astype(np.uint8))
