"""Blocks of known height that are never divided, and pages of them in a job's own frame."""

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from bagtag.domain.hardware import OVERRIDE
from bagtag.paper import ink
from bagtag.paper.block_marks import Mark
from bagtag.paper.checklist_page import LEFT, PAGE, TOP, WIDTH, paint_frame
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.fonts import REGULAR
from bagtag.paper.ink import INK, RGB
from bagtag.paper.pdf import MM, open_canvas
from bagtag.paper.whole_file import Target, write

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

SIZE = 10.0
BOX, PAD = 3.6 * MM, 1.7 * MM
"""A box to tick, and the room above what stands in a block."""


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text, its baseline `y` below the top of its block, in points."""

    x: float
    y: float
    text: str
    font: str = REGULAR
    size: float = SIZE
    colour: RGB = INK


@dataclass(frozen=True, slots=True)
class Block:
    """Words, boxes to tick and other marks. `rule` draws a hairline along its top; a `heading`
    stays with the block that follows, and what stands `apart` is under none."""

    height: float
    words: tuple[Words, ...] = ()
    boxes: tuple[float, ...] = ()
    rule: bool = False
    heading: bool = False
    marks: tuple[Mark, ...] = ()
    apart: bool = False


def paint(canvas: "Canvas", block: Block, left: float, top: float) -> None:
    """Draw a block with its top left corner there."""
    if block.rule:
        ink.rule(canvas, left, top, WIDTH)
    for x in block.boxes:
        ink.square(canvas, left + x, top - PAD - BOX, BOX)
    for mark in block.marks:
        mark.paint(canvas, left, top)
    for word in block.words:
        ink.text(canvas, left + word.x, top - word.y, word.text, font=word.font, size=word.size,
                 colour=word.colour)  # fmt: skip


def print_blocks(
    target: Target,
    title: str,
    header: ChecklistHeader,
    pages: Sequence[Sequence[Block]],
    *,
    has_torque: bool,
    foot: str = OVERRIDE,
) -> int:
    """Print pages into a PDF file or an open binary stream; returns how many they are. `foot` is
    the manual's word at the foot of each.

    BadInput when the file cannot be written.
    """
    into = BytesIO()
    canvas = open_canvas(into, title, PAGE)
    for number, page in enumerate(pages, start=1):
        paint_frame(canvas, header, number, len(pages), has_torque=has_torque, foot=foot)
        top = TOP
        for block in page:
            paint(canvas, block, LEFT, top)
            top -= block.height
        canvas.showPage()
    canvas.save()
    write(into.getvalue(), target)
    return len(pages)
