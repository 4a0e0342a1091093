"""Hole maps looked over, and holes counted against fasteners."""

from dataclasses import replace
from string import ascii_uppercase

import pytest
from hole_kit import bolts, maps, ring_of
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_check import (
    Shape,
    checked,
    corners,
    counts,
    holes_of,
    line_of,
    marked,
    shape_of,
)
from bagtag.domain.hole_shapes import letter
from bagtag.domain.holes import Hole, HoleMap, Scale, from_data, to_data
from bagtag.domain.phrases import spanned
from bagtag.domain.torque import Length

NAN = float("nan")


def with_hole(**more):
    ring = ring_of(4)
    return replace(ring, holes=(*ring.holes, replace(Hole(5, 100, 75), **more)))


def scaled(first=1, second=2, value=80.0, unit="mm"):
    return replace(ring_of(4), scale=Scale(first, second, Length(value, unit)))


WRONG = [
    (with_hole(number=2), "Two holes have the number 2", "holes"),
    (with_hole(number=0), "1 or more, not 0", "holes"),
    (with_hole(x=100.05, y=15.0), "Holes 1 and 5 are in one place", "holes"),
    (with_hole(x=NAN), "Hole 5 is nowhere", "holes"),
    (with_hole(y=float("inf")), "Hole 5 is nowhere", "holes"),
    (replace(with_hole(x=210.0), photo="f" * 64), "Hole 5 lies beside the photo", "holes"),
    (with_hole(group="g" * 201), "201 characters", "holes"),
    (scaled(1, 1), "this is one twice", "scale"),
    (scaled(1, 9), "from hole 9, and there is none", "scale"),
    (scaled(value=0), "above zero, not 0", "scale"),
    (scaled(value=-3), "above zero, not -3", "scale"),
    (scaled(value=NAN), "above zero", "scale"),
    (scaled(unit="ft"), "mm or in", "scale"),
    (replace(ring_of(4), given=(1, 7)), "names hole 7, and there is none", "given"),
    (replace(ring_of(4), given=(3, 1, 3)), "has hole 3 twice", "given"),
    (replace(ring_of(4), width=0), "no size", "size"),
    (replace(ring_of(4), height=NAN), "no size", "size"),
    (replace(ring_of(4), outline=((0, 0), (9, 9))), "three corners or more", "outline"),
    (replace(ring_of(4), outline=((0, 0), (9, 9), (NAN, 1))), "nowhere", "outline"),
    (replace(ring_of(4), seen_from="s" * 201), "201 characters", "seen_from"),
    (HoleMap(tuple(Hole(i, i, 0) for i in range(1, 1001))), "999 holes at most", "holes"),
]


@pytest.mark.parametrize(("found", "words", "field"), WRONG, ids=[words for _, words, _ in WRONG])
def test_a_map_that_cannot_be_is_refused_in_one_sentence(found, words, field):
    with pytest.raises(BadInput) as refused:
        checked(found)
    assert words in refused.value.sentence
    assert refused.value.field == field


def test_scale_and_order_by_hand_that_can_be_are_kept():
    found = replace(scaled(1, 3, 4.5, "in"), given=(2, 4), seen_from="  the clutch\tside ")
    kept = checked(found)
    assert kept == replace(found, seen_from="the clutch side")
    assert kept.millimetres_per_unit() == pytest.approx(4.5 * 25.4 / 120)


@given(maps())
def test_what_is_checked_stays_and_is_kept_as_it_is(found):
    kept = checked(found)
    assert checked(kept) == kept == found
    assert from_data(to_data(kept)) == kept


def test_on_a_drawing_a_hole_may_lie_outside_the_field():
    assert checked(with_hole(x=230.0)).hole(5).x == 230


def lines(*marks):
    return [bolts(mark=mark) for mark in marks]


@pytest.mark.parametrize(
    ("had", "get"),
    [
        ((), ""),
        (("", "", ""), "ABC"),
        (("B", "", ""), "BAC"),
        (("", "A", ""), "BAC"),
        (("A", "A"), "AB"),
        (("C", "C", "A"), "CBA"),
    ],
)
def test_each_line_gets_a_letter_of_its_own_and_keeps_one_it_has(had, get):
    assert [line.mark for line in marked(lines(*had))] == list(get)


@given(st.lists(st.sampled_from(["", "", "A", "B", "K", "AA"]), max_size=60))
def test_letters_are_never_shared_and_giving_them_again_changes_nothing(had):
    done = marked(lines(*had))
    marks = [line.mark for line in done]
    assert len(set(marks)) == len(marks) == len(had)
    assert marked(done) == done
    for old, new in zip(had, marks, strict=True):
        assert old in (new, "") or had.count(old) > 1


