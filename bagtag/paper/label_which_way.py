"""Which way on a label: the picture small and the sentence whole first, then both as large as may
be."""

from bagtag.domain.sentence import sentence
from bagtag.paper.blocks import paragraph, picture_block
from bagtag.paper.fonts import MEDIUM, tidy
from bagtag.paper.label_column import Column
from bagtag.paper.which_way_block import Room, arrange


def take_which_way(column: Column) -> None:
    """The picture small, then the sentence whole or cut."""
    if column.label.facts:
        column.take("picture", [picture_block(column.width, 1.9 * column.unit)])
        take_sentence(column)


def take_sentence(column: Column, before: str = "") -> bool:
    text = tidy(before + sentence(column.label.facts, column.label.datum))
    cap, room, what = column.small, column.width, "The which-way sentence"
    versions = (
        paragraph(text, MEDIUM, cap, room, most=most, what=what) for most in (99, 4, 3, 2, 1)
    )
    return column.take("sentence", versions)


def reserve_picture(column: Column) -> None:
    """Room for a picture that is the biggest thing after the code, before the small print."""
    if "picture" in column.blocks:
        heights = (column.unit * share for share in (2.8, 2.5, 2.2))
        column.take("picture", (picture_block(column.width, height) for height in heights))


def settle_which_way(column: Column) -> None:
    """Share the height that is left between picture and sentence."""
    drawn = column.blocks.get("picture")
    if drawn is None:
        return
    said = column.blocks.pop("sentence", None)
    freed = said.height + column.gap if said else 0
    column.used -= freed
    height = drawn.height + column.height - column.used
    room = Room(column.width, height, column.unit, 1.4 * column.gap)
    column.take("picture", [arrange(column.label.facts, said, room)])
    if said is not None:
        column.wanted.remove("sentence")
