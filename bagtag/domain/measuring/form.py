"""What a sheet of a kind asks for: the places to read, the figures with limits, what is given."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bagtag.domain.measuring.sheet import SheetKind


@dataclass(frozen=True, slots=True)
class Place:
    """A place that is read. `row` and `column` say where it stands in the sheet's table ("top" and
    "across"); `number` is its number in the sheet's drawing; a place that need not be read is not
    `needed`."""

    key: str
    row: str
    column: str = ""
    unit: str = ""
    number: int = 0
    needed: bool = True

    @property
    def name(self) -> str:
        return f"{self.row}, {self.column}" if self.column else self.row


def grid(rows: Sequence[str], columns: Sequence[str]) -> tuple[Place, ...]:
    """A place in each column of each row, numbered row by row."""
    named = [(row, column) for row in rows for column in columns]
    return tuple(
        Place(f"{row}, {column}", row, column, number=number)
        for number, (row, column) in enumerate(named, 1)
    )


def numbered(count: int, needed: int | None = None) -> tuple[Place, ...]:
    """`place 1`, `place 2` …: so many alike; the first `needed` of them, or all, must be read."""
    least = count if needed is None else needed
    return tuple(
        Place(f"place {one}", f"place {one}", number=one, needed=one <= least)
        for one in range(1, count + 1)
    )


def by_row(places: Iterable[Place]) -> dict[str, list[Place]]:
    """The places by the row they stand in, in the order the rows first come."""
    found: dict[str, list[Place]] = {}
    for place in places:
        found.setdefault(place.row, []).append(place)
    return found


def by_column(places: Iterable[Place]) -> dict[str, list[Place]]:
    """The same by column."""
    found: dict[str, list[Place]] = {}
    for place in places:
        found.setdefault(place.column, []).append(place)
    return found


@dataclass(frozen=True, slots=True)
class FigureSlot:
    """A figure that limits can be given for, and which of them make sense: a taper has only an
    upper one. One that `is_number` has no unit: a ratio."""

    key: str
    name: str
    unit: str = ""
    low: bool = False
    high: bool = True
    is_number: bool = False


@dataclass(frozen=True, slots=True)
class GivenSlot:
    """A figure that is known beforehand; `several` may have more than one ("oversizes made"). One
    that is not `needed` may be left out; one that `is_number` has no unit: a count, a factor."""

    key: str
    name: str
    unit: str = ""
    several: bool = False
    needed: bool = False
    is_number: bool = False


@dataclass(frozen=True, slots=True)
class SheetForm:
    """The whole of what a sheet asks for. A place, figure or given without a unit is in that of
    the sheet."""

    kind: SheetKind
    places: tuple[Place, ...]
    figures: tuple[FigureSlot, ...]
    given: tuple[GivenSlot, ...] = ()
    how: str = ""