def test_letters_run_on_after_z_and_leave_out_what_reads_as_a_figure():
    assert [letter(place) for place in (0, 7, 8, 23, 24, 25)] == ["A", "H", "J", "Z", "AA", "AB"]
    assert not {"I", "O"} & {letter(place) for place in range(24)}


def test_the_first_eight_lines_have_eight_shapes():
    shapes = [shape_of(mark) for mark in "ABCDEFGH"]
    assert shapes == list(Shape)
    assert shape_of("J") is Shape.CIRCLE
    assert len({(corners(shape), shape.is_double) for shape in Shape}) == len(Shape)


@given(st.text(max_size=3))
def test_any_mark_has_a_shape(mark):
    assert shape_of(mark) in Shape


@pytest.mark.parametrize("shape", Shape)
def test_no_shape_is_drawn_further_out_than_it_says(shape):
    assert all((x * x + y * y) ** 0.5 <= 1.3 + 1e-9 for x, y in corners(shape))


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ([], ""),
        ([7], "7"),
        ([1, 2], "1, 2"),
        ([3, 1, 2], "1–3"),
        ([1, 2, 3, 5, 9, 8], "1–3, 5, 8, 9"),
    ],
)
def test_numbers_in_a_row_are_a_span(numbers, words):
    assert spanned(numbers) == words


def test_which_bolt_was_in_this_hole_and_which_holes_has_this_bolt():
    found = replace(ring_of(4), holes=(*ring_of(4).holes, Hole(5, 0, 0, "B"), Hole(6, 9, 0)))
    held_by = [bolts(4), HeldBy(1, "screw", "M6", 12)]
    assert line_of(found, 5, held_by) == replace(held_by[1], mark="B")
    assert line_of(found, 6, held_by) is None
    assert line_of(found, 7, held_by) is None
    assert [hole.number for hole in holes_of(found, "A")] == [1, 2, 3, 4]
    assert line_of(replace(found, holes=(Hole(1, 0, 0, "K"),)), 1, held_by) is None


def counted(marks, *held_by):
    holes = tuple(Hole(i, i * 10, 0, mark) for i, mark in enumerate(marks.replace("-", " "), 1))
    holes = tuple(replace(hole, mark=hole.mark.strip()) for hole in holes)
    return counts(HoleMap(holes), held_by)


def test_where_all_agree_there_is_nothing_to_say():
    assert counted("AAAABB", bolts(4), bolts(2)) == ()
    assert counted("AAAA", bolts(None)) == ()
    assert counted("", bolts(4)) == ()


def test_holes_and_fasteners_that_do_not_agree_are_told():
    assert counted("AAAAA", bolts(6)) == ("A: 6 bolts M8x35 and 5 holes: 1 hole short.",)
    assert counted("AAA", bolts(1)) == ("A: 1 bolt M8x35 and 3 holes: 2 fasteners short.",)
    assert counted("AA", bolts(2), bolts(2)) == ("B: 2 bolts M8x35 and no hole: 2 holes short.",)
    assert counted("AA-", bolts(2)) == ("Hole 3 is without a fastener.",)
    assert counted("AAKK", bolts(2)) == (
        "Holes 3, 4 are of line K, which is not among the hardware.",
    )


def test_before_any_hole_says_its_line_only_the_sum_is_told():
    assert counted("-----", bolts(4), bolts(1)) == ()
    assert counted("-----", bolts(4)) == ("5 holes for 4 bolts M8x35: 1 fastener short.",)
    assert counted("--", bolts(None), bolts(1)) == ()
    assert counted("-") == ("1 hole, and no hardware is logged.",)


@given(maps(), st.lists(st.builds(bolts, st.sampled_from([None, 1, 2, 4])), max_size=3))
def test_every_hole_and_every_line_is_in_the_count_or_agrees(found, held_by):
    told = " ".join(counts(found, held_by))
    if not any(hole.mark for hole in found.holes):
        return
    for line in marked(held_by):
        agrees = line.count in (None, len(holes_of(found, line.mark)))
        assert (f"{line.mark}: " in told) is not agrees
    known = {line.mark for line in marked(held_by)}
    assert ("without a fastener" in told) is any(not hole.mark for hole in found.holes)
    assert ("not among the hardware" in told) is any(
        hole.mark and hole.mark not in known for hole in found.holes
    )


def test_marks_are_capitals():
    assert {letter(place) for place in range(24)} < set(ascii_uppercase)
