"""The picture of a hole map: what is drawn, that it stays in its box, and that nothing overlaps."""

from dataclasses import replace
from itertools import combinations
from math import hypot

import pytest
from hole_kit import bolts, head_of, maps, ring_of
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_kit import inside, only, overlap, words

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_beside import Spots, anywhere
from bagtag.domain.hole_meet import cuts, distance, outside
from bagtag.domain.hole_order import order
from bagtag.domain.hole_picture import NUMBER, TURN, draw
from bagtag.domain.hole_places import grid, numbered, rectangle, ring, round_outline, row
from bagtag.domain.holes import Hole, HoleMap, OrderKind
from bagtag.domain.shapes import Arrow, Circle, Ink, Line, Picture, Text

ASPECTS = st.none() | st.floats(0.8, 3)
LINES = st.lists(
    st.builds(bolts, st.sampled_from([1, 4, None]), st.sampled_from(["M8", "3/8-16 UNC"])),
    max_size=5,
)
LABELS = st.sampled_from([NUMBER, TURN])


def cover(n):
    """A ring with an outline, as a flange or a cover has it."""
    ring_map = ring_of(n)
    return replace(ring_map, outline=round_outline((100, 75), 72))


def strokes(picture):
    return [
        ((item.x1, item.y1), (item.x2, item.y2))
        for item in picture.items
        if isinstance(item, Line | Arrow)
    ]


def holes_drawn(picture):
    return [text for text in only(picture, Text) if text.bold and text.ink is Ink.INK]


JOINTS = {
    **{f"ring of {n}": cover(n) for n in (4, 6, 8, 12, 32)},
    "head": replace(head_of(), outline=rectangle(0, 0, 460, 200)),
    "row": numbered(HoleMap(order=OrderKind.CENTRE), row(7, (10, 50), (190, 50)), "A"),
    "cover": HoleMap(
        tuple(
            Hole(i, x, y, mark)
            for i, (x, y, mark) in enumerate(
                [(20, 20, "A"), (70, 15, "A"), (120, 15, "B"), (170, 20, "A"), (185, 60, "A"),
                 (180, 100, "A"), (150, 130, "C"), (110, 135, "A"), (70, 135, "B"), (30, 130, "A"),
                 (15, 95, "A"), (15, 55, "A"), (100, 70, "D"), (60, 75, "")],
                1,
            )
        ),
        outline=((5, 5), (185, 5), (197, 60), (190, 115), (160, 145), (25, 145), (3, 100)),
        seen_from="clutch side",
    ),
}  # fmt: skip
EACH = pytest.mark.parametrize("joint", JOINTS.values(), ids=list(JOINTS))
HELD_BY = [bolts(8), bolts(2, "M6"), HeldBy(1, "stud", "M8", 50), HeldBy(1, "dowel bolt", "M10")]


@EACH
@pytest.mark.parametrize("label", [NUMBER, TURN])
def test_a_joint_has_every_hole_its_number_and_its_turn(joint, label):
    way = order(joint)
    picture = draw(joint, HELD_BY, order=way, label=label)
    turns = {hole: turn for turn, hole in enumerate(way, 1)}
    large = [text.text for text in holes_drawn(picture) if text.text.isdigit()]
    small = [text.text for text in only(picture, Text) if text.text.isdigit()]
    inner = [hole.number if label == NUMBER else turns[hole.number] for hole in joint.holes]
    assert large == [str(number) for number in inner]
    assert sorted(small) == sorted([*large, *(str(n) for n in range(1, len(way) + 1))])


@EACH
@pytest.mark.parametrize("ordered", [False, True])
def test_in_a_joint_of_the_trade_nothing_overlaps(joint, ordered):
    picture = draw(joint, HELD_BY, order=order(joint) if ordered else None)
    check_apart(picture)


@EACH
@pytest.mark.parametrize("aspect", [0.9, 1.4, 2.6])
def test_neither_on_a_checklist_nor_on_a_wide_card(joint, aspect):
    check_apart(draw(joint, HELD_BY, order=order(joint), aspect=aspect))
    check_apart(draw(joint, HELD_BY, order=order(joint), aspect=aspect, has_legend=False))


