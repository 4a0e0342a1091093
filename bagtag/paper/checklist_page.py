"""What surrounds the steps: the opening of the first page, the head and foot of every page."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.datum import Datum, Side
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Fate
from bagtag.paper import ink
from bagtag.paper.checklist_text import CAUTIONS, ChecklistHeader, ChecklistStep
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, tidy, width
from bagtag.paper.ink import ACCENT, INK, RGB, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.step_hardware import has_passes
from bagtag.paper.step_task import is_hold
from bagtag.paper.typeset import cut, wrap

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

PAGE = (210 * MM, 297 * MM)
LEFT, WIDTH = 14 * MM, 182 * MM
TOP = PAGE[1] - 21 * MM
FOOT = 20 * MM
_COLUMN = 84 * MM
_SMALL = 7.0
_BY_AREA = "By area: numbers count in the whole build; a step that waits for another area says so."
_PASSES = (
    "Torque in passes, half, two thirds and full: go round all fasteners before the next pass."
)


_ROUNDS = "Torque in passes: go round all fasteners, in the order shown, before the next pass."


@dataclass(frozen=True, slots=True)
class _Line:
    x: float
    y: float
    text: str
    font: str
    size: float
    colour: RGB = INK


@dataclass(frozen=True, slots=True)
class Opening:
    """The title and the cautions: lines with baselines below `TOP`, in points."""

    lines: tuple[_Line, ...]
    box: tuple[float, float]
    height: float


def titled(header: ChecklistHeader) -> str:
    """`Build checklist: gearbox` where it is of one area."""
    return f"Build checklist: {header.area}" if header.area else "Build checklist"


def opening(
    header: ChecklistHeader, steps: Sequence[ChecklistStep], *, by_area: bool = False
) -> Opening:
    """Set the beginning of the first page."""
    title = cut(tidy(titled(header)), BOLD, 24, WIDTH, 3)[0]
    lines = [_Line(0, 22 + 28 * row, line, BOLD, 24) for row, line in enumerate(title)]
    y = 2 + 28.0 * len(title)
    for text, font, size, colour, most in _about(header, steps, by_area):
        for line in cut(tidy(text), font, size, WIDTH, most)[0]:
            y += size * 1.3
            lines.append(_Line(0, y, line, font, size, colour))
    top = y + 6 * MM
    cautions, foot = _cautions(top)
    return Opening((*lines, *cautions), (top, foot), foot + 7 * MM)


def _about(
    header: ChecklistHeader, steps: Sequence[ChecklistStep], by_area: bool
) -> list[tuple[str, str, float, RGB, int]]:
    facts = " · ".join(part for part in (header.owner, _tally(steps)) if part)
    said = [seen_from(header.datum)]
    said += [_BY_AREA] if by_area else []
    said += [_PASSES] if any(map(has_passes, steps)) else []
    said += [_ROUNDS] if any(len(step.rounds) > 1 for step in steps) else []
    about = [(header.title, MEDIUM, 14.0, INK, 3), (facts, REGULAR, 10.0, SOFT, 2)]
    return [*about, *((text, REGULAR, 10.0, SOFT, 3) for text in said if text)]


def _tally(steps: Sequence[ChecklistStep]) -> str:
    """`3 of 20 steps done, 2 to renew, 1 hold point`."""
    done = sum(step.done is not None for step in steps)
    renew = sum(step.fate is Fate.RENEW for step in steps)
    holds = sum(is_hold(step) for step in steps)
    tally = f"{done} of {len(steps)} step{'' if len(steps) == 1 else 's'} done"
    tally += f", {renew} to renew" if renew else ""
    return tally + (f", {holds} hold point{'' if holds == 1 else 's'}" if holds else "")


def seen_from(datum: Datum) -> str:
    """`Seen standing behind it: left is the flywheel side, right is the clutch side.`"""
    names = ", ".join(
        f"{side.value} is the {datum.call(side)}" for side in Side if side in datum.names
    )
    if not datum.viewpoint:
        return f"Sides: {names}." if names else ""
    return f"Seen {datum.viewpoint}" + (f": {names}." if names else ".")


def _cautions(top: float) -> tuple[list[_Line], float]:
    """The usual cautions in two columns; where the box ends."""
    head = top + 7 * MM
    lines = [_Line(6 * MM, head, "Before you start", BOLD, 11)]
    half = (len(CAUTIONS) + 1) // 2
    ends = []
    for x, part in ((6 * MM, CAUTIONS[:half]), (6 * MM + _COLUMN + 5 * MM, CAUTIONS[half:])):
        y = head + 3
        for caution in part:
            y += 3
            for line in wrap(caution, REGULAR, 9.5, _COLUMN):
                y += 9.5 * 1.25
                lines.append(_Line(x, y, line, REGULAR, 9.5))
        ends.append(y)
    return lines, max(ends) + 4 * MM


def paint_opening(canvas: "Canvas", set_: Opening) -> None:
    top, foot = set_.box
    ink.bar(canvas, LEFT, TOP - foot, width=1.4 * MM, height=foot - top, colour=ACCENT)
    for y in (top, foot):
        ink.rule(canvas, LEFT, TOP - y, WIDTH)
    for line in set_.lines:
        x, y = LEFT + line.x, TOP - line.y
        ink.text(canvas, x, y, line.text, font=line.font, size=line.size, colour=line.colour)


def paint_heading(
    canvas: "Canvas", area: str, steps: int, top: float, *, again: bool = False
) -> None:
    """An area's name and how many steps it has; or that it goes on."""
    count = "" if again else f"{steps} step{'' if steps == 1 else 's'}"
    tail = " (continued)" if again else ""
    room = WIDTH - width(count, MEDIUM, 10) - 6 * MM
    name = cut(tidy(area) or "No area", BOLD, 13, room, 1, tail=tail)[0][0]
    y = top - 9 * MM
    ink.text(canvas, LEFT, y, name, font=BOLD, size=13)
    x = LEFT + WIDTH - width(count, MEDIUM, 10)
    ink.text(canvas, x, y, count, font=MEDIUM, size=10, colour=SOFT)


