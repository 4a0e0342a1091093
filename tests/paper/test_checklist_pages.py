"""Steps on pages: whole or by area, none divided, no heading alone, a thousand of them."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.paper.checklist_flow import HEADING, Heading, Section, by_area, paginate
from bagtag.paper.checklist_page import FOOT, TOP
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.step_card import Card
from bagtag.paper.step_marks import Marks
from tests.paper.checklist_kit import EVERY_KIND, GEARBOX, HEADER, joined, printed

AREAS = (GEARBOX, "engine", "frame")


@pytest.fixture(scope="module")
def many():
    """A thousand steps of every kind, their names unlike each other, in three areas by turns."""
    kinds = list(EVERY_KIND.values())
    return [
        replace(
            kinds[n % len(kinds)],
            number=n + 1,
            name=f"Step-{n + 1:04d}",
            area=AREAS[n // 7 % 3],
        )
        for n in range(1000)
    ]


def test_a_thousand_steps_stand_once_and_in_order_and_pages_are_numbered(words, many):
    pdf, report = printed(many)
    pages = words(pdf)
    assert len(pages) == report.pages
    assert report.warnings == ()
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page
    names = [word for page in pages for word in page.split() if word.startswith("Step-")]
    assert names == [step.name for step in many]
    assert "(continued)" not in "".join(pages)


def test_by_area_each_area_has_one_section_in_build_order(words, many):
    steps = many[:200]
    pages = [page.split("\r\n") for page in words(printed(steps, by_area=True)[0])]
    names = [w for page in pages for line in page for w in line.split() if w.startswith("Step-")]
    assert names == [step.name for area in AREAS for step in steps if step.area == area]


def test_each_page_of_a_section_begins_with_its_area(words, many):
    steps = many[:200]
    pages = [joined(page) for page in words(printed(steps, by_area=True)[0])]
    where = {step.name: step.area for step in steps}
    for number, page in enumerate(pages[1:], start=2):
        begin, rest = page.split("Step-", 1)
        first = where[f"Step-{rest[:4]}"]
        after = begin.split(f"page {number} of {len(pages)} ")[1]
        assert after.removeprefix(f"{' '.join(TORQUE_CAUTIONS[1:])} ").startswith(first)
    for area in AREAS:
        count = sum(step.area == area for step in steps)
        assert sum(page.count(f"{area} {count} steps") for page in pages) == 1


def test_by_area_says_that_the_numbers_count_in_the_whole_build(words):
    step = EVERY_KIND["inspect"]
    first = joined(words(printed([step], by_area=True)[0])[0])
    assert "By area: numbers count in the whole build" in first
    assert "No area 1 step" in first
    assert "By area" not in joined(words(printed([step])[0])[0])


def test_a_checklist_of_one_area_is_named_after_it(words):
    pdf, _ = printed([EVERY_KIND["clean"]] * 20, replace(HEADER, area="gearbox"))
    pages = [joined(page) for page in words(pdf)]
    assert "Build checklist: gearbox" in pages[0]
    assert all(f"{HEADER.title} · gearbox 2026-11-25" in page for page in pages)


def test_the_opening_counts_what_is_done_and_the_hold_points(words):
    steps = [EVERY_KIND[kind] for kind in ("held, signed", "hold point", "new", "clean")]
    first = joined(words(printed(steps)[0])[0])
    assert "1 of 4 steps done, 1 to renew, 2 hold points" in first
    assert "Torque in passes" not in first
    assert "Torque in passes" in joined(words(printed([EVERY_KIND["together"]])[0])[0])


def test_an_area_without_a_word_is_none():
    steps = [
        ChecklistStep(1, "a", area="x"),
        ChecklistStep(2, "b"),
        ChecklistStep(3, "c", area="x"),
    ]
    grouped = by_area(steps)
    assert [(area, [s.number for s in some]) for area, some in grouped.items()] == [
        ("x", [1, 3]),
        ("", [2]),
    ]


PAGE = TOP - FOOT
HEIGHTS = st.lists(st.floats(20, PAGE - HEADING), max_size=20)


@given(st.lists(HEIGHTS.filter(bool), max_size=5), st.floats(0, PAGE), st.booleans())
def test_no_page_overflows_and_no_heading_stands_alone(areas, first, headed):
    """Whatever the heights: every card once, in order, and no page begins within a section
    without saying so."""
    sections = [
        Section(
            tuple(Card(ChecklistStep(n, "part"), height, Marks()) for height in heights),
            Heading(f"area {n}", len(heights)) if headed else None,
        )
        for n, heights in enumerate(areas)
    ]
    pages = list(paginate(sections, first))
    for number, page in enumerate(pages):
        assert sum(one.height for one in page) <= (PAGE if number else first) + 1e-6
        assert not page or isinstance(page[-1], Card)
        assert not any(isinstance(a, Heading) and isinstance(b, Heading) for a, b in pairwise(page))
        if page and headed:
            assert isinstance(page[0], Heading)
    cards = [one for page in pages for one in page if isinstance(one, Card)]
    assert cards == [card for section in sections for card in section.cards]
    headings = [one for page in pages for one in page if isinstance(one, Heading)]
    fresh = [one.area for one in headings if not one.is_continued]
    assert fresh == [section.heading.area for section in sections if section.heading]


def test_only_the_first_page_may_stay_empty():
    card = Card(ChecklistStep(1, "part"), PAGE - HEADING, Marks())
    pages = list(paginate([Section((card, card), Heading("a", 2))], 100))
    assert [len(page) for page in pages] == [0, 2, 2]