def check_apart(picture):
    texts = only(picture, Text)
    assert [(a, b) for a, b in combinations(texts, 2) if overlap(a.bounds, b.bounds)] == []
    for text in texts:
        crossed = [segment for segment in strokes(picture) if cuts(segment, text.bounds)]
        assert crossed == [], text
    rings = [(c.x, c.y, c.radius) for c in only(picture, Circle)]
    for text in texts:
        x1, y1, x2, y2 = text.bounds
        for x, y, radius in rings:
            near = hypot(max(x1 - x, x - x2, 0), max(y1 - y, y - y2, 0))
            far = max(hypot(cx - x, cy - y) for cx in (x1, x2) for cy in (y1, y2))
            assert near >= radius or far <= radius, (text, x, y, radius)
    for a, b in combinations(rings, 2):
        apart = hypot(a[0] - b[0], a[1] - b[1])
        assert apart == pytest.approx(0) or apart > a[2] + b[2]
    for arrow in only(picture, Arrow):
        ends = ((arrow.x1, arrow.y1), (arrow.x2, arrow.y2))
        assert all(distance((x, y), ends) > radius for x, y, radius in rings)


@settings(deadline=None)
@given(maps(), LINES, st.booleans(), LABELS, ASPECTS, st.booleans())
def test_everything_lies_inside_the_picture(found, held_by, ordered, label, aspect, has_legend):
    way = order(found) if ordered else None
    picture = draw(found, held_by, order=way, label=label, aspect=aspect, has_legend=has_legend)
    assert picture.aspect == (aspect or picture.aspect)
    outer = [i for i in picture.items if not inside(i.bounds, 0, 0, picture.aspect, 1)]
    assert outer == []
    assert all(text.text and text.size > 0 for text in only(picture, Text))


@settings(deadline=None)
@given(maps(), LINES, LABELS, ASPECTS)
def test_small_numbers_stand_beside_all_holes_or_none_and_touch_nothing(
    found, held_by, label, aspect
):
    way = order(found)
    picture = draw(found, held_by, order=way, label=label, aspect=aspect, has_legend=False)
    texts = only(picture, Text)
    assert len(texts) in (len(way), 2 * len(way))
    assert [(a, b) for a, b in combinations(texts, 2) if overlap(a.bounds, b.bounds)] == []
    for text in texts[len(way) :]:
        assert [line for line in strokes(picture) if cuts(line, text.bounds)] == []


def test_no_holes_nothing_is_drawn():
    assert draw(HoleMap(outline=rectangle(0, 0, 9, 9)), HELD_BY) == Picture((), 1.0)
    assert draw(HoleMap(), aspect=2).aspect == 2


def test_one_hole_is_one_hole():
    picture = draw(HoleMap((Hole(3, 0, 0),)), [], order=(3,), label=TURN)
    assert words(picture) == ["3"]


def test_lines_are_told_apart_by_shape_and_in_the_legend_by_letter_and_words():
    joint = JOINTS["cover"]
    picture = draw(joint, HELD_BY)
    said = words(picture)
    assert {"A", "B", "C", "D"} <= set(said)
    assert "8 bolts M8x35 · holes 1, 2, 4–6, 8, 10–12" in said
    assert "2 bolts M6x35 · holes 3, 9" in said
    assert "no fastener · hole 14" in said
    assert "Seen from: clutch side" in said
    alone = draw(replace(joint, outline=(), seen_from=""), HELD_BY, has_legend=False)
    circles, lines = only(alone, Circle), only(alone, Line)
    assert len(circles) == 9 + 1  # of A, and the ring of the hole without a line
    assert len(lines) == 2 * 4 + 3 + 4 + 4  # B square, C triangle, D diamond, four ticks


def test_holes_that_nobody_gave_a_line_are_plain_rings_without_a_legend():
    bare = numbered(HoleMap(), ring(5, (50, 50), 40))
    picture = draw(bare, HELD_BY)
    assert words(picture) == ["1", "2", "3", "4", "5"]
    assert len(only(picture, Circle)) == 5
    assert only(picture, Line) == []


def test_a_line_that_is_gone_is_told_in_the_legend():
    assert "not among the hardware · hole 2" in words(
        draw(HoleMap((Hole(1, 0, 0, "A"), Hole(2, 9, 0, "K"))), [bolts(1)])
    )


def test_what_a_legend_cannot_say_in_one_line_goes_on_in_the_next_and_is_not_cut():
    odd = tuple(Hole(i, i * 4, (i % 3) * 30, "A" if i % 2 else "B") for i in range(1, 40))
    said = " ".join(words(draw(HoleMap(odd), [bolts(20), bolts(19)], aspect=1.2)))
    assert "holes 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27, 29, 31, 33, 35, 37, 39" in said


def test_a_word_wider_than_the_room_is_broken_and_two_letters_have_room():
    held_by = [HeldBy(3, "bolt", "Ü" * 90, mark="AB")]
    picture = draw(HoleMap((Hole(1, 0, 0, "AB"), Hole(2, 9, 9, "AB"))), held_by, aspect=1)
    check_apart(picture)
    assert "".join(words(picture)).count("Ü") == 90
    assert all(inside(text.bounds, 0, 0, 1, 1) for text in only(picture, Text))


