"""Valve shims: which shim goes where, so that every clearance is in its range.

The rule is that of the trade: new shim = old shim + (measured clearance - wanted clearance), the
middle of the range being what is wanted. Shims that are in the engine are swapped and those at
hand used before one is bought.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.assignment import cheapest

MOST_SIZES = 1000


class Source(StrEnum):
    """Where a shim comes from."""

    STAYS = "stays"
    SWAPPED = "swapped"
    AT_HAND = "at hand"
    BUY = "buy"


@dataclass(frozen=True, slots=True)
class ValvePlace:
    """A valve as measured: its clearance, the shim in it, and what the clearance may be, all in
    one unit."""

    name: str
    clearance: Decimal
    shim: Decimal
    low: Decimal
    high: Decimal

    @property
    def wanted(self) -> Decimal:
        """The shim that would give the middle of the range."""
        return wanted(self.shim, self.clearance, (self.low + self.high) / 2)

    @property
    def thinnest(self) -> Decimal:
        return wanted(self.shim, self.clearance, self.high)

    @property
    def thickest(self) -> Decimal:
        return wanted(self.shim, self.clearance, self.low)

    def after(self, shim: Decimal) -> Decimal:
        """The clearance with another shim."""
        return self.clearance + self.shim - shim

    def takes(self, shim: Decimal) -> bool:
        """Whether a shim brings it into its range, the limits included."""
        return self.low <= self.after(shim) <= self.high


@dataclass(frozen=True, slots=True)
class Move:
    """What a place gets. `from_place` is where a swapped shim is now."""

    place: ValvePlace
    from_shim: Decimal
    to_shim: Decimal
    clearance_after: Decimal
    source: Source
    from_place: str = ""

    @property
    def said(self) -> str:
        """`swapped from 2 exhaust`, `buy`"""
        return f"{self.source} from {self.from_place}" if self.from_place else self.source.value


@dataclass(frozen=True, slots=True)
class ShimPlan:
    """`moves` are in the order of the places. `left_over` came out and goes nowhere; `saved` is how
    many fewer are bought than when each shim could only stay where it is; `impossible` are the
    places that no shim brings into their range."""

    moves: tuple[Move, ...] = ()
    to_buy: tuple[Decimal, ...] = ()
    left_over: tuple[Decimal, ...] = ()
    saved: int = 0
    impossible: tuple[ValvePlace, ...] = ()

    @property
    def moved(self) -> tuple[Move, ...]:
        return tuple(move for move in self.moves if move.source is not Source.STAYS)


def wanted(shim: Decimal, clearance: Decimal, target: Decimal) -> Decimal:
    """N = R + (M - V): the shim that gives the clearance wanted."""
    return shim + (clearance - target)


def nearest(sizes: Sequence[Decimal], size: Decimal) -> Decimal:
    """The size that is made nearest to one; of two as near the thinner, which leaves the valve the
    more clearance."""
    return min(sorted(sizes), key=lambda one: abs(one - size))


def series(low: Decimal, high: Decimal, step: Decimal) -> tuple[Decimal, ...]:
    """The sizes that are made, from the thinnest to the thickest: 2.00 to 2.98 by 0.02 are 50."""
    if not (0 < low <= high and step > 0):
        raise BadInput(
            "A series of shims runs from its thinnest to its thickest in steps above zero: 2.00 to "
            "2.98 by 0.02.",
            field="series",
        )
    count = int((high - low) // step) + 1
    if count > MOST_SIZES:
        raise BadInput(
            f"{low} to {high} by {step} would be {count} sizes of shim. Is the point where it "
            "belongs?",
            field="series",
        )
    return tuple(low + step * n for n in range(count))


def plan(
    places: Sequence[ValvePlace], at_hand: Sequence[Decimal] = (), series: Sequence[Decimal] = ()
) -> ShimPlan:
    """Which shim goes where: as many places as can be in their range, then fewest bought, then
    fewest moved, then nearest to the middle of the ranges in all. `at_hand` has each shim that
    lies ready, one by one; `series` the sizes that can be bought."""
    trial = Trial(tuple(places), tuple(at_hand), tuple(sorted(series)))
    columns = cheapest(trial.costs(swaps=True))
    moves = [trial.move(row, column) for row, column in enumerate(columns)]
    in_place = cheapest(trial.costs(swaps=False))
    return ShimPlan(
        moves=tuple(move for move in moves if move is not None),
        to_buy=tuple(sorted(m.to_shim for m in moves if m and m.source is Source.BUY)),
        left_over=_left_over(trial, columns, moves),
        saved=max(trial.bought(in_place) - trial.bought(columns), 0),
        impossible=tuple(p for p, move in zip(trial.places, moves, strict=True) if move is None),
    )


def _left_over(
    trial: "Trial", columns: Sequence[int], moves: Sequence[Move | None]
) -> tuple[Decimal, ...]:
    """What came out of a place that gets another one; without one, its own stays in meanwhile."""
    return tuple(
        sorted(
            place.shim
            for row, place in enumerate(trial.places)
            if row not in columns and moves[row] is not None
        )
    )


@dataclass(frozen=True, slots=True)
class Trial:
    """The columns that a place may be given: the shim of each place, each shim at hand, then for
    each place one that is bought, and at last for each place none at all."""

    places: tuple[ValvePlace, ...]
    at_hand: tuple[Decimal, ...]
    series: tuple[Decimal, ...]

    @property
    def there(self) -> tuple[Decimal, ...]:
        return (*(place.shim for place in self.places), *self.at_hand)

    def costs(self, *, swaps: bool) -> list[list[int]]:
        """Whole numbers, so that what comes first outweighs all that comes after it."""
        offs = _whole([[_off(place, shim) for shim in self._shims(place)] for place in self.places])
        n = len(self.places)
        far = n * max((off for row in offs for off in row if off is not None), default=0) + 1
        weights = _Weights(far, far * (n + 1), far * (n + 1) ** 2, far * (n + 1) ** 3)
        return [self._line(row, line, weights, swaps) for row, line in enumerate(offs)]

    def _shims(self, place: ValvePlace) -> tuple[Decimal | None, ...]:
        return (*self.there, self._bought(place))

    def _line(
        self, row: int, offs: Sequence[int | None], weights: "_Weights", swaps: bool
    ) -> list[int]:
        n, there = len(self.places), len(self.there)
        line = [weights.never] * (there + 2 * n)
        for column, off in enumerate(offs[:-1]):
            if off is not None and (swaps or column == row or column >= n):
                line[column] = off + (weights.moved if column != row else 0)
        if (off := offs[-1]) is not None:
            line[there + row] = off + weights.moved + weights.bought
        line[there + n + row] = weights.none
        return line

    def _bought(self, place: ValvePlace) -> Decimal | None:
        fit = [size for size in self.series if place.takes(size)]
        return nearest(fit, place.wanted) if fit else None

    def bought(self, columns: Sequence[int]) -> int:
        first = len(self.there)
        return sum(first <= column < first + len(self.places) for column in columns)

    def move(self, row: int, column: int) -> Move | None:
        place, n, there = self.places[row], len(self.places), self.there
        if column >= len(there) + n:
            return None
        if column >= len(there):
            return _move(place, self._bought(place) or place.shim, Source.BUY)
        if column == row:
            return _move(place, place.shim, Source.STAYS)
        if column >= n:
            return _move(place, there[column], Source.AT_HAND)
        return _move(place, there[column], Source.SWAPPED, self.places[column].name)


@dataclass(frozen=True, slots=True)
class _Weights:
    """What a shim that is moved, one that is bought, a place without any, and a shim that does not
    fit weigh: each more than all of the one before it together."""

    moved: int
    bought: int
    none: int
    never: int


def _move(place: ValvePlace, shim: Decimal, source: Source, from_place: str = "") -> Move:
    return Move(place, place.shim, shim, place.after(shim), source, from_place)


def _off(place: ValvePlace, shim: Decimal | None) -> Decimal | None:
    """How far from the middle of its range a shim brings a place, doubled so that a half has no
    fraction; None where it does not come into its range."""
    if shim is None or not place.takes(shim):
        return None
    return abs(2 * place.after(shim) - place.low - place.high)


def _whole(rows: Sequence[Sequence[Decimal | None]]) -> list[list[int | None]]:
    """The same as whole numbers of the finest step among them."""
    finest = min(
        (int(off.as_tuple().exponent) for row in rows for off in row if off is not None), default=0
    )
    return [[None if off is None else int(off.scaleb(-finest)) for off in row] for row in rows]
