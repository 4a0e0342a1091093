"""The picture of parts that sit as others do, of what is not there, and of outward's side."""

import pytest
from fact_cases import DATUMS, FACTS, TRACTOR
from hypothesis import given
from hypothesis import strategies as st
from picture_kit import ASPECTS, inside, only, way, words

from bagtag.domain.datum import Side
from bagtag.domain.picture import (
    Arrow,
    Box,
    Circle,
    Ink,
    Line,
    draw,
)
from bagtag.domain.which_way import (
    Faces,
    Hand,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)


def pieces(picture):
    """The way of the arrow on the open piece and of the one on the solid piece."""
    boxes, arrows = only(picture, Box), only(picture, Arrow)
    on = {
        box.filled: way(arrow)
        for box in boxes
        for arrow in arrows
        if inside(arrow.bounds, *box.bounds)
    }
    return on[False], on[True]


@pytest.mark.parametrize("wide", [False, True])
def test_two_pieces_show_the_same_way_and_the_opposite(wide):
    fork = OtherPart("fork", "u", "12")
    alike, turned = (draw([SameWay(fork, o)], TRACTOR, wide=wide) for o in (False, True))
    assert pieces(alike) == ((0, -1), (0, -1))
    assert pieces(turned) == ((0, -1), (0, 1))
    assert any("fork (12)" in text for text in words(alike))
    assert [text for text in words(turned) if text.startswith("opposite to")]
    assert all(arrow.ink is not Ink.ACCENT for arrow in only(alike, Arrow))


@pytest.mark.parametrize("wide", [False, True])
def test_how_the_other_part_sat_is_drawn_as_its_own(wide):
    told = (Faces("C", Side.LEFT), Seat(SeatKind.FLUSH))
    picture = draw([SameWay(OtherPart("fork", "u", "12"), False, told)], TRACTOR, wide=wide)
    assert [way(a) for a in only(picture, Arrow) if a.ink is Ink.ACCENT] == [(-1, 0)]
    bare = draw([SameWay(OtherPart("fork", "u", "12"))], TRACTOR, wide=wide)
    assert [a for a in only(bare, Arrow) if a.ink is Ink.ACCENT] == []


def test_on_a_full_label_how_it_sits_goes_before_as_which_other_part():
    told = (Faces("C", Side.LEFT),)
    facts = [SameWay(OtherPart("fork", "u", "12"), False, told), Hand("R"), Place(2, 3, Side.LEFT)]
    picture = draw(facts, TRACTOR)
    assert [way(arrow) for arrow in only(picture, Arrow)] == [(-1, 0)]
    assert "C" in words(picture)


@pytest.mark.parametrize("wide", [False, True])
def test_what_goes_either_way_has_an_arrow_each_way(wide):
    picture = draw([Without()], TRACTOR, wide=wide)
    assert sorted(way(arrow) for arrow in only(picture, Arrow)) == [(-1, 0), (1, 0)]
    assert any(text.startswith("either way") for text in words(picture))


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("feature", ["match mark", "hand"])
def test_what_is_not_there_is_said_whole_or_not_at_all(feature, wide):
    assert f"no {feature}" in words(draw([Without(feature)], TRACTOR, wide=wide))


@given(FACTS, DATUMS, st.booleans(), ASPECTS)
def test_nothing_that_is_not_there_is_drawn_as_if_it_were(facts, datum, wide, aspect):
    """Cut short or not, the words of what is missing begin with "no"."""
    alone = [*facts, Without("zzz lug")]
    said = words(draw(alone, datum, wide=wide, aspect=aspect))
    assert all(text.startswith("no ") for text in said if "lug" in text or "zzz" in text)


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize(
    ("side", "towards"),
    [(Side.LEFT, (-1, 0)), (Side.RIGHT, (1, 0)), (Side.TOP, (0, -1)), (Side.BOTTOM, (0, 1))],
)
@pytest.mark.parametrize("out", list(Outness))
def test_where_its_side_is_told_outward_points_to_it(out, side, towards, wide):
    """The arrow starts at the wall, which stands across it, and the side is named in words."""
    picture = draw([Faces("lip", out, side)], TRACTOR, wide=wide)
    (arrow,) = only(picture, Arrow)
    assert way(arrow) == towards
    wall = only(picture, Line)[1]
    behind = (arrow.x1 - wall.x1) * towards[0] + (arrow.y1 - wall.y1) * towards[1]
    assert behind > 0
    assert any(TRACTOR.call(side) in text for text in words(picture))


@pytest.mark.parametrize("wide", [False, True])
def test_outward_to_the_front_comes_out_of_the_page(wide):
    picture = draw([Faces("lip", Outness.OUTWARD, Side.FRONT)], TRACTOR, wide=wide)
    assert [circle.filled for circle in only(picture, Circle)] == [False, True]
    assert any("front" in text for text in words(picture))


@pytest.mark.parametrize("wide", [False, True])
def test_another_part_is_named_with_its_number(wide):
    picture = draw([Faces("lip", OtherPart("gear", "u", "41"))], TRACTOR, wide=wide)
    assert any("41" in text for text in words(picture))
