"""A label's name and fate: read at the bench, so large where that fits, small and reported where it
does not."""

from collections.abc import Iterator
from dataclasses import replace

from bagtag.domain.model import Fate
from bagtag.paper.blocks import Block, paragraph, pill, pill_width, side_by_side
from bagtag.paper.fonts import MEDIUM, REGULAR, tidy
from bagtag.paper.label_column import TIGHT_CAP, Column, whole_only
from bagtag.paper.label_which_way import take_sentence


def first_names(column: Column) -> Iterator[Block]:
    """The name in one line at bench size, else whole and small, else cut."""
    (line,) = _one_line_names(column)
    if not line.complaint:
        yield line
    small = [_name(column, most, TIGHT_CAP) for most in (1, 2)]
    note = f"The name is set small, {TIGHT_CAP} mm high."
    yield from (block._replace(complaint=note) for block in small if not block.complaint)
    yield line


def whole_names(column: Column, *lines: int) -> Iterator[Block]:
    """A cut or small name at bench size, in so many lines or so many."""
    if "name" in column.blocks and column.blocks["name"].complaint:
        yield from (_name(column, most, column.unit) for most in lines)


def grow_name(column: Column, scale: float) -> None:
    """A name that is whole may be larger, as long as it takes no more lines."""
    old = column.blocks.get("name")
    spare = column.height - column.used
    if old is not None and not old.complaint and spare > 0.2 * column.unit:
        most = len({words.y for words in old.words if not words.white})
        caps = (column.unit * scale * share for share in (1.0, 0.8, 0.65))
        versions = (_name(column, most, cap) for cap in caps)
        column.take("name", whole_only(versions))


def take_fate(column: Column, *, apart: bool) -> None:
    """What is not simply refitted says so in white on black: beside the name, else in a row of
    its own, else as the first word of the sentence."""
    label = column.label
    if label.fate is Fate.REFIT:
        return
    column.badge = label.fate.value.upper()
    if column.take("name", [b for b in _one_line_names(column) if not b.complaint]):
        return
    word, column.badge = column.badge, ""
    if not apart and label.area and column.take("fate", _fate_and_area(column, word)):
        column.label = replace(label, area="")
        return
    in_a_row = column.take("fate", (pill(word, cap) for cap in (column.unit, TIGHT_CAP)))
    if not in_a_row and take_sentence(column, f"{word}. "):
        column.wanted.remove("fate")


def _one_line_names(column: Column) -> list[Block]:
    return [_name(column, 1, column.unit)]


def _name(column: Column, most: int, cap: float) -> Block:
    """The name with its count, and the badge of its fate at the end of a single line."""
    label, badge, said = column.label, None, tidy(column.label.name)
    count = f"×\u00a0{label.quantity}" if label.quantity > 1 else ""
    tail = f"\u00a0{count}" if said and count else ""
    room = column.width
    if column.badge:
        badge = pill(column.badge, max(TIGHT_CAP, column.unit * 0.73))
        room -= badge.bars[0].width + column.unit * 0.5
    name = paragraph(said or count, MEDIUM, cap, room, most=most, what="The name", tail=tail)
    if badge is None:
        return name
    return side_by_side(name, badge, column.width - badge.bars[0].width)


def _fate_and_area(column: Column, word: str) -> Iterator[Block]:
    """The fate with the area at its right, where the area is whole in two lines."""
    unit = column.unit
    offset = pill_width(word, unit) + unit * 0.6
    room = column.width - offset
    if room > 8 * column.small:
        area = tidy(column.label.area)
        beside = paragraph(area, REGULAR, column.small, room, most=2, what="The area")
        if not beside.complaint:
            yield side_by_side(pill(word, unit), beside, offset)
