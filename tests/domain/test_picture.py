"""The which-way picture: what is drawn, that it stays in its box, and that nothing overlaps."""

from collections import Counter
from itertools import combinations

import pytest
from fact_cases import DATUMS, FACES, FACTS, FORK_L, FORK_R, PLACES, TRACTOR, WORDS, mirrored
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_kit import ASPECTS, NEAR, inside, only, overlap, way, words

from bagtag.domain import lettering
from bagtag.domain.datum import Datum, Side
from bagtag.domain.panel_parts import COMPACT, WIDE
from bagtag.domain.panels_row import row_marks
from bagtag.domain.picture import (
    COMPACT_ASPECT,
    WIDE_ASPECT,
    Anchor,
    Arrow,
    Box,
    Circle,
    Ink,
    Line,
    Text,
    compose,
    draw,
)
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)


@pytest.mark.parametrize("wide", [False, True])
def test_no_facts_no_items(wide):
    assert draw([], TRACTOR, wide=wide).items == ()


@given(FACTS, DATUMS, st.booleans(), ASPECTS)
def test_everything_lies_inside_the_picture(facts, datum, wide, aspect):
    picture = draw(facts, datum, wide=wide, aspect=aspect)
    assert picture.aspect == (aspect or (WIDE_ASPECT if wide else COMPACT_ASPECT))
    outside = [i for i in picture.items if not inside(i.bounds, 0, 0, picture.aspect, 1)]
    assert outside == []


@given(FACTS, DATUMS, st.booleans(), ASPECTS)
def test_lettering_does_not_overlap(facts, datum, wide, aspect):
    texts = only(draw(facts, datum, wide=wide, aspect=aspect), Text)
    assert [(a, b) for a, b in combinations(texts, 2) if overlap(a.bounds, b.bounds)] == []


@given(FACTS, DATUMS, st.booleans(), ASPECTS)
def test_lettering_does_not_run_through_the_drawing(facts, datum, wide, aspect):
    """Only the letter in its block and the number in its disc stand on something."""
    picture = draw(facts, datum, wide=wide, aspect=aspect)
    texts = only(picture, Text)
    shapes = [item for item in picture.items if not isinstance(item, Text)]
    crossed = [
        (text, shape)
        for text in texts
        for shape in shapes
        if overlap(text.bounds, shape.bounds) and not inside(text.bounds, *shape.bounds)
    ]
    assert crossed == []


@given(FACTS, DATUMS, st.booleans(), ASPECTS)
def test_every_panel_keeps_to_its_cell_and_the_cells_apart(facts, datum, wide, aspect):
    style = WIDE if wide else COMPACT
    panels = compose(facts, datum, style, aspect or COMPACT_ASPECT)
    for cell, items in panels:
        edges = (cell.x, cell.y, cell.right, cell.bottom)
        assert [item for item in items if not inside(item.bounds, *edges)] == []
    for (a, _), (b, _) in combinations(panels, 2):
        assert not overlap((a.x, a.y, a.right, a.bottom), (b.x, b.y, b.right, b.bottom))


@given(FACTS, DATUMS, st.booleans())
def test_all_figures_are_numbers_and_all_weights_can_be_seen(facts, datum, wide):
    picture = draw(facts, datum, wide=wide)
    for item in picture.items:
        assert all(abs(edge) < 100 for edge in item.bounds)
    for line in [*only(picture, Line), *only(picture, Arrow)]:
        assert line.weight >= 0.007
    for text in only(picture, Text):
        assert text.text.strip()
        assert text.size > 0.05


@settings(max_examples=40)
@given(FACTS, DATUMS, st.booleans())
def test_the_same_facts_give_the_same_picture(facts, datum, wide):
    assert draw(facts, datum, wide=wide) == draw([*facts, *facts], datum, wide=wide)


SIDE_FACES = st.builds(Faces, st.sampled_from(["C", "dot", "sharp edge"]), st.sampled_from(Side))
RESOLVED = st.builds(
    Faces,
    st.sampled_from(["OUT", "lip"]),
    st.sampled_from(Outness),
    st.sampled_from([Side.LEFT, Side.RIGHT]),
)
TOLD = st.lists(SIDE_FACES | RESOLVED, max_size=2).map(tuple)
ALIKE = st.builds(SameWay, st.just(OtherPart("fork", "u", "12")), st.booleans(), TOLD)
WITHOUT = st.sampled_from([Without(), Without("match mark"), Without("dot")])
SIDE_FACTS = st.lists(SIDE_FACES | PLACES | RESOLVED | ALIKE | WITHOUT, max_size=4)


