"""A page to lay the bench by: every tool with a box for laid out and one for counted back."""

from collections.abc import Iterator, Sequence

from bagtag.domain.phrases import capital
from bagtag.domain.tools import COUNT, ToolSheet
from bagtag.paper.block_pages import Block, Words, print_blocks
from bagtag.paper.checklist_page import FOOT, TOP, WIDTH
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, tidy
from bagtag.paper.ink import INK, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.tools_block import MORE, groups, heading
from bagtag.paper.typeset import cut
from bagtag.paper.whole_file import Target

Page = list[Block]

NONE = "No step that is still to be done asks for a tool."


def tools_pdf(target: Target, header: ChecklistHeader, sheet: ToolSheet) -> int:
    """Print what to lay out into a PDF file or an open binary stream; returns how many pages.

    BadInput when the file cannot be written.
    """
    pages = list(pages_of(opening_of(header, sheet), sheet))
    title = f"Tools to lay out: {header.title}"
    return print_blocks(target, title, header, pages, has_torque=sheet.has_torque)


def opening_of(header: ChecklistHeader, sheet: ToolSheet) -> Block:
    steps = f"{sheet.steps} step{'' if sheet.steps == 1 else 's'} still to be done"
    span = capital(" · ".join(part for part in (sheet.span, steps) if part))
    about = [
        (header.title, MEDIUM, 14.0, INK),
        (span, REGULAR, 10.0, SOFT),
        (COUNT, BOLD, 11.0, INK),
        ("" if sheet.rows else NONE, REGULAR, 11.0, INK),
    ]
    words, y = [Words(0, 22, "Tools to lay out", BOLD, 24)], 30.0
    for text, font, size, colour in about:
        for line in cut(tidy(text), font, size, WIDTH, 3)[0] if text else ():
            y += size * 1.4
            words.append(Words(0, y, line, font, size, colour))
    return Block(y + 2 * MM, tuple(words))


def pages_of(opening: Block, sheet: ToolSheet) -> Iterator[Page]:
    """Blocks by page: no row is divided, no heading alone at a foot, each page begins with one.
    Lines to write more tools on are as many as the last page has room for."""
    page, room = [opening], TOP - FOOT - opening.height
    for title, is_counted, rows in groups(sheet):
        head = heading(title, is_counted=is_counted)
        for place, row in enumerate(rows):
            before = [head] if place == 0 else []
            if _height([*before, row]) > room:
                if title == MORE:
                    break
                yield page
                again = heading(title, is_counted=is_counted, again=place > 0)
                page, before, room = [], [again], TOP - FOOT
            page += [*before, row]
            room -= _height([*before, row])
    yield page


def _height(blocks: Sequence[Block]) -> float:
    return sum(block.height for block in blocks)
