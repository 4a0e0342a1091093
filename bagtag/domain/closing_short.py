"""Fasteners that do not add up at signed steps, and what became of them most likely.

That what is too many of one length is most likely what is short of another is common practice,
no source.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from bagtag.domain.closing_bench import Bench
from bagtag.domain.closing_fasteners import Batch
from bagtag.domain.closing_rows import Leftover, Likely
from bagtag.domain.closing_sizes import Size, pieces_of
from bagtag.domain.contradictions_common import called


@dataclass
class _Gap:
    """What is still short, or too many, of a batch while it is matched with others."""

    batch: Batch
    count: int


def found(bench: Bench, all_: Sequence[Batch]) -> Iterator[Leftover]:
    """What is short, too many or never counted at parts that are in."""
    signed = [batch for batch in all_ if bench.is_in(batch.removal)]
    short = [_Gap(batch, -batch.gap) for batch in signed if batch.gap < 0]
    over = [_Gap(batch, batch.gap) for batch in signed if batch.gap > 0]
    yield from _matched(over, short, Size.__eq__, Likely.MIXED_UP, _mixed_up)
    yield from _matched(over, short, Size.is_near, Likely.SWAPPED, _swapped)
    yield from (_short(bench, gap) for gap in short if gap.count)
    yield from (_over(gap) for gap in over if gap.count)
    yield from (_uncounted(batch) for batch in signed if batch.uncounted)


def _matched(
    over: Iterable[_Gap],
    short: Iterable[_Gap],
    is_match: Callable[[Size, Size], bool],
    likely: Likely,
    words: Callable[[Batch, Batch, int], tuple[str, str]],
) -> Iterator[Leftover]:
    """Each that is too many with what is short, at the same part first, then the nearest first."""
    short = [less for less in short if less.count]
    for more in over:
        size = more.batch.size
        near = [less for less in short if is_match(size, less.batch.size)] if more.count else []
        for less in sorted(near, key=partial(_far, more)):
            count = min(more.count, less.count)
            if count:
                more.count -= count
                less.count -= count
                yield _pair(likely, words(more.batch, less.batch, count), more, less, count)
        short = [less for less in short if less.count]


def _far(one: _Gap, other: _Gap) -> tuple[bool, bool, float]:
    """How unlikely it is that one is the other."""
    is_elsewhere = one.batch.removal.id != other.batch.removal.id
    return is_elsewhere, *one.batch.size.distance(other.batch.size)


def _pair(likely: Likely, words: tuple[str, str], more: _Gap, less: _Gap, count: int) -> Leftover:
    one, other = less.batch.removal.id, more.batch.removal.id
    return Leftover(likely, *words, one, other_id=0 if one == other else other, pieces=count)


def _swapped(more: Batch, less: Batch, count: int) -> tuple[str, str]:
    at = "" if more.removal is less.removal else f" at {called(more.removal)}"
    return (
        f"{pieces_of(count, more.line)} too many{at} and {pieces_of(count, less.line)} short at "
        f"{called(less.removal)}",
        "most likely swapped. Take them out and measure: one too long bottoms in its hole, one "
        "too short strips it",
    )


def _mixed_up(more: Batch, less: Batch, count: int) -> tuple[str, str]:
    at = called(less.removal)
    return (
        f"{pieces_of(count, more.line)} too many at {called(more.removal)} and as many short at "
        f"{at}",
        f"most likely put in with the wrong part as they came off. Look for an empty hole at {at}",
    )


def _short(bench: Bench, gap: _Gap) -> Leftover:
    part = gap.batch.removal
    where = bench.lies(part)
    place = where if part.container_id not in bench.containers else f"{where}, or on the bench"
    said = f"most likely left {place}"
    if gap.batch.line.one_time:
        said = "new ones go in each time, and so many are not in. Do not make up with old ones"
    return Leftover(
        Likely.SHORT,
        f"{pieces_of(gap.count, gap.batch.line)} short at {called(part)}",
        said,
        part.id,
        container_id=part.container_id or 0,
        pieces=gap.count,
    )


def _over(gap: _Gap) -> Leftover:
    part = gap.batch.removal
    return Leftover(
        Likely.OVER,
        f"{pieces_of(gap.count, gap.batch.line)} too many at {called(part)}",
        "most likely from another place, or miscounted when it came off. Look for an empty hole "
        "elsewhere",
        part.id,
        pieces=gap.count,
    )


def _uncounted(batch: Batch) -> Leftover:
    what = f"{batch.line.size()} {batch.line.kind or 'fastener'}".strip()
    return Leftover(
        Likely.UNCOUNTED,
        f"{what} at {called(batch.removal)}",
        "never counted, so nobody can say that all are back. Count them in its entry",
        batch.removal.id,
    )
