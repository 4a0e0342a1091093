"""Which fastener goes into which hole, and whether holes and fasteners agree."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_shapes import letter
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.phrases import listed


def marked(held_by: Iterable[HeldBy]) -> tuple[HeldBy, ...]:
    """The lines, each with a mark of its own: it keeps the one it has; the next free letters go to
    those without, and to a later line with the mark of an earlier one."""
    lines, taken = tuple(held_by), set[str]()
    kept = []
    for line in lines:
        kept.append("" if line.mark in taken else line.mark)
        taken.add(line.mark)
    return tuple(
        replace(line, mark=mark or _free(taken)) for line, mark in zip(lines, kept, strict=True)
    )


def _free(taken: set[str]) -> str:
    place = 0
    while letter(place) in taken:
        place += 1
    taken.add(letter(place))
    return letter(place)


def holes_of(hole_map: HoleMap, mark: str) -> tuple[Hole, ...]:
    """The holes of one line of hardware, by number."""
    own = (hole for hole in hole_map.holes if hole.mark == mark)
    return tuple(sorted(own, key=lambda hole: hole.number))


def line_of(hole_map: HoleMap, number: int, held_by: Sequence[HeldBy]) -> HeldBy | None:
    """What goes into that hole; None where nobody said, or the line is there no more."""
    hole = hole_map.hole(number)
    if hole is None or not hole.mark:
        return None
    return next((line for line in marked(held_by) if line.mark == hole.mark), None)


def spanned(numbers: Iterable[int]) -> str:
    """`1–6, 9`: numbers in their order, three or more in a row as a span."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(map(_run, runs))


def _run(run: list[int]) -> str:
    return f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run))


def counts(hole_map: HoleMap, held_by: Sequence[HeldBy]) -> tuple[str, ...]:
    """What does not agree between holes and fasteners, a sentence each; nothing where all does.

    Where no hole says its line yet, the holes together are held against all fasteners together.
    """
    if not hole_map.holes:
        return ()
    lines = marked(held_by)
    if not any(hole.mark for hole in hole_map.holes):
        return _all_together(hole_map, lines)
    told = [_line_count(line, holes_of(hole_map, line.mark)) for line in lines]
    return tuple(words for words in (*told, *_strangers(hole_map, lines), _bare(hole_map)) if words)


def _all_together(hole_map: HoleMap, lines: Sequence[HeldBy]) -> tuple[str, ...]:
    holes, known = len(hole_map.holes), [line.count for line in lines if line.count is not None]
    if not lines:
        return (f"{_holes(holes)}, and no hardware is logged.",)
    if len(known) < len(lines) or sum(known) == holes:
        return ()
    each = listed([line.called() for line in lines])
    return (f"{_holes(holes)} for {each}: {_apart(holes, sum(known))}.",)


def _line_count(line: HeldBy, holes: Sequence[Hole]) -> str:
    if line.count is None or line.count == len(holes):
        return ""
    return f"{line.mark}: {line.called()} and {_holes(len(holes))}: " + (
        f"{_apart(len(holes), line.count)}."
    )


def _apart(holes: int, fasteners: int) -> str:
    apart = abs(holes - fasteners)
    what = "hole" if holes < fasteners else "fastener"
    return f"{apart} {what}{'' if apart == 1 else 's'} short"


def _holes(many: int) -> str:
    return {0: "no hole", 1: "1 hole"}.get(many, f"{many} holes")


def _strangers(hole_map: HoleMap, lines: Sequence[HeldBy]) -> list[str]:
    known = {line.mark for line in lines} | {""}
    lost = sorted({hole.mark for hole in hole_map.holes} - known)
    return [
        f"{_named(holes_of(hole_map, mark))} of line {mark}, which is not among the hardware."
        for mark in lost
    ]


def _bare(hole_map: HoleMap) -> str:
    bare = holes_of(hole_map, "")
    return f"{_named(bare)} without a fastener." if bare else ""


def _named(holes: Sequence[Hole]) -> str:
    one = len(holes) == 1
    return f"{'Hole' if one else 'Holes'} {spanned(hole.number for hole in holes)} " + (
        "is" if one else "are"
    )