def paint_frame(
    canvas: "Canvas",
    header: ChecklistHeader,
    number: int,
    count: int,
    *,
    has_torque: bool = False,
    foot: str = OVERRIDE,
) -> None:
    """Job and date at the head, the manual's word and the page's number at the foot; `has_torque`
    adds what every page with a torque says."""
    date = f"{header.printed:%Y-%m-%d}"
    room = WIDTH - width(date, REGULAR, 9) - 8 * MM
    job = " · ".join(part for part in (header.title, header.area) if part)
    title = cut(tidy(job), BOLD, 9, room, 1)[0]
    y = PAGE[1] - 14 * MM
    ink.text(canvas, LEFT, y, "".join(title), font=BOLD, size=9)
    _right(canvas, y, date)
    ink.rule(canvas, LEFT, y - 2 * MM, WIDTH, colour=INK, weight=0.9)
    y = 13.6 * MM
    ink.rule(canvas, LEFT, y + 4.2 * MM, WIDTH)
    ink.text(canvas, LEFT, y, foot, font=MEDIUM, size=9)
    _right(canvas, y, f"page {number} of {count}")
    if has_torque:
        _torque_cautions(canvas, y)


def _torque_cautions(canvas: "Canvas", y: float) -> None:
    """The others of every page with a torque; the manual's word stands above them."""
    said = " ".join(caution for caution in TORQUE_CAUTIONS if caution != OVERRIDE)
    for row, line in enumerate(wrap(said, REGULAR, _SMALL, WIDTH), start=1):
        ink.text(canvas, LEFT, y - row * 2.9 * MM, line, font=REGULAR, size=_SMALL)


def _right(canvas: "Canvas", y: float, words: str) -> None:
    x = LEFT + WIDTH - width(words, font=REGULAR, size=9)
    ink.text(canvas, x, y, words, font=REGULAR, size=9)
