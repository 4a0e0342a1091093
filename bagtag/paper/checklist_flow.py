"""Steps onto pages: none divided, and no heading without a step below it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from bagtag.paper.checklist_page import FOOT, TOP
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.pdf import MM
from bagtag.paper.step_card import Card

HEADING = 13 * MM
"""Height of an area's heading, and of the one that says it goes on."""


@dataclass(frozen=True, slots=True)
class Heading:
    """The beginning of an area, or of its part on another page."""

    area: str
    steps: int
    is_continued: bool = False

    @property
    def height(self) -> float:
        return HEADING


@dataclass(frozen=True, slots=True)
class Section:
    """Cards that stay in the order given, under a heading or, where there is none, under none."""

    cards: tuple[Card, ...]
    heading: Heading | None = None


Page = list[Heading | Card]


def by_area(steps: Sequence[ChecklistStep]) -> dict[str, list[ChecklistStep]]:
    """Steps by area: the area of the earliest step first, its steps in the order given."""
    found: dict[str, list[ChecklistStep]] = {}
    for step in steps:
        found.setdefault(step.area, []).append(step)
    return found


def paginate(sections: Iterable[Section], first: float) -> Iterator[Page]:
    """What stands on each page; `first` is the room on the first, which may stay empty."""
    page: Page = []
    room = first
    for section in sections:
        for place, card in enumerate(section.cards):
            head = [section.heading] if section.heading and place == 0 else []
            if card.height + sum(one.height for one in head) > room:
                yield page
                page, room = [], TOP - FOOT
                head = _again(section.heading, place)
            page += [*head, card]
            room -= card.height + sum(one.height for one in head)
    yield page


def _again(heading: Heading | None, place: int) -> list[Heading]:
    """What a page begins with that begins with a section's step."""
    return [replace(heading, is_continued=place > 0)] if heading else []
