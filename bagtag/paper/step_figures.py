"""The figures a step asks for: a line to write each on with its limits, or what was given."""

from collections.abc import Iterator
from dataclasses import replace

from bagtag.domain.asked import limits, outside, shown
from bagtag.domain.fitting import Asked, Figure
from bagtag.paper.checklist_text import ChecklistStep, SignedOff
from bagtag.paper.fonts import BOLD, REGULAR
from bagtag.paper.pdf import MM
from bagtag.paper.step_setter import Field, Setter

_PEN = 17 * MM


def set_figures(setter: Setter, step: ChecklistStep) -> None:
    """Each on a row of its own."""
    if step.done is not None:
        for text, font in _given(step, step.done):
            setter.add(text, font, before=2)
        return
    for asked in step.asks:
        setter.row([Field(asked.name, _PEN, _allowed(asked))])


def _allowed(asked: Asked) -> str:
    """`mm (0.05 to 0.2)`."""
    within = limits(replace(asked, unit=""))
    return " ".join(part for part in (asked.unit, f"({within})" if within else "") if part)


def _given(step: ChecklistStep, done: SignedOff) -> Iterator[tuple[str, str]]:
    """What was given, in bold where it is outside its limits; what was not is said too."""
    for figure in done.figures:
        wrong = outside(figure)
        yield (wrong, BOLD) if wrong else (_told(figure), REGULAR)
    given = {figure.name for figure in done.figures}
    for asked in step.asks:
        if asked.name not in given:
            yield f"{asked.name}: not given", BOLD


def _told(figure: Figure) -> str:
    """`end float 0.12 mm (0.05 to 0.2)`."""
    low, high, places = figure.low, figure.high, figure.places
    allowed = _allowed(Asked(figure.name, figure.unit, low, high, places=places))
    return f"{figure.name} {shown(figure.value, places)} {allowed}".rstrip()
