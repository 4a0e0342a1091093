"""The build checklist: A4 pages of steps to fit, tick and sign."""

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from typing import TYPE_CHECKING

from bagtag.paper import ink
from bagtag.paper.checklist_page import (
    FOOT,
    LEFT,
    PAGE,
    TOP,
    WIDTH,
    opening,
    paint_frame,
    paint_opening,
)
from bagtag.paper.checklist_text import (
    ChecklistHeader,
    ChecklistReport,
    ChecklistStep,
    SignedOff,
)
from bagtag.paper.fonts import REGULAR
from bagtag.paper.pdf import Target, open_canvas, write
from bagtag.paper.step_card import Card, measure, paint

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

__all__ = ["ChecklistHeader", "ChecklistReport", "ChecklistStep", "SignedOff", "checklist_pdf"]

_EMPTY = "Nothing has been taken off yet, so there is nothing to fit."


def checklist_pdf(
    target: Target, header: ChecklistHeader, steps: Sequence[ChecklistStep]
) -> ChecklistReport:
    """Print the steps, in the order given, into a PDF file or an open binary stream.

    A step is never split across pages. BadInput when the file cannot be written.
    """
    into = BytesIO()
    canvas = open_canvas(into, f"Build checklist: {header.title}", PAGE)
    begun = opening(header, steps)
    cards = [measure(step, TOP - FOOT) for step in steps]
    pages = list(_paginate(cards, TOP - FOOT - begun.height))
    for number, page in enumerate(pages, start=1):
        if number == 1:
            paint_opening(canvas, begun)
        paint_frame(canvas, header, number, len(pages))
        _paint_cards(canvas, page, TOP - begun.height if number == 1 else TOP)
        if not steps:
            ink.text(canvas, LEFT, TOP - begun.height - 12, _EMPTY, font=REGULAR, size=11)
        canvas.showPage()
    canvas.save()
    write(into.getvalue(), target)
    return ChecklistReport(len(pages), len(steps), tuple(_warnings(cards)))


def _paginate(cards: Iterable[Card], first: float) -> Iterator[list[Card]]:
    """Cards by page, whole; `first` is the room on the first page, which may stay empty."""
    page: list[Card] = []
    room = first
    for card in cards:
        if card.height > room:
            yield page
            page, room = [], TOP - FOOT
        page.append(card)
        room -= card.height
    yield page


def _paint_cards(canvas: "Canvas", cards: Sequence[Card], top: float) -> None:
    for card in cards:
        paint(canvas, card, LEFT, top)
        top -= card.height
    if cards:
        ink.rule(canvas, LEFT, top, WIDTH)


def _warnings(cards: Iterable[Card]) -> Iterator[str]:
    for card in cards:
        yield from (f"Step {card.step.number}: {complaint}" for complaint in card.complaints)
