"""The build checklist: A4 pages of steps to do, tick and sign."""

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from typing import TYPE_CHECKING

from bagtag.domain.cautions import has_torque
from bagtag.paper import ink
from bagtag.paper.checklist_flow import HEADING, Heading, Page, Section, by_area, paginate
from bagtag.paper.checklist_page import (
    FOOT,
    LEFT,
    PAGE,
    TOP,
    WIDTH,
    Opening,
    opening,
    paint_frame,
    paint_heading,
    paint_opening,
    titled,
)
from bagtag.paper.checklist_text import (
    ChecklistHeader,
    ChecklistReport,
    ChecklistStep,
    SignedOff,
)
from bagtag.paper.fonts import REGULAR
from bagtag.paper.pdf import open_canvas
from bagtag.paper.step_card import Card, measure
from bagtag.paper.step_told import Told
from bagtag.paper.whole_file import Target, write

if TYPE_CHECKING:
    from bagtag.paper.step_paint import Painter

__all__ = ["ChecklistHeader", "ChecklistReport", "ChecklistStep", "SignedOff", "checklist_pdf"]

_EMPTY = "Nothing has been taken off yet, so there is nothing to fit."


def checklist_pdf(
    target: Target,
    header: ChecklistHeader,
    steps: Sequence[ChecklistStep],
    *,
    by_area: bool = False,
) -> ChecklistReport:
    """Print the steps, in the order given, into a PDF file or an open binary stream.

    `by_area` gives each area a section of its own, in the order of their first steps; inside it
    the steps keep the order given. A step is never split across pages, and a heading never stands
    without a step. BadInput when the file cannot be written.
    """
    into = BytesIO()
    told = Told()
    sections = list(_sections(steps, told, grouped=by_area))
    begun = opening(header, steps, by_area=by_area)
    pages = list(paginate(sections, TOP - FOOT - begun.height))
    _print(into, header, begun, pages, told)
    write(into.getvalue(), target)
    cards = [card for section in sections for card in section.cards]
    return ChecklistReport(len(pages), len(steps), tuple(_warnings(cards)))


def _sections(steps: Sequence[ChecklistStep], told: Told, *, grouped: bool) -> Iterator[Section]:
    if not grouped:
        yield Section(tuple(measure(step, TOP - FOOT, told) for step in steps))
        return
    for area, some in by_area(steps).items():
        cards = tuple(measure(step, TOP - FOOT - HEADING, told) for step in some)
        yield Section(cards, Heading(area, len(some)))


def _print(
    into: BytesIO, header: ChecklistHeader, begun: Opening, pages: Sequence[Page], told: Told
) -> None:
    from bagtag.paper.step_paint import Painter

    canvas = open_canvas(into, f"{titled(header)}: {header.title}", PAGE)
    painter = Painter(canvas, told)
    for number, page in enumerate(pages, start=1):
        paint_frame(canvas, header, number, len(pages), has_torque=_has_torque(page))
        top = TOP
        if number == 1:
            paint_opening(canvas, begun)
            top -= begun.height
        _paint(painter, page, top)
        if pages == [[]]:
            ink.text(canvas, LEFT, top - 12, _EMPTY, font=REGULAR, size=11)
        canvas.showPage()
    canvas.save()


def _has_torque(page: Page) -> bool:
    steps = (one.step for one in page if isinstance(one, Card))
    return any(step.rounds or has_torque(step.held_by) for step in steps)


def _paint(painter: "Painter", page: Page, top: float) -> None:
    """Cards and headings, one under the other, with a rule where a run of cards ends."""
    for place, one in enumerate(page):
        if isinstance(one, Heading):
            paint_heading(painter.canvas, one.area, one.steps, top, again=one.is_continued)
        else:
            painter.card(one, LEFT, top)
        top -= one.height
        if isinstance(one, Card) and not any(isinstance(n, Card) for n in page[place + 1 :][:1]):
            ink.rule(painter.canvas, LEFT, top, WIDTH)


def _warnings(cards: Iterable[Card]) -> Iterator[str]:
    for card in cards:
        yield from (f"Step {card.step.number}: {complaint}" for complaint in card.complaints)