@given(SIDE_FACTS, st.booleans())
def test_in_the_mirror_every_side_arrow_points_the_other_way(facts, wide):
    here = Counter(way(a) for a in only(draw(facts, TRACTOR, wide=wide), Arrow))
    there = draw([mirrored(fact) for fact in facts], TRACTOR.mirrored(), wide=wide)
    assert Counter((-x, y) for x, y in map(way, only(there, Arrow))) == here


@pytest.mark.parametrize("facts", [FORK_R, FORK_L, FORK_R[1:], FORK_R[2:]])
def test_in_the_mirror_the_row_is_the_mirrored_row(facts):
    """Places, line and arrows stand exactly where a mirror would show them."""
    here = draw(facts, TRACTOR, wide=True)
    there = draw([mirrored(fact) for fact in facts], TRACTOR.mirrored(), wide=True)

    def places(picture, flip):
        edges = [(type(i).__name__, i.bounds) for i in picture.items if not isinstance(i, Text)]
        turned = [
            (kind, (picture.aspect - b[2], b[1], picture.aspect - b[0], b[3]) if flip else b)
            for kind, b in edges
        ]
        return sorted((kind, tuple(round(edge, 6) for edge in b)) for kind, b in turned)

    assert places(there, flip=True) == places(here, flip=False)


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize(
    ("side", "towards"),
    [(Side.LEFT, (-1, 0)), (Side.RIGHT, (1, 0)), (Side.TOP, (0, -1)), (Side.BOTTOM, (0, 1))],
)
def test_arrows_point_to_the_side(side, towards, wide):
    picture = draw([Faces("C", side)], TRACTOR, wide=wide)
    assert [way(arrow) for arrow in only(picture, Arrow)] == [towards]
    assert "C" in words(picture)
    assert any(TRACTOR.call(side).startswith(text) for text in words(picture))


@pytest.mark.parametrize("wide", [False, True])
def test_front_comes_out_of_the_page_and_rear_goes_in(wide):
    """The point and the feathers of an arrow: a circle with a dot is a vector out of the page, a
    circle with a cross one into it. Convention of physics and engineering drawings, from memory."""
    front = draw([Faces("dot", Side.FRONT)], TRACTOR, wide=wide)
    rear = draw([Faces("dot", Side.REAR)], TRACTOR, wide=wide)
    assert [circle.filled for circle in only(front, Circle)] == [False, True]
    assert only(front, Line) == []
    assert [circle.filled for circle in only(rear, Circle)] == [False]
    assert len(only(rear, Line)) == 2
    assert "front" in words(front)
    assert "rear" in words(rear)


@pytest.mark.parametrize("wide", [False, True])
def test_looking_forward_the_front_is_the_far_side(wide):
    behind = Datum("standing behind the handlebars, looking forward")
    front = draw([Faces("dot", Side.FRONT)], behind, wide=wide)
    rear = draw([Faces("dot", Side.REAR)], behind, wide=wide)
    assert len(only(front, Line)) == 2
    assert [circle.filled for circle in only(rear, Circle)] == [False, True]
    assert "front" in words(front)


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("feature", ["sealed side", "OUT"])
def test_common_practice_outward(feature, wide):
    """Common practice, no source: a sealed side and a face stamped OUT go outward: the arrow
    starts at the wall and leaves the case, which is open to the left."""
    picture = draw([Faces(feature, Outness.OUTWARD)], TRACTOR, wide=wide)
    (arrow,) = only(picture, Arrow)
    wall = max(line.x2 for line in only(picture, Line))
    assert wall < arrow.x1 < arrow.x2
    assert {feature, "outward"} <= set(words(picture))


@pytest.mark.parametrize("wide", [False, True])
def test_inward_stays_in_the_case(wide):
    picture = draw([Faces("lip", Outness.INWARD)], TRACTOR, wide=wide)
    (arrow,) = only(picture, Arrow)
    wall = max(line.x2 for line in only(picture, Line))
    assert arrow.x2 < arrow.x1 < wall