@pytest.mark.parametrize("mark", "ABCDEFGH")
@pytest.mark.parametrize("count", [4, 12, 100])
def test_the_number_fits_into_its_shape(mark, count):
    points = grid(count // 2, 2, (0, 0), 30, 30)
    picture = draw(numbered(HoleMap(), points, mark), has_legend=False)
    check_apart(picture)
    assert len(only(picture, Text)) == count


@pytest.mark.parametrize("n", [4, 6, 8, 12, 32])
def test_round_a_ring_the_small_numbers_stand_outside(n):
    picture = draw(ring_of(n), order=order(ring_of(n)), has_legend=False, aspect=1)
    holes = [hypot(c.x - 0.5, c.y - 0.5) + c.radius for c in only(picture, Circle)]
    small = [text for text in only(picture, Text) if text.ink is Ink.ACCENT]
    assert len(small) == n
    for text in small:
        x1, y1, x2, y2 = text.bounds
        assert hypot((x1 + x2) / 2 - 0.5, (y1 + y2) / 2 - 0.5) > max(holes)


def test_two_texts_do_not_take_one_place():
    """Two holes in a box that has room for one text, between them."""
    spots = Spots([(0.2, 0.5), (0.5, 0.5)], [0.03, 0.03], 0.03, (0.16, 0.46, 0.54, 0.54))
    style = Text(0, 0, "", 0.0775)
    assert len(anywhere(spots, ["1000", ""], [], style) or []) == 1
    assert len(anywhere(spots, ["", "1000"], [], style) or []) == 1
    assert anywhere(spots, ["1000", "1001"], [], style) is None


def test_arrows_lead_through_the_first_turns():
    joint = JOINTS["ring of 32"]
    picture = draw(joint, order=order(joint), has_legend=False)
    middle = {int(t.text): (t.x, t.y - t.size * 0.3555) for t in holes_drawn(picture)}
    led = [
        tuple(
            min(middle, key=lambda n: hypot(middle[n][0] - x, middle[n][1] - y))
            for x, y in ((arrow.x1, arrow.y1), (arrow.x2, arrow.y2))
        )
        for arrow in only(picture, Arrow)
    ]
    assert led == [(1, 17), (17, 9), (9, 25)]
    assert only(draw(joint, order=order(joint), arrow_count=0), Arrow) == []
    assert only(draw(joint), Arrow) == []


def test_no_arrow_runs_through_a_hole_in_between():
    joint = JOINTS["row"]
    picture = draw(joint, order=(1, 3, 4), arrow_count=2)
    assert [arrow.y1 == arrow.y2 for arrow in only(picture, Arrow)] == [True]


def test_a_pass_that_leaves_holes_out_says_a_dash_in_them():
    picture = draw(cover(4), [bolts(4)], order=(1, 3), label=TURN)
    assert [text.text for text in holes_drawn(picture) if text.text in "–12"] == [
        "1",
        "–",
        "2",
        "–",
    ]


def test_the_outline_is_open_where_a_hole_stands_on_it():
    on_edge = numbered(HoleMap(outline=rectangle(0, 0, 100, 60)), grid(2, 2, (0, 0), 100, 60), "A")
    picture = draw(on_edge, [bolts(4)], has_legend=False)
    rings = only(picture, Circle)
    lines = [line for line in only(picture, Line) if line.ink is Ink.FAINT]
    assert len(lines) == 4
    for line in lines:
        ends = ((line.x1, line.y1), (line.x2, line.y2))
        assert all(distance((ring.x, ring.y), ends) > ring.radius for ring in rings)


POINT = st.tuples(st.floats(-5, 5), st.floats(-5, 5))


@given(POINT, POINT, POINT, st.floats(0.1, 4))
def test_what_is_left_of_a_stroke_lies_outside_the_circle(start, end, middle, radius):
    for piece in outside((start, end), middle, radius):
        for share in (0.0, 0.3, 0.7, 1.0):
            x = piece[0][0] + (piece[1][0] - piece[0][0]) * share
            y = piece[0][1] + (piece[1][1] - piece[0][1]) * share
            assert hypot(x - middle[0], y - middle[1]) >= radius - 1e-6


def test_the_same_map_gives_the_same_picture():
    joint = JOINTS["cover"]
    assert draw(joint, HELD_BY, order=order(joint)) == draw(joint, HELD_BY, order=order(joint))
