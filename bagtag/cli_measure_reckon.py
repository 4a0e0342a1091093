"""What `measure` works out on the spot, with nothing kept: which shim goes where, and a ratio."""

import re
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.check import checked
from bagtag.domain.measuring.figures import decimal, reading
from bagtag.domain.measuring.sheet import Given, Limits, MeasureSheet, Reading, SheetKind
from bagtag.domain.measuring.valves import SIDES

_VALVE = re.compile(
    r"\s*(?P<name>(\d+) (inlet|exhaust)( [a-d])?)\s*=\s*(?P<read>.*)", re.IGNORECASE
)
_UNITS = {"chamber": "cm³", "crown": "cm³", "deck": "mm"}


def valve_sheet(
    found: Sequence[str], ranges: Mapping[str, str], at_hand: str, made: str
) -> MeasureSheet:
    """A sheet that is not kept. `found` are "1 inlet=0.30/2.40", `ranges` "0.18-0.22" by side,
    `at_hand` sizes with spaces between, `made` "2.00-2.98/0.02"."""
    named = [(_VALVE.fullmatch(text), text) for text in found]
    wrong = next((text for match, text in named if match is None), None)
    if wrong is not None:
        raise BadInput(f"{wrong} is no valve with its figures. Write 1 inlet=0.30/2.40.")
    matches = [match for match, _ in named if match is not None]
    return checked(
        MeasureSheet(
            0,
            "",
            0,
            SheetKind.VALVES,
            readings=tuple(one for match in matches for one in _readings(match)),
            limits=tuple(_range(side, text) for side, text in ranges.items() if text),
            given=(
                *_numbers(matches),
                *(Given("at hand", decimal(one)) for one in at_hand.split()),
                *_series(made),
            ),
        )
    )


def _numbers(matches: Sequence[re.Match[str]]) -> Iterable[Given]:
    """How many cylinders, and valves to a cylinder, as far as they are named."""
    yield Given("cylinders", Decimal(max(int(one[2]) for one in matches)))
    for side in SIDES:
        letters = [one[4] or " a" for one in matches if one[3].casefold() == side]
        most = max(("abcd".index(letter.strip().casefold()) for letter in letters), default=0)
        yield Given(side, Decimal(most + 1))


def _readings(match: re.Match[str]) -> Iterable[Reading]:
    name = match["name"].casefold()
    for what, one in zip(("clearance", "shim"), match["read"].split("/"), strict=False):
        value, unit = reading(one, "mm")
        yield Reading(f"{name}, {what}", value, unit)


def _range(side: str, text: str) -> Limits:
    low, dash, high = text.partition("-")
    if not dash:
        raise BadInput(f"{text} is no range of {side} clearance. Write it like 0.18-0.22.")
    return Limits(side, decimal(low, field=side), decimal(high, field=side))


def limits_of(figure: str, texts: Sequence[str], unit: str) -> Limits:
    """New from and to, worn from and to as typed, an empty one for none; in the unit typed, which
    is one for all of them, else in `unit`."""
    read = [reading(text, unit, field="limits") if text else None for text in texts]
    typed = {one[1] for one in read if one is not None}
    if len(typed) > 1:
        raise BadInput("Give all limits of a figure in one unit.", field="limits")
    low, high, least, most = (None if one is None else one[0] for one in read)
    return Limits(figure, low, high, least, most, unit=next(iter(typed), unit))


def _series(text: str) -> Iterable[Given]:
    if text:
        span, slash, step = text.partition("/")
        low, dash, high = span.partition("-")
        if not slash or not dash:
            raise BadInput(f"{text} is no series of shims. Write it like 2.00-2.98/0.02.")
        yield Given("series from", decimal(low, field="made"))
        yield Given("series to", decimal(high, field="made"))
        yield Given("series step", decimal(step, field="made"))


def ratio_sheet(read: Mapping[str, str], given: Mapping[str, str], cylinders: int) -> MeasureSheet:
    """A sheet that is not kept, of figures as typed; those that are empty are left out."""
    return checked(
        MeasureSheet(
            0,
            "",
            0,
            SheetKind.COMPRESSION,
            readings=tuple(
                Reading(key, *reading(text, _UNITS[key])) for key, text in read.items() if text
            ),
            given=(
                Given("cylinders", Decimal(cylinders)),
                *(Given(key, *reading(text, "mm")) for key, text in given.items() if text),
            ),
        )
    )
