"""The order list: pages for each supplier, as one hands them over the counter."""

from collections.abc import Iterator, Sequence

from bagtag.domain.cautions import MANUAL
from bagtag.domain.renewal_merge import SupplierList
from bagtag.domain.renewal_words import NO_SUPPLIER
from bagtag.paper import block_set
from bagtag.paper.block_pages import Block, print_blocks
from bagtag.paper.block_set import Said, Setting
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.fonts import BOLD, MEDIUM
from bagtag.paper.ink import SOFT
from bagtag.paper.order_row import heading, row, totals
from bagtag.paper.pdf import MM
from bagtag.paper.whole_file import Target

NOTHING = "Nothing is still to be ordered."
_COMPARE = (
    "Hold every new part against the old one before it is paid for or fitted. Torque-to-yield "
    "bolts, circlips, split pins and self-locking nuts are new each time."
)
"""Common practice, no source."""


def order_pdf(target: Target, header: ChecklistHeader, lists: Sequence[SupplierList]) -> int:
    """Print the lists, each supplier on pages of its own, into a PDF file or an open binary stream;
    returns how many pages. `header.title` names the jobs.

    BadInput when the file cannot be written.
    """
    pages = [page for one in lists for page in pages_of(header, one)]
    pages = pages or [[_opening(header, None)]]
    title = f"Order list: {header.title}"
    return print_blocks(target, title, header, pages, has_torque=False, foot=MANUAL)


def pages_of(header: ChecklistHeader, one: SupplierList) -> Iterator[list[Block]]:
    rows = [row(line) for line in one.lines]
    yield from block_set.pages([_opening(header, one)], [heading(), *rows, totals(one)])


def _opening(header: ChecklistHeader, one: SupplierList | None) -> Block:
    made = Setting()
    to = f"to {one.supplier}" if one and one.supplier else NO_SUPPLIER if one else ""
    many = _tally(one) if one else NOTHING
    made.say(0, WIDTH, Said("Order list", BOLD, 24), Said(to, MEDIUM, 15, most=2))
    made.say(
        0,
        WIDTH,
        Said(header.title, size=11, space=2 * MM, most=6),
        Said(f"for {header.owner}" if header.owner else "", size=10, colour=SOFT, most=2),
        Said(many, BOLD, 13, space=3 * MM),
        Said(_COMPARE if one else "", size=9, colour=SOFT, space=1 * MM),
    )
    return made.block()


def _tally(one: SupplierList) -> str:
    """`4 lines, 9 pieces`"""
    lines = len(one.lines)
    return f"{lines} line{'s' * (lines != 1)}, {one.pieces} piece{'s' * (one.pieces != 1)}"
