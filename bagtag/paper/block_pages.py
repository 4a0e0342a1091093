"""Pages of blocks, in the frame that a job's papers share."""

from collections.abc import Sequence
from io import BytesIO

from bagtag.paper.audit_block import Block, paint
from bagtag.paper.checklist_page import LEFT, PAGE, TOP, paint_frame
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.pdf import Target, open_canvas, write


def print_blocks(
    target: Target,
    title: str,
    header: ChecklistHeader,
    pages: Sequence[Sequence[Block]],
    *,
    has_torque: bool,
) -> int:
    """Print pages into a PDF file or an open binary stream; returns how many they are.

    BadInput when the file cannot be written.
    """
    into = BytesIO()
    canvas = open_canvas(into, title, PAGE)
    for number, page in enumerate(pages, start=1):
        paint_frame(canvas, header, number, len(pages), has_torque=has_torque)
        top = TOP
        for block in page:
            paint(canvas, block, LEFT, top)
            top -= block.height
        canvas.showPage()
    canvas.save()
    write(into.getvalue(), target)
    return len(pages)
