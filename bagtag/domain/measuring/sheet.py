"""A measuring sheet as it is kept: readings, limits, what is given, the decision."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any

from bagtag.domain.model import Fate


class SheetKind(StrEnum):
    """What is measured."""

    SIZE = "size"
    BORE = "bore"
    JOURNAL = "journal"
    BEARING = "bearing clearance"
    PLASTIC_GAUGE = "bearing clearance, plastic gauge"
    PISTON = "piston to bore"
    RING_GAP = "ring end gap"
    END_FLOAT = "end float"
    BACKLASH = "backlash"
    RUN_OUT = "run-out"
    FLATNESS = "flatness"
    SPRING = "spring"
    VALVES = "valve clearance"
    STACK = "shim stack"
    DECK = "deck height"
    COMPRESSION = "compression ratio"

    @property
    def is_at_build(self) -> bool:
        """Whether it is measured on parts that are in already, so that it holds none back."""
        return self in _AT_BUILD


_AT_BUILD = frozenset(
    {
        SheetKind.PLASTIC_GAUGE,
        SheetKind.END_FLOAT,
        SheetKind.BACKLASH,
        SheetKind.VALVES,
        SheetKind.STACK,
        SheetKind.DECK,
        SheetKind.COMPRESSION,
    }
)


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading. `key` is the place it was taken at, as its kind of sheet names it
    ("top, across"); `resolution` is the smallest step of the instrument, in `unit`, None where
    nobody said what it was read with; `temperature` is of the part, in °C, where it matters."""

    key: str
    value: Decimal
    unit: str = "mm"
    instrument: str = ""
    resolution: Decimal | None = None
    temperature: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """What one figure of a sheet may be, by the maker's manual: as new, and worn but still good.

    A limit that is not given is None. `key` names the figure ("size", "taper", "clearance").
    """

    key: str
    new_low: Decimal | None = None
    new_high: Decimal | None = None
    wear_low: Decimal | None = None
    wear_high: Decimal | None = None
    unit: str = "mm"


@dataclass(frozen=True, slots=True)
class Given:
    """A figure that is not measured but known: a stroke, a number of cylinders, an oversize that is
    made, a shim at hand. Several may have one key."""

    key: str
    value: Decimal
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Decision:
    """What was decided of the part, by whom and when. `work` is the work an outside shop is to do,
    empty for none; `said` is what the sheet said at that time."""

    fate: Fate
    who: str
    at: datetime
    why: str = ""
    work: str = ""
    said: str = ""

    @property
    def called(self) -> str:
        """`renew`; of what is worked on first, that it is decided once it is measured again."""
        if self.fate is Fate.DECIDE:
            return "to be worked, and measured again" if self.work else "to be measured again"
        return self.fate.value


@dataclass(frozen=True, slots=True)
class MeasureSheet:
    """A sheet of a job; `removal_id` is the part it decides, None where it is of none alone.
    `unit` is the one that readings without a unit are taken in."""

    id: int
    uid: str
    job_id: int
    kind: SheetKind
    title: str = ""
    removal_id: int | None = None
    unit: str = "mm"
    readings: tuple[Reading, ...] = ()
    limits: tuple[Limits, ...] = ()
    given: tuple[Given, ...] = ()
    note: str = ""
    decision: Decision | None = None
    made_at: datetime | None = None
    made_by: str = ""


def to_data(sheet: MeasureSheet) -> dict[str, Any]:
    """Readings, limits and what is given as plain JSON data; what was not said is left out. A unit
    is always said: that of a number is none."""
    return {
        name: [_plain(one) for one in getattr(sheet, name)]
        for name in ("readings", "limits", "given")
    }


def _plain(one: Reading | Limits | Given) -> dict[str, Any]:
    data = {name: getattr(one, name) for name in one.__slots__}
    return {
        name: str(value) if isinstance(value, Decimal) else value
        for name, value in data.items()
        if value not in (None, "") or name == "unit"
    }


def readings(data: Mapping[str, Any]) -> tuple[Reading, ...]:
    return tuple(Reading(**_made(item, _OF_READING)) for item in data.get("readings", ()))


def limits(data: Mapping[str, Any]) -> tuple[Limits, ...]:
    return tuple(Limits(**_made(item, _OF_LIMITS)) for item in data.get("limits", ()))


def given(data: Mapping[str, Any]) -> tuple[Given, ...]:
    return tuple(Given(**_made(item, ("value",))) for item in data.get("given", ()))


_OF_READING = ("value", "resolution", "temperature")
_OF_LIMITS = ("new_low", "new_high", "wear_low", "wear_high")


def _made(item: Mapping[str, Any], decimals: tuple[str, ...]) -> dict[str, Any]:
    return {key: Decimal(value) if key in decimals else value for key, value in item.items()}
