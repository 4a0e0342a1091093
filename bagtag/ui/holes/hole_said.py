"""What is said large beside the map: which bolt was in this hole, which holes this bolt is for."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from bagtag.domain.hole_check import counts, line_of
from bagtag.domain.phrases import spanned
from bagtag.ui.holes.hole_lines import holes_said

if TYPE_CHECKING:
    from bagtag.domain.hardware import HeldBy
    from bagtag.domain.holes import Hole
    from bagtag.ui.holes.hole_draft import Draft


class Said(NamedTuple):
    """A few words large, what they mean, and a little more."""

    big: str
    head: str = ""
    more: str = ""


def said(draft: Draft) -> Said:
    """Of the chosen hole its fastener, of the chosen line its holes, else how many there are."""
    holes = [hole for hole in draft.map.holes if hole.number in draft.chosen]
    if len(holes) == 1:
        return _of_hole(draft, holes[0])
    if holes:
        return _of_holes(holes)
    line = next((line for line in draft.held_by if line.mark == draft.line), None)
    if line is not None and draft.map.holes:
        return _of_line(draft, line)
    many = len(draft.map.holes)
    return Said(f"{many} hole{'s' * (many != 1)}" if many else "No holes yet")


def _of_hole(draft: Draft, hole: Hole) -> Said:
    line = line_of(draft.map, hole.number, draft.held_by)
    group = f"Group {hole.group}." if hole.group else ""
    if line is None:
        wanted = f"Line {hole.mark} is not there" if hole.mark else "No fastener said yet"
        return Said(f"Hole {hole.number}", wanted, group)
    others = [n.number for n in draft.map.holes if n.mark == hole.mark and n is not hole]
    also = f"Also in {spanned(others)}." if others else "In no other hole."
    return Said(f"Hole {hole.number}: {hole.mark}", one_of(line), " ".join((also, group)).strip())


def _of_holes(holes: list[Hole]) -> Said:
    marks = sorted({hole.mark or "none said" for hole in holes})
    return Said(f"{len(holes)} holes", spanned(hole.number for hole in holes),
                f"Lines: {', '.join(marks)}")  # fmt: skip


def _of_line(draft: Draft, line: HeldBy) -> Said:
    where = holes_said(draft.map, line.mark)
    return Said(f"{line.mark}: {where}", line.called(), line.tightened())


def one_of(line: HeldBy) -> str:
    """What goes into one hole: `bolt M8x60, 24 N·m`."""
    return ", ".join(filter(None, (f"{line.kind or 'fastener'} {line.size()}".strip(),
                                   line.tightened())))  # fmt: skip


def counted(draft: Draft) -> tuple[str, bool]:
    """Holes against fasteners in words, and whether something does not agree."""
    if not draft.map.holes:
        return "", False
    wrong = counts(draft.map, draft.held_by)
    if wrong:
        return " ".join(wrong), True
    if not draft.held_by:
        return "", False
    many = len(draft.map.holes)
    return f"{many} hole{'s' * (many != 1)}, and a fastener for each.", False
