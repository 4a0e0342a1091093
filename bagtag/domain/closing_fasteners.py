"""The closing count by fastener size, and what it finds at steps that are signed.

A part that is signed without a count had all its fasteners put back. Those of a part that is
renewed or scrapped went the way of their part. Where new ones go in each time, what is back is
renewed.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bagtag.domain.closing_bench import Bench, is_new
from bagtag.domain.closing_rows import FastenerLine, Outcome, Pieces
from bagtag.domain.closing_sizes import Size, size_of
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Removal


@dataclass(frozen=True, slots=True)
class Batch:
    """The fasteners of one size at one part. `line` is the first of its lines of hardware;
    `uncounted` where one of them was never counted and the part is not scrapped."""

    removal: Removal
    size: Size
    line: HeldBy
    pieces: Pieces
    uncounted: bool = False

    @property
    def gap(self) -> int:
        """How many went back beyond those that came off; below 0 how many did not."""
        return self.pieces.over - self.pieces.left


def batches(bench: Bench) -> tuple[Batch, ...]:
    """In the order off, those of new parts too."""
    return tuple(batch for removal in bench.log for batch in _of_part(bench, removal))


def _of_part(bench: Bench, removal: Removal) -> Iterable[Batch]:
    counted = bench.counted(removal)
    by_size: dict[Size, list[tuple[HeldBy, int | None, int]]] = {}
    for place, line in enumerate(removal.held_by):
        seen = counted.get(place)
        off = line.count if line.count is not None or seen is None else seen.off
        back = off or 0 if seen is None else seen.back
        by_size.setdefault(size_of(line), []).append((line, off, back))
    for size, lines in by_size.items():
        known = [(off, back) for _, off, back in lines if off is not None]
        new = sum(back for line, off, back in lines if off is not None and line.one_time)
        outcome = bench.outcome(removal)
        uncounted = len(known) < len(lines) and outcome is not Outcome.SCRAPPED
        yield Batch(removal, size, lines[0][0], _pieces(outcome, known, new), uncounted)


def _pieces(outcome: Outcome, known: Sequence[tuple[int, int]], new: int) -> Pieces:
    """`known` is how many came off and are in; `new` how many of those that are in are new."""
    off, back = sum(off for off, _ in known), sum(back for _, back in known)
    match outcome:
        case Outcome.LEFT:
            return Pieces(off, left=off)
        case Outcome.SCRAPPED:
            return Pieces(off, scrapped=off)
    left, over = max(0, off - back), max(0, back - off)
    if outcome is Outcome.RENEWED:
        return Pieces(off, renewed=back, left=left, over=over)
    return Pieces(off, back=back - new, renewed=new, left=left, over=over)


def by_size(found: Iterable[Batch]) -> tuple[FastenerLine, ...]:
    """Every size that came off, metric before inches, each by diameter and length."""
    lines: dict[Size, FastenerLine] = {}
    for batch in found:
        if is_new(batch.removal):
            continue
        line = lines.get(batch.size) or FastenerLine(batch.line.size(), batch.line.kind, Pieces())
        lines[batch.size] = FastenerLine(
            line.size, line.kind, line.pieces + batch.pieces, line.uncounted + batch.uncounted
        )
    return tuple(lines[size] for size in sorted(lines, key=Size.rank))
