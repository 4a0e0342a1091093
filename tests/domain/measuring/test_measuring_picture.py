"""The drawings of measuring sheets: every place once, by its number, and nothing over another."""

from dataclasses import replace
from decimal import Decimal
from itertools import combinations
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.measuring.forms import form
from bagtag.domain.measuring.picture import draw
from bagtag.domain.measuring.picture_parts import WIDE
from bagtag.domain.measuring.sheet import Given, MeasureSheet, Reading, SheetKind
from bagtag.domain.shapes import Arrow, Circle, Ink, Text

COUNTS = {
    SheetKind.SIZE: "places",
    SheetKind.PLASTIC_GAUGE: "places",
    SheetKind.RING_GAP: "rings",
    SheetKind.VALVES: "cylinders",
    SheetKind.DECK: "cylinders",
}
NEAR = 1e-6


def sheet(kind, count=None, read=0):
    told = (Given(COUNTS[kind], Decimal(count)),) if kind in COUNTS and count else ()
    empty = MeasureSheet(1, "u", 1, kind, given=told)
    places = form(empty).places[:read]
    return replace(empty, readings=tuple(Reading(one.key, Decimal(1)) for one in places))


sheets = st.builds(
    sheet, st.sampled_from(SheetKind), st.none() | st.integers(1, 12), st.integers(0, 4)
)


def only(picture, kind):
    return [item for item in picture.items if isinstance(item, kind)]


def tags(picture):
    """The disc of each number."""
    numbers = [text for text in only(picture, Text) if text.bold and text.text.isdigit()]
    discs = [one for one in only(picture, Circle) if one.filled]
    return {
        int(text.text): min(discs, key=lambda disc, text=text: abs(disc.x - text.x)
                            + abs(disc.y - text.y + 0.355 * text.size))
        for text in numbers
    }  # fmt: skip


def overlap(a, b):
    return min(a[2], b[2]) - max(a[0], b[0]) > NEAR and min(a[3], b[3]) - max(a[1], b[1]) > NEAR


@given(sheets)
def test_everything_lies_in_the_picture(one):
    picture = draw(one)
    assert picture.aspect == WIDE
    for item in picture.items:
        left, top, right, bottom = item.bounds
        assert min(left, top) >= -NEAR, item
        assert max(right - WIDE, bottom - 1) <= NEAR, item


@given(sheets)
def test_every_place_has_its_number_once_and_apart_from_the_others(one):
    picture = draw(one)
    numbers = [text.text for text in only(picture, Text) if text.bold]
    assert sorted(map(int, numbers)) == sorted(place.number for place in form(one).places)
    for a, b in combinations(tags(picture).values(), 2):
        assert dist((a.x, a.y), (b.x, b.y)) >= a.radius + b.radius - NEAR


@given(sheets)
def test_no_lettering_lies_over_other_lettering_or_over_a_number(one):
    picture = draw(one)
    texts = only(picture, Text)
    for a, b in combinations(texts, 2):
        assert not overlap(a.bounds, b.bounds), (a, b)
    words = [text for text in texts if not text.bold]
    for word in words:
        for disc in tags(picture).values():
            assert not overlap(word.bounds, disc.bounds), (word, disc)


@pytest.mark.parametrize("kind", SheetKind)
def test_what_is_read_is_filled_and_what_is_being_read_is_in_the_accent(kind):
    first, *others = form(sheet(kind)).places
    picture = draw(sheet(kind, read=1), at=others[0].key if others else "")
    found = tags(picture)
    assert found[first.number].ink is Ink.INK
    for place in others:
        wanted = Ink.ACCENT if place is others[0] else Ink.PAPER
        assert found[place.number].ink is wanted


@pytest.mark.parametrize("kind", SheetKind)
def test_drawings_differ_from_each_other(kind):
    drawn = draw(sheet(kind)).items
    assert all(draw(sheet(other)).items != drawn for other in SheetKind if other is not kind)


def across(arrow):
    return abs(arrow.x2 - arrow.x1) > abs(arrow.y2 - arrow.y1)


def test_a_bore_is_read_across_each_wall_at_its_height_and_way():
    """Rows are heights from the top down, columns the two directions (a section for each)."""
    found = tags(draw(sheet(SheetKind.BORE)))
    rows = [(1, 2), (3, 4), (5, 6)]
    assert all(found[a].y == pytest.approx(found[b].y) for a, b in rows)
    assert found[1].y < found[3].y < found[5].y
    assert found[1].x == pytest.approx(found[5].x)
    assert found[1].x < found[2].x
    ways = [across(arrow) for arrow in only(draw(sheet(SheetKind.BORE)), Arrow)]
    assert ways.count(False) == 2


def test_a_bearing_is_read_clear_of_its_parting_line():
    """A shell is relieved at its joint, so that a reading along the joint says nothing (common
    practice, no source): the one across is tilted, that of the journal is not."""
    arrows = only(draw(sheet(SheetKind.BEARING)), Arrow)
    tilted = [one for one in arrows if min(abs(one.x2 - one.x1), abs(one.y2 - one.y1)) > 0.01]
    assert tilted
    assert all(one.x1 < WIDE / 2 for one in tilted)


def test_a_flat_face_is_crossed_both_ways_and_over_its_corners():
    face = form(sheet(SheetKind.FLATNESS)).places
    found = tags(draw(sheet(SheetKind.FLATNESS)))
    by_name = {place.row: found[place.number] for place in face}
    assert by_name["along"].x == pytest.approx(by_name["along, again"].x)
    assert by_name["across"].y == pytest.approx(by_name["across, again"].y)
    assert by_name["first diagonal"].y < by_name["along"].y < by_name["second diagonal"].y


def test_many_places_are_told_by_name_beside_the_drawing():
    said = [text.text for text in only(draw(sheet(SheetKind.VALVES, 4)), Text)]
    assert said.count("4 exhaust") == 2
    assert {"clearance", "shim"} <= set(said)
