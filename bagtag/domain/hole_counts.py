"""Which fastener goes into which hole, and whether holes and fasteners agree."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_shapes import letter
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.phrases import capital, listed, spanned


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


def holes_named(numbers: Collection[int]) -> str:
    """`hole 7`, `holes 1–6, 9`; nothing for none."""
    return f"hole{'s' if len(numbers) > 1 else ''} {spanned(numbers)}" if numbers else ""


def holes_of_line(hole_map: HoleMap | None, line: HeldBy) -> str:
    """`A, holes 1–6`; nothing where no map says where it goes."""
    where = holes_named(numbers_of(hole_map, line.mark)) if hole_map and line.mark else ""
    return f"{line.mark}, {where}" if where else ""


def numbers_of(hole_map: HoleMap, mark: str) -> list[int]:
    """The numbers of the holes of one line of hardware, in turn."""
    return [hole.number for hole in holes_of(hole_map, mark)]


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
        f"{_named(hole_map, mark)} of line {mark}, which is not among the hardware."
        for mark in lost
    ]


def _bare(hole_map: HoleMap) -> str:
    named = _named(hole_map, "")
    return f"{named} without a fastener." if named else ""


def _named(hole_map: HoleMap, mark: str) -> str:
    """`Hole 7 is`, `Holes 1–6 are`; nothing for none."""
    numbers = numbers_of(hole_map, mark)
    verb = "is" if len(numbers) == 1 else "are"
    return f"{capital(holes_named(numbers))} {verb}" if numbers else ""
