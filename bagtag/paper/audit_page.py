"""The strip audit on paper: what is missing, worst first, each with a box to tick."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from bagtag.domain.audit_finding import Lack, tally
from bagtag.paper.audit_block import AuditLine, cells, heading, row
from bagtag.paper.block_pages import Block, Words, print_blocks
from bagtag.paper.checklist_page import FOOT, TOP, WIDTH
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, tidy
from bagtag.paper.ink import INK, RGB, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.typeset import cut
from bagtag.paper.whole_file import Target

__all__ = ["AuditLine", "audit_pdf"]

Page = list[Block]


def audit_pdf(
    target: Target, header: ChecklistHeader, looked_at: int, lines: Sequence[AuditLine]
) -> int:
    """Print the findings, in the order given, into a PDF file or an open binary stream; returns
    the number of pages. `looked_at` is how many entries the log has.

    BadInput when the file cannot be written.
    """
    pages = list(_pages(_opening(header, looked_at, len(lines)), _groups(lines)))
    has_torque = any(line.lack.tells_torque for line in lines)
    title = f"Strip audit: {header.title}"
    return print_blocks(target, title, header, pages, has_torque=has_torque)


def _opening(header: ChecklistHeader, looked_at: int, missing: int) -> Block:
    words = [Words(0, 22, "Strip audit", BOLD, 24)]
    y = 30.0
    for text, font, size, colour in _about(header, looked_at, missing):
        for line in cut(tidy(text), font, size, WIDTH, 3)[0]:
            y += size * 1.3
            words.append(Words(0, y, line, font, size, colour))
        y += max(0.0, size - 14) * 0.4
    return Block(y + 3 * MM, tuple(words))


def _about(
    header: ChecklistHeader, looked_at: int, missing: int
) -> list[tuple[str, str, float, RGB]]:
    about = [(header.title, MEDIUM, 14.0, INK)]
    if missing or not looked_at:
        return [*about, (tally(missing, looked_at), REGULAR, 11.0, SOFT)]
    large, small = tally(missing, looked_at).split(". ", 1)
    return [*about, (f"{large}.", BOLD, 32.0, INK), (small, REGULAR, 11.0, SOFT)]


def _groups(lines: Sequence[AuditLine]) -> Iterator[tuple[Lack, Page]]:
    """The blocks of each lack. Where all say the same it is said once, over boxes and names."""
    for lack, group in groupby(lines, key=lambda line: line.lack):
        some = list(group)
        said = {line.sentence for line in some}
        if len(some) > 1 and len(said) == 1:
            yield lack, [heading(lack, len(some), said.pop()), *cells(some)]
        else:
            yield lack, [heading(lack, len(some)), *map(row, some)]


def _pages(opening: Block, groups: Iterator[tuple[Lack, Page]]) -> Iterator[Page]:
    """Blocks by page, none divided, no heading alone at a foot, each page beginning with one."""
    page, room = [opening], TOP - FOOT - opening.height
    for lack, blocks in groups:
        for place, block in enumerate(blocks):
            wanted = block.height + (blocks[place + 1].height if block.heading else 0)
            if wanted > room:
                yield page
                page = [] if block.heading else [heading(lack, 0, again=True)]
                room = TOP - FOOT - sum(one.height for one in page)
            page.append(block)
            room -= block.height
    yield page
