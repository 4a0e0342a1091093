"""Who signs a step: a row at its foot, or the block of a hold point for a second person."""

from bagtag.domain.phrases import listed
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, tidy, width
from bagtag.paper.ink import SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.step_marks import Box, Marks, Rule, Words
from bagtag.paper.step_task import done_by, is_hold
from bagtag.paper.typeset import cut, wrap

ROW = 7 * MM
DATE = 32 * MM
_HINT, _SAID = 8.0, 10.5
_GAP = 1.6 * MM
_INNER = 4 * MM
_BARRED = 4
"""Lines that names may take of those who must not sign."""
_PEN = 11 * MM
"""Room above a line for a signature."""


def height(step: ChecklistStep, room: float) -> float:
    """What signing takes at the foot of a step; a hold point's block is `room` wide."""
    if not is_hold(step):
        return ROW
    lines = _said(step, room)
    return 2 * _INNER + len(lines) * _SAID * 1.25 + (0 if step.done else _PEN + 3.4 * MM)


def sign_row(marks: Marks, step: ChecklistStep, x: float, right: float, foot: float) -> None:
    """Who did it and when: printed when it is done, else lines to write on."""
    y = foot - 2.4 * MM
    if step.done is not None:
        marks.words.append(Words(x, y, _signed(step, right - x), MEDIUM, 9.5))
        return
    date = right - DATE
    end = _hint(marks, done_by(step), x, y)
    marks.rules.append(Rule(end, y + 1, date - 3 * MM - end))
    end = _hint(marks, "date", date, y)
    marks.rules.append(Rule(end, y + 1, right - end))


def _hint(marks: Marks, text: str, x: float, y: float) -> float:
    """A small word before a line; where the line begins."""
    marks.words.append(Words(x, y, text, REGULAR, 8.5, SOFT))
    return x + width(text, REGULAR, 8.5) + _GAP


def hold_block(marks: Marks, step: ChecklistStep, x: float, right: float, top: float) -> None:
    """A wide frame with room for a second person's signature, name and date."""
    room = right - x
    marks.boxes.append(Box(x, top, room, height(step, room), weight=1.8))
    y = top + _INNER
    for text in _said(step, room):
        marks.words.append(Words(x + _INNER, y + _SAID, text, BOLD, _SAID))
        y += _SAID * 1.25
    if step.done is None:
        _pens(marks, x + _INNER, room - 2 * _INNER, y + _PEN)


def _pens(marks: Marks, x: float, room: float, y: float) -> None:
    """Three lines with a small word under each."""
    gap = 5 * MM
    for text, share in (("signature", 0.45), ("name", 0.35), ("date", 0.2)):
        wide = (room - 2 * gap) * share
        marks.rules.append(Rule(x, y, wide, 0.8))
        marks.words.append(Words(x, y + 1.2 * MM + _HINT * 0.8, text, REGULAR, _HINT, SOFT))
        x += wide + gap


def _said(step: ChecklistStep, room: float) -> list[str]:
    if step.done is not None:
        return [_signed(step, room - 2 * _INNER)]
    first = "Stop here until a second person has looked and signed."
    then = f"Signed by another than: {listed(step.not_by)}" if step.not_by else ""
    wide = room - 2 * _INNER
    barred = cut(tidy(then), BOLD, _SAID, wide, _BARRED)[0] if then else []
    return [*wrap(first, BOLD, _SAID, wide), *barred]


def _signed(step: ChecklistStep, room: float) -> str:
    """`Fitted by Ann, 2026-11-24 16:05`; a very long name ends early, the time never."""
    assert step.done is not None
    who, when = done_by(step), f", {step.done.at:%Y-%m-%d %H:%M}"
    head = f"{who[0].upper()}{who[1:]} "
    rest = room - width(head + when, BOLD, _SAID)
    return head + _short(tidy(step.done.who), rest) + when


def _short(name: str, room: float) -> str:
    return cut(name, BOLD, _SAID, room, 1)[0][0] if name else "someone"
