"""Figures at sign-off: what is asked for, and how a figure stands to its limits."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import isfinite

from bagtag.domain.clean import clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked, Counted, Figure
from bagtag.domain.hardware import HeldBy
from bagtag.domain.wrench_use import with_drag

DIGITS = 10
"""So many digits leave nothing out that was written, and nothing in that reckoning left behind."""
MOST = 1e7
"""No figure of a bench is larger: a slip of the keys."""
WRENCH, SMALL_WRENCH, SMALL = 0.04, 0.06, 10.0
"""How far a setting torque tool may be off, above and up to 10 N·m (ISO 6789-1:2017, from
memory)."""


def torque_asked(held_by: Sequence[HeldBy]) -> tuple[Asked, ...]:
    """The torque that was applied, drag included, for each line of hardware that has one given."""
    return tuple(_torque(line) for line in held_by if line.torque is not None)


def _torque(line: HeldBy) -> Asked:
    assert line.torque is not None
    torque = with_drag(line.torque, line.drag)
    share = SMALL_WRENCH if torque.newton_metres() <= SMALL else WRENCH
    low, high = (round(torque.value * (1 + sign * share), 6) for sign in (-1, 1))
    return Asked(_torque_name(line), torque.unit.value, low, high, torque.value)


def _torque_name(line: HeldBy) -> str:
    said = f"{line.size()} {line.kind}".strip()
    torque = "torque with drag" if line.drag is not None else "torque"
    return f"{torque}, {said}" if said else torque


def figure(asked: Asked, value: float) -> Figure:
    """A figure as given; BadInput for what none can be."""
    if not isfinite(value) or abs(value) > MOST:
        raise BadInput(f"{asked.name} cannot be {value:g}. Give it again.", field=asked.name)
    return Figure(asked.name, value, asked.unit, asked.low, asked.high, asked.places)


def outside(given: Figure) -> str:
    """How a figure stands outside its limits, as a clause; nothing where it is within them."""
    said, places = told(given), given.places
    if given.low is not None and given.value < given.low:
        return f"{said} is below {shown(given.low, places)}"
    if given.high is not None and given.value > given.high:
        return f"{said} is above {shown(given.high, places)}"
    return ""


def told(given: Figure) -> str:
    """`end float 0.12 mm`"""
    return f"{given.name} {shown(given.value, given.places)} {given.unit}".strip()


def shown(value: float, places: int = 0) -> str:
    """A figure with the decimals it was written with; one that needs more to so many digits."""
    return f"{value:.{places}f}" if round(value, places) == value else f"{value:.{DIGITS}g}"


def places(*typed: str) -> int:
    """How many decimals the finest of these figures was written with: `76.50` with two."""
    return max((len(text.strip().replace(",", ".").partition(".")[2]) for text in typed), default=0)


def limits(asked: Asked) -> str:
    """`76.50 to 76.52 mm`, `at most 0.2 mm`, `at least 12 mm`, or nothing."""
    unit = f" {asked.unit}" if asked.unit else ""
    low, high = (
        None if one is None else shown(one, asked.places) for one in (asked.low, asked.high)
    )
    if low == high and low is not None:
        return f"{low}{unit}"
    if low is not None and high is not None:
        return f"{low} to {high}{unit}"
    if high is not None:
        return f"at most {high}{unit}"
    return f"at least {low}{unit}" if low is not None else ""


def miscounted(counts: Iterable[Counted], held_by: Sequence[HeldBy]) -> str:
    """The first line of hardware that went back in another number than came off, as a clause."""
    for one in counts:
        if one.back != one.off and 0 <= one.held < len(held_by):
            what = f"{held_by[one.held].size()} {held_by[one.held].kind}".strip() or "fastener"
            return f"{one.back} of {one.off} {what} went back"
    return ""


def checked_asks(asks: Iterable[Asked]) -> tuple[Asked, ...]:
    """Figures to ask for, as a person defined them; BadInput for limits that none can keep, and
    for a unit that is a figure."""
    found: dict[str, Asked] = {}
    for one in asks:
        checked = _checked_ask(one)
        name = checked.name.casefold()
        if name in found:
            raise BadInput(f"{checked.name} is asked for twice. Take one out.", field="asks")
        found[name] = checked
    return tuple(found.values())


def _checked_ask(one: Asked) -> Asked:
    name = clean_text(one.name, limit=60, field="asks", what="The name of a figure")
    unit = clean_text(one.unit, limit=20, field="asks", what=f"The unit of {name}")
    if not name:
        raise BadInput("Say what is measured, for example: end float.", field="asks")
    if any(map(str.isdigit, unit)) and not any(map(str.isalpha, unit)):
        raise BadInput(
            f"The unit of {name} is given as {unit}. Write a unit, for example: mm.", field="asks"
        )
    if one.low is not None and one.high is not None and one.low > one.high:
        raise BadInput(
            f"The limits of {name} are the wrong way round: {shown(one.low, one.places)} is "
            f"above {shown(one.high, one.places)}. Turn them round.",
            field="asks",
        )
    return replace(one, name=name, unit=unit)
