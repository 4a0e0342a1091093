"""The marks a step is made of, in points right of and below its top left corner."""

from dataclasses import dataclass, field
from typing import NamedTuple

from bagtag.domain.shapes import Picture
from bagtag.paper.fonts import CAP, DESCENT, width
from bagtag.paper.ink import INK, RGB

Bounds = tuple[float, float, float, float]
"""Left, top, right, bottom."""


class Words(NamedTuple):
    """A line of text; `y` is its baseline."""

    x: float
    y: float
    text: str
    font: str
    size: float
    colour: RGB = INK

    @property
    def bounds(self) -> Bounds:
        right = self.x + width(self.text, self.font, self.size)
        return self.x, self.y - CAP * self.size, right, self.y + DESCENT * self.size


class Rule(NamedTuple):
    """A line to write on."""

    x: float
    y: float
    width: float
    weight: float = 0.6

    @property
    def bounds(self) -> Bounds:
        half = self.weight / 2
        return self.x, self.y - half, self.x + self.width, self.y + half


class Tick(NamedTuple):
    """A box to tick, ticked where it is done."""

    x: float
    y: float
    side: float
    done: bool = False

    @property
    def bounds(self) -> Bounds:
        return self.x, self.y, self.x + self.side, self.y + self.side


class Caution(NamedTuple):
    """The warning triangle."""

    x: float
    y: float
    side: float

    @property
    def bounds(self) -> Bounds:
        return self.x, self.y, self.x + self.side, self.y + self.side


class Box(NamedTuple):
    """A rectangle: filled, or an outline of some weight."""

    x: float
    y: float
    width: float
    height: float
    fill: RGB | None = None
    weight: float = 0.9

    @property
    def bounds(self) -> Bounds:
        return self.x, self.y, self.x + self.width, self.y + self.height


class Drawing(NamedTuple):
    """A picture, as large as fits into its box."""

    x: float
    y: float
    width: float
    height: float
    picture: Picture

    @property
    def bounds(self) -> Bounds:
        return self.x, self.y, self.x + self.width, self.y + self.height


@dataclass(slots=True)
class Marks:
    """Marks by kind, in the order they are to be painted: boxes lie under everything."""

    words: list[Words] = field(default_factory=list)
    rules: list[Rule] = field(default_factory=list)
    ticks: list[Tick] = field(default_factory=list)
    cautions: list[Caution] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    drawings: list[Drawing] = field(default_factory=list)


def moved(marks: Marks, down: float, *, onto: Marks) -> Marks:
    """Marks set that far further down, added to others; returns those."""
    onto.words += [one._replace(y=one.y + down) for one in marks.words]
    onto.rules += [one._replace(y=one.y + down) for one in marks.rules]
    onto.ticks += [one._replace(y=one.y + down) for one in marks.ticks]
    onto.cautions += [one._replace(y=one.y + down) for one in marks.cautions]
    onto.boxes += [one._replace(y=one.y + down) for one in marks.boxes]
    onto.drawings += [one._replace(y=one.y + down) for one in marks.drawings]
    return onto
