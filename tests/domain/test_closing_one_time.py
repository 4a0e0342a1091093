"""The closing count where new fasteners go in each time: common practice, no source."""

from dataclasses import replace

from closing_kit import LONG, SHORTER, changed, closings, counted, found
from hypothesis import given

from bagtag.domain.closing import closing_count
from bagtag.domain.closing_rows import Likely, Pieces
from bagtag.domain.fitting import part

NEW = replace(LONG, one_time=True)
JOB = changed(1, held_by=(NEW, SHORTER))


def line(closing, size):
    return next(one.pieces for one in closing_count(closing).fasteners if one.size == size)


def test_new_ones_that_are_in_are_renewed_and_the_rest_is_back():
    assert line(JOB, "M6x16") == Pieces(off=6, renewed=6)
    assert line(JOB, "M6x12") == Pieces(off=4, back=4)


def test_those_that_are_not_in_are_not_looked_for_among_the_old():
    short = counted(1, (0, 6, 4), closing=JOB)
    assert line(short, "M6x16") == Pieces(off=6, renewed=4, left=2)
    assert found(short) == [
        (Likely.SHORT, part(1), "2 M6x16 bolts short at 1 cover: new ones go in each time, and so "
         "many are not in. Do not make up with old ones."),
    ]  # fmt: skip


def test_new_and_old_ones_of_one_size_are_told_apart_by_their_lines():
    both = changed(1, held_by=(NEW, replace(SHORTER, length=16)))
    assert line(both, "M6x16") == Pieces(off=10, back=4, renewed=6)
    assert line(counted(1, (0, 6, 7), closing=both), "M6x16") == Pieces(10, 4, 7, over=1)


@given(closings())
def test_that_they_are_new_moves_them_and_loses_none(closing):
    old = [
        replace(r, held_by=tuple(replace(one, one_time=False) for one in r.held_by))
        for r in closing.removals
    ]
    now, then = closing_count(closing).fasteners, closing_count(replace(closing, removals=old))
    for one, other in zip(now, then.fasteners, strict=True):
        p, q = one.pieces, other.pieces
        assert (p.off, p.scrapped, p.left, p.over) == (q.off, q.scrapped, q.left, q.over)
        assert p.back + p.renewed == q.back + q.renewed
        assert p.renewed >= q.renewed
