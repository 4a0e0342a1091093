"""A measuring page: the drawing with the places, what was read, what it says, what was decided."""

from collections.abc import Iterator

from bagtag.domain.cautions import MANUAL
from bagtag.domain.codes import show
from bagtag.paper import block_set
from bagtag.paper.block_marks import Drawing, Frame, Rule
from bagtag.paper.block_pages import Block, print_blocks
from bagtag.paper.block_set import SMALL, Said, Setting
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.fonts import BOLD, MEDIUM
from bagtag.paper.ink import ACCENT, SOFT
from bagtag.paper.measure_rows import decision, figures, readings
from bagtag.paper.measure_text import MeasurePage, about, given, instruments, temperatures
from bagtag.paper.pdf import MM
from bagtag.paper.whole_file import Target

_DRAWN = 99 * MM
_BESIDE = _DRAWN + 7 * MM
_WRITE = 4.6 * MM


def measure_pdf(target: Target, page: MeasurePage) -> int:
    """Print it into a PDF file or an open binary stream; returns how many pages.

    BadInput when the file cannot be written.
    """
    header = ChecklistHeader(f"{page.job} · measuring", page.printed, page.owner)
    blocks = [*readings(page), *figures(page), *_told(page), decision(page)]
    pages = list(block_set.pages([opening(page)], blocks))
    title = f"Measuring: {page.title}"
    return print_blocks(target, title, header, pages, has_torque=False, foot=MANUAL)


def opening(page: MeasurePage) -> Block:
    made = Setting()
    if page.code:
        made.put_right(WIDTH, 20, Said(f"tag {show(page.code)}", MEDIUM, 11))
    made.say(0, WIDTH - 40 * MM, Said(page.title, BOLD, 24, most=2))
    made.say(0, WIDTH, Said(about(page), MEDIUM, 13, most=2))
    top = made.y + 5 * MM
    high = _DRAWN / page.drawing.aspect
    made.marks.append(Drawing(0, top, _DRAWN, high, page.drawing))
    made.y = top
    _beside(made, page)
    made.y = max(made.y, top + high) + 2 * MM
    return made.block()


def _beside(made: Setting, page: MeasurePage) -> None:
    """How it is read, what is given, what it was read with; a line to write on where nothing is."""
    room = WIDTH - _BESIDE
    made.say(_BESIDE, room, Said(page.form.how, size=10, most=14))
    made.y += 4
    for slot in page.form.given:
        said = given(page, slot)
        made.say(_BESIDE, room, Said(slot.name, size=SMALL, colour=SOFT, space=3))
        made.say(_BESIDE, room, Said(said, MEDIUM, 10, most=5))
        if not said:
            made.y += _WRITE
            made.marks.append(Rule(_BESIDE, made.y, room))
    for words in (instruments(page), temperatures(page)):
        made.say(_BESIDE, room, Said(words, size=9, colour=SOFT, space=4, most=4))


def _told(page: MeasurePage) -> Iterator[Block]:
    """What follows from the figures, what looks like a slip, and what was noted."""
    said = [
        *(Said(advice, BOLD, 11, space=3) for advice in page.results.advice),
        *(Said(f"? {question}", size=9.5, space=3) for question in page.questions),
        *([Said(page.sheet.note, size=10, colour=SOFT, space=3)] if page.sheet.note else []),
    ]
    if not said:
        return
    made = Setting(3 * MM)
    made.say(5 * MM, WIDTH - 5 * MM, *said)
    if page.results.advice:
        made.marks.append(Frame(0, 4 * MM, 1.2 * MM, made.y - 4 * MM, ACCENT, filled=True))
    made.y += 3 * MM
    yield made.block(rule=True, apart=True)