@pytest.mark.parametrize("wide", [False, True])
def test_common_practice_forks_face_the_same_way_side_by_side(wide):
    """Common practice, no source: L and R forks sit side by side, both facing the same way."""
    left, right = draw(FORK_L, TRACTOR, wide=wide), draw(FORK_R, TRACTOR, wide=wide)
    (one,), (other,) = only(left, Arrow), only(right, Arrow)
    assert way(one) == way(other) == (1, 0)
    assert "L" in words(left)
    assert "R" in words(right)


def test_the_card_names_both_ends_and_numbers_the_row():
    picture = draw(FORK_R, TRACTOR, wide=True)
    texts = {text.text: text for text in only(picture, Text)}
    assert texts["flywheel side"].x < texts["1"].x < texts["2"].x < texts["3"].x
    assert texts["clutch side"].anchor is Anchor.END
    assert texts["2"].bold
    assert not texts["1"].bold
    (block,) = [box for box in only(picture, Box) if box.filled]
    assert inside(texts["R"].bounds, *block.bounds)


def test_a_row_counted_from_the_right_has_its_first_place_at_the_right():
    picture = draw([Place(1, 3, Side.RIGHT)], TRACTOR, wide=True)
    (own,) = [box for box in only(picture, Box) if box.filled]
    assert all(box.x <= own.x for box in only(picture, Box))


def test_the_small_row_has_a_post_at_the_end_it_is_counted_from():
    for side, sign in ((Side.LEFT, -1), (Side.RIGHT, 1)):
        picture = draw([Place(2, 3, side)], TRACTOR)
        discs, (post,) = only(picture, Circle), only(picture, Box)
        assert all((post.x - disc.x) * sign > 0 for disc in discs)
        (own,) = [disc for disc in discs if disc.filled]
        assert own.x == pytest.approx(sorted(disc.x for disc in discs)[1])


@pytest.mark.parametrize("wide", [False, True])
def test_stamped_is_reversed_out_and_by_position_is_outlined(wide):
    stamped, placed = (draw([Hand("R", s)], TRACTOR, wide=wide) for s in (True, False))
    assert only(stamped, Box)[0].filled
    assert only(stamped, Text)[-1].ink is Ink.PAPER
    assert not only(placed, Box)[0].filled
    assert only(placed, Text)[-1].ink is Ink.INK


@pytest.mark.parametrize("wide", [False, True])
def test_a_lone_hand_fills_the_height(wide):
    letter = only(draw([Hand("L", stamped=True)], TRACTOR, wide=wide), Text)[-1]
    assert letter.size * lettering.CAP > (0.45 if wide else 0.55)


@pytest.mark.parametrize(
    ("hour", "towards"), [(12, (0, -1)), (3, (1, 0)), (6, (0, 1)), (9, (-1, 0)), (4.5, (1, 1))]
)
def test_the_hand_points_to_the_hour(hour, towards):
    for wide in (False, True):
        (hand,) = only(draw([Clocking("gap", hour)], TRACTOR, wide=wide), Arrow)
        assert way(hand) == towards


def test_the_card_says_from_where_the_clock_is_seen():
    picture = draw([Clocking("gap", 4, seen_from=Side.RIGHT)], TRACTOR, wide=True)
    assert words(picture) == ["gap", "4 o'clock", "seen from clutch side"]


@pytest.mark.parametrize("hour", [float("nan"), float("inf")])
def test_an_hour_that_is_none_has_no_hand(hour):
    assert only(draw([Clocking("gap", hour)], TRACTOR), Arrow) == []


def seat(kind, depth=None):
    picture = draw([Seat(kind, depth)], TRACTOR, wide=True)
    (part,) = only(picture, Box)
    faces = [line for line in only(picture, Line) if line.y1 == line.y2]
    return picture, part.y - faces[0].bounds[1]


def test_proud_stands_over_the_face_line_and_below_under_it():
    assert seat(SeatKind.FLUSH)[1] == pytest.approx(0)
    assert seat(SeatKind.PROUD, 0.5)[1] < -0.1
    assert seat(SeatKind.BELOW, 1.2)[1] > 0.1
    assert "0.5 mm proud" in words(seat(SeatKind.PROUD, 0.5)[0])
    assert "1.2 mm below" in words(seat(SeatKind.BELOW, 1.2)[0])


