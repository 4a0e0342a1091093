"""A step of the plan on the move: where it would stand, counted in the plan as it is now."""

from __future__ import annotations

from dataclasses import dataclass

from bagtag.domain.fitting import Beside, Ref


@dataclass(frozen=True, slots=True)
class Move:
    """`start` is the row where the step stands, `place` the row it would stand in."""

    ref: Ref
    start: int
    place: int

    @property
    def is_still(self) -> bool:
        return self.place == self.start

    @property
    def edge(self) -> int:
        """The row at whose upper edge the line is that shows where it would stand."""
        return self.place if self.place <= self.start else self.place + 1

    @property
    def beside(self) -> Beside:
        """Moved up, it stands before the step in that row; moved down, after it."""
        return Beside.BEFORE if self.place < self.start else Beside.AFTER


def to_edge(move: Move, edge: int) -> int:
    """The row it would stand in if it were let go at the upper edge of a row."""
    return edge if edge <= move.start else edge - 1
