"""The which-way picture and its sentence, one above or one beside the other: whichever lets both
be larger in the height there is."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from bagtag.domain.which_way import Fact, Hand
from bagtag.paper.blocks import Block, moved, picture_block, whole
from bagtag.paper.fonts import MEDIUM

SHARES = (1.0, 0.86, 0.73, 0.6)
"""Sizes the sentence is tried in, as shares of bench text; the last is the small print's."""


class Room(NamedTuple):
    """What there is to share, in mm; `unit` is the height of bench text."""

    width: float
    height: float
    unit: float
    gap: float


def arrange(facts: Sequence[Fact], said: Block | None, room: Room) -> Block:
    """One block of picture and sentence. A sentence that had to be cut stays as it is."""
    shape = Shape.of(facts)
    if said is None or said.complaint:
        return _stacked(said, shape, room)
    text = " ".join(words.text for words in said.words)
    ways = [(_merit(block, shape, room), block) for block in _ways(text, said, shape, room)]
    return max(ways, key=lambda way: way[0])[1]


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


def _ways(text: str, said: Block, shape: Shape, room: Room) -> Iterator[Block]:
    yield _stacked(said, shape, room)
    for share in SHARES:
        cap = share * room.unit
        below = whole(text, MEDIUM, cap, room.width)
        if below.height + room.gap + 1.9 * room.unit <= room.height:
            yield _stacked(below, shape, room)
        for high in (room.height, 0.85 * room.height, 0.7 * room.height):
            beside = _beside(text, cap, min(high, 6 * room.unit), shape, room)
            if beside is not None:
                yield beside


def _stacked(said: Block | None, shape: Shape, room: Room) -> Block:
    text = said or Block(0)
    gap = room.gap if said else 0
    high = min(room.height - text.height - gap, 6 * room.unit)
    drawn = picture_block(min(room.width, shape.wide * high), high)
    below = moved(text, 0, high + gap)
    return drawn._replace(
        height=high + gap + text.height, words=below.words, complaint=text.complaint
    )


def _beside(text: str, cap: float, high: float, shape: Shape, room: Room) -> Block | None:
    """The sentence to the right of the picture, if it is whole there."""
    wide = shape.narrow * high
    left = wide + 0.6 * room.unit
    if left > 0.65 * room.width:
        return None
    said = whole(text, MEDIUM, cap, room.width - left)
    if said.height > room.height or _has_divided_words(text, said):
        return None
    height = max(high, said.height)
    words = moved(said, left, (height - said.height) / 2).words
    box = picture_block(wide, high).picture
    assert box is not None
    return Block(height, words, picture=box._replace(y=(height - high) / 2))


def _has_divided_words(text: str, said: Block) -> bool:
    return " ".join(words.text for words in said.words) != text


def _merit(block: Block, shape: Shape, room: Room) -> float:
    """Heights of the picture's parts and of the sentence's letters, in bench units."""
    box = block.picture
    assert box is not None
    drawn = min(box.height, max(room.width / shape.narrow, box.height * 0.45), 4 * room.unit)
    return drawn / room.unit + 2 * block.words[0].size / room.unit