@pytest.mark.parametrize("kind", [SeatKind.BOTTOMED, SeatKind.SHOULDER])
def test_what_stops_a_part_is_drawn_under_it(kind):
    picture, _ = seat(kind)
    (part,), (push,) = only(picture, Box), only(picture, Arrow)
    assert way(push) == (0, 1)
    under = [line for line in only(picture, Line) if line.y1 == line.y2]
    assert all(line.bounds[1] == pytest.approx(part.y + part.height) for line in under)


@pytest.mark.parametrize(
    ("mark", "dots", "lines"),
    [("two punch dots", 4, 0), ("punch mark", 2, 0), ("paint line", 0, 1)],
)
def test_a_match_mark_runs_over_both_parts(mark, dots, lines):
    picture = draw([MatchMark(mark, "drum")], TRACTOR, wide=True)
    assert len(only(picture, Box)) == 2
    assert (len(only(picture, Circle)), len(only(picture, Line))) == (dots, lines)
    assert {mark, "drum"} <= set(words(picture))


def test_another_part_is_a_box_that_the_arrow_reaches_for():
    picture = draw([Faces("lip", OtherPart("gear"))], TRACTOR, wide=True)
    (arrow,) = only(picture, Arrow)
    (target,) = [box for box in only(picture, Box) if not box.filled]
    assert arrow.x1 < arrow.x2 < target.x
    assert {"lip", "gear"} <= set(words(picture))


def test_more_than_can_be_read_is_counted():
    facts = [Clocking("gap", hour) for hour in range(1, 7)]
    assert "+3" in words(draw(facts, TRACTOR))


@pytest.mark.parametrize("wide", [False, True])
def test_meaning_is_not_in_colour_alone(wide):
    """With every ink black the different facts still give different drawings."""
    shapes = set()
    cases = [
        [Hand("R", stamped=True)], [Hand("R")], [Hand("L")],
        [Place(1, 3, Side.LEFT)], [Place(2, 3, Side.LEFT)], [Place(1, 3, Side.RIGHT)],
        *([Faces("x", toward)] for toward in [*Side, *Outness]),
        *([Clocking("x", hour)] for hour in (1, 7)),
        *([Seat(kind)] for kind in SeatKind),
    ]  # fmt: skip
    for facts in cases:
        items = draw(facts, TRACTOR, wide=wide).items
        drawn = tuple(
            (type(i).__name__, i.bounds, getattr(i, "filled", None), getattr(i, "x2", None))
            for i in items
            if not isinstance(i, Text) or i.bold
        )
        shapes.add(drawn)
    assert len(shapes) == len(cases)


@pytest.mark.parametrize(
    ("place", "numbers"),
    [
        (Place(2, 3), [1, 2, 3]),
        (Place(14, 20), [1, 2, None, 13, 14, 15, None, 19, 20]),
        (Place(2, 20), [1, 2, 3, None, 19, 20]),
        (Place(3), [1, 2, 3, None]),
        (Place(5, 3), [1, 2, 3, 4, 5]),
        (Place(0, 2), [1, 2]),
    ],
)
def test_long_rows_are_drawn_with_gaps(place, numbers):
    assert row_marks(place) == numbers


@given(WORDS, st.floats(0.01, 20), st.floats(0.1, 1))
def test_lettering_that_was_fitted_fits(text, room, size):
    said, fitted = lettering.fit(text, room, size, size / 2)
    assert lettering.width(said) * fitted <= room + NEAR
    assert size / 2 - NEAR <= fitted <= size
    assert said.rstrip("…").rstrip() in " ".join(text.split())


def test_a_side_without_a_name_is_written_plainly():
    assert {"left", "right"} <= set(words(draw([Faces("C", Side.LEFT)], Datum(), wide=True)))


@given(st.lists(FACES, min_size=1, max_size=2), DATUMS)
def test_an_arrow_has_a_shaft_and_a_head(facts, datum):
    for arrow in only(draw(facts, datum), Arrow):
        length = abs(arrow.x2 - arrow.x1) + abs(arrow.y2 - arrow.y1)
        assert arrow.head < length
