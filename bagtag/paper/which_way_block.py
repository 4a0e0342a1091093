"""The which-way picture and its sentence, one above or one beside the other: whichever lets both
be larger in the height there is."""

from collections.abc import Iterator, Sequence
from math import ceil
from typing import NamedTuple

from bagtag.domain.which_way import Fact, Hand
from bagtag.paper.blocks import Block, lines_block, moved, picture_block, text_height
from bagtag.paper.fonts import CAP, MEDIUM, width
from bagtag.paper.typeset import wrap

SHARES = (1.0, 0.86, 0.73, 0.6)
"""Sizes the sentence is tried in, as shares of bench text; the last is the small print's."""


class Room(NamedTuple):
    """What there is to share, in mm; `unit` is the height of bench text."""

    width: float
    height: float
    unit: float
    gap: float


class Shape(NamedTuple):
    """How much wider than high a picture wants to be with all its parts in one row: with just
    their drawings, and with the words beside them."""

    narrow: float
    wide: float

    @classmethod
    def of(cls, facts: Sequence[Fact]) -> "Shape":
        hands = sum(isinstance(fact, Hand) for fact in facts[:4])
        others = len(facts[:4]) - hands
        return cls(0.85 * hands + 1.35 * others, 0.85 * hands + 2.1 * others)


class _Way(NamedTuple):
    """A picture of some height and width, and the sentence with its left end at `left`, else
    below the picture where `left` is 0."""

    high: float
    wide: float
    said: Block
    left: float = 0.0

    def block(self, gap: float) -> Block:
        box = picture_block(self.wide, self.high).picture
        assert box is not None
        if not self.left:
            below = self.high + (gap if self.said.height else 0)
            words = moved(self.said, 0, below).words
            height = below + self.said.height
            return Block(height, words, (), box, self.said.complaint)
        height = max(self.high, self.said.height)
        words = moved(self.said, self.left, (height - self.said.height) / 2).words
        return Block(height, words, (), box._replace(y=(height - self.high) / 2))

    def merit(self, shape: Shape, room: Room) -> float:
        """Heights of the picture's parts and of the sentence's letters, in bench units."""
        in_rows = max(room.width / shape.narrow, self.high * 0.45)
        drawn = min(self.high, in_rows, 4 * room.unit)
        return (drawn + 2 * self.said.words[0].size) / room.unit


def arrange(facts: Sequence[Fact], said: Block | None, room: Room) -> Block:
    """One block of picture and sentence. A sentence that had to be cut stays as it is."""
    shape = Shape.of(facts)
    if said is None or said.complaint:
        return _stacked(said or Block(0), shape, room).block(room.gap)
    text = " ".join([words.text for words in said.words])
    ways = [_stacked(said, shape, room), *_ways(text, shape, room)]
    return max(ways, key=lambda way: way.merit(shape, room)).block(room.gap)


def _ways(text: str, shape: Shape, room: Room) -> Iterator[_Way]:
    for share in SHARES:
        cap = share * room.unit
        below = _set(text, cap, room.width, room.height - room.gap - 1.9 * room.unit)
        if below is not None:
            yield _stacked(below, shape, room)
        for part in (1.0, 0.8):
            high = min(part * room.height, 6 * room.unit)
            wide = shape.narrow * high
            left = wide + 0.6 * room.unit
            if left <= 0.65 * room.width:
                beside = _set(text, cap, room.width - left, room.height)
                if beside is not None:
                    yield _Way(high, wide, beside, left)
                    break


def _stacked(said: Block, shape: Shape, room: Room) -> _Way:
    gap = room.gap if said.height else 0
    high = min(room.height - said.height - gap, 6 * room.unit)
    return _Way(high, min(room.width, shape.wide * high), said)


def _set(text: str, cap: float, room: float, height: float) -> Block | None:
    """The whole text in that width and height, with no word divided; else nothing."""
    size = cap / CAP
    least = ceil(width(text, MEDIUM, size) / room)
    if text_height(least, cap) > height:
        return None
    lines = wrap(text, MEDIUM, size, room)
    if text_height(len(lines), cap) > height or " ".join(lines) != text:
        return None
    return lines_block(lines, MEDIUM, cap)
