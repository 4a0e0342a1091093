"""Torque as a use case: the known threads, and figures with their units as a person types them."""

import re
from functools import lru_cache

from bagtag import resources
from bagtag.domain import threads as table
from bagtag.domain.adapter_reach import POINTS_BACK
from bagtag.domain.errors import BadInput
from bagtag.domain.figures import length
from bagtag.domain.hardware_check import MOST_TORQUE
from bagtag.domain.threads import Threads
from bagtag.domain.torque import Length, Torque, TorqueUnit
from bagtag.domain.torque_words import said
from bagtag.scan import tape_torque

_TABLE = "threads.toml"


@lru_cache(maxsize=1)
def threads() -> Threads:
    """The known threads, read once."""
    return table.read(resources.find(_TABLE).read_text(encoding="utf-8"), _TABLE)


_FIGURE = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)")
_UNITS = ", ".join(unit.value for unit in TorqueUnit if unit is not TorqueUnit.DECANEWTON_METRE)


def read_torque(
    text: str, unit: TorqueUnit | None = None, *, what: str = "A torque", field: str = "torque"
) -> Torque:
    """A torque as typed: "40 lbf·ft", "75 in-lb", "2,5 kgf m"; a bare figure is in `unit`.

    BadInput where it has no unit and none is given, is not above zero, is several figures, or is no
    torque.
    """
    typed = " ".join(text.split())
    figure = _FIGURE.match(typed)
    if figure is None:
        raise BadInput(f"{what} is a figure with its unit, as in 40 N·m or 30 lbf·ft.", field=field)
    _check_one_figure(typed, figure, what, field)
    rest = typed[figure.end() :].strip()
    found = _unit(rest) if rest else unit
    if found is None:
        wrong = f"{rest} is no unit of torque; use" if rest else f"Say the unit of {typed}:"
        raise BadInput(f"{wrong} {_UNITS}.", field=field)
    return _checked(Torque(float(figure.group().replace(",", ".")), found), what, field)


_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}")
_MORE_FIGURES = re.compile(r"\s*(?:-|–|to\b|\.\.|[.,])\s*\d", re.IGNORECASE)


def _check_one_figure(typed: str, figure: re.Match[str], what: str, field: str) -> None:
    """A comma before three figures may be of thousands or of decimals, a thousand times apart."""
    if _THOUSANDS.fullmatch(figure.group()):
        raise BadInput(
            f"{figure.group()} can be read in two ways: write {figure.group().replace(',', '')} "
            f"or {figure.group().replace(',', '.')}.",
            field=field,
        )
    if _MORE_FIGURES.match(typed, figure.end()):
        raise BadInput(
            f"{what} is one figure with its unit, and {typed} is more. Give the wanted one.",
            field=field,
        )


def _checked(torque: Torque, what: str, field: str) -> Torque:
    if torque.value <= 0:
        raise BadInput(f"{what} is above zero; this is {torque.value:g}. Correct it.", field=field)
    if torque.newton_metres() > MOST_TORQUE:
        raise BadInput(
            f"{what} cannot be {said(torque)}. Look at the figure and its unit again.", field=field
        )
    return torque


def _unit(text: str) -> TorqueUnit | None:
    """The unit that the whole of a text is, in any spelling that a tape line may have."""
    line = f"1 {text.strip().rstrip('.')}"
    whole = (found for found in tape_torque.torque(line) if found.end == len(line))
    return next((one.value.unit for one in whole if isinstance(one.value, Torque)), None)


def read_length(text: str, *, what: str = "A length", field: str = "length") -> Length:
    """A length as typed: "12 in", "4 1/2 in", "300 mm", "30 cm"; a bare figure is in mm. BadInput
    else."""
    typed = " ".join(text.split())
    found = length(typed)
    if found is not None:
        return found
    if typed[:1] in ("-", "−") and length(typed[1:]) is not None:
        then = POINTS_BACK if field == "adapter" else "Correct it."
        raise BadInput(f"{what} is above zero; this is {typed}. {then}", field=field)
    raise BadInput(
        f"{what} is above zero, a figure in mm or in, as in 300 mm or 12 in.", field=field
    )
