"""A hole map while it is worked on: what is chosen, and what is done to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from bagtag.domain import hole_check, hole_places
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_order import round_about
from bagtag.domain.holes import HoleMap, OrderKind, Point, Scale
from bagtag.ui.holes.hole_history import History


class Draft(History):
    """A hole map, the hardware of its part, and what of both is chosen."""

    pointed = Signal()
    """Something else is chosen: holes, or a line of hardware."""
    refused = Signal(object)
    """A `BadInput`: the map stays as it was."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.held_by: tuple[HeldBy, ...] = ()
        self.chosen: tuple[int, ...] = ()
        self.line = ""

    def begin(self, hole_map: HoleMap, held_by: Sequence[HeldBy]) -> None:
        """Work on this map from here on. The first line of hardware is in hand on an empty one."""
        self.held_by = tuple(held_by)
        is_first = self.held_by and (len(self.held_by) == 1 or not hole_map.holes)
        self.line = self.held_by[0].mark if is_first else ""
        self.start(hole_map)
        self.point(())

    # What is chosen

    def point(self, numbers: Iterable[int]) -> None:
        self.chosen = tuple(dict.fromkeys(numbers))
        self.end_merging()
        self.pointed.emit()

    def point_at(self, number: int, *, adding: bool = False) -> None:
        """Choose a hole, or one more; one that is chosen already is let go by `adding`."""
        if not adding:
            self.point([number])
        elif number in self.chosen:
            self.point([one for one in self.chosen if one != number])
        else:
            self.point([*self.chosen, number])

    def point_next(self, step: int) -> None:
        """Choose the hole after the chosen one by its number, or before it."""
        numbers = sorted(hole.number for hole in self.map.holes)
        if not numbers:
            return
        at = self.chosen[-1] if self.chosen else (0 if step > 0 else numbers[-1] + 1)
        after = [n for n in numbers if n > at] if step > 0 else [n for n in numbers if n < at][::-1]
        self.point([after[0] if after else numbers[0 if step > 0 else -1]])

    def take_line(self, mark: str) -> None:
        """A line of hardware, for the chosen holes; where none is chosen, for those put next."""
        if self.chosen:
            self._each(self.chosen, mark=mark)
        else:
            self.line = mark
            self.pointed.emit()

    @property
    def ringed(self) -> frozenset[int]:
        """The holes of the line that is chosen, while no hole is."""
        if self.chosen or not self.line:
            return frozenset()
        return frozenset(hole.number for hole in hole_check.holes_of(self.map, self.line))

    # What is done to the map

    def put(self, points: Sequence[Point]) -> bool:
        """Put holes of a pattern in, numbered on; whether they could be."""
        return self._try(hole_places.numbered, points, self.line, self._group_in_hand())

    def put_one(self, x: float, y: float) -> None:
        """Put one hole in, with the lowest free number. It is not chosen: a letter typed after it
        is for the next one."""
        self._try(hole_places.put, (x, y), self.line, self._group_in_hand())

    def _group_in_hand(self) -> str:
        groups = {hole.group for hole in self.map.holes if self.line and hole.mark == self.line}
        return groups.pop() if len(groups) == 1 else ""

    def move(self, number: int, x: float, y: float) -> None:
        self._try(hole_places.moved, number, (x, y))

    def nudge(self, across: float, down: float) -> None:
        """Move the chosen holes by so much; one step of undo, however often it is repeated."""
        self.take(self._nudged(across, down), merging=("nudge", self.chosen))

    def _nudged(self, across: float, down: float) -> HoleMap:
        wide, high = self.map.width, self.map.height
        moved = [
            replace(
                hole,
                x=min(max(hole.x + across, 0.0), wide),
                y=min(max(hole.y + down, 0.0), high),
            )
            if hole.number in self.chosen
            else hole
            for hole in self.map.holes
        ]
        return replace(self.map, holes=tuple(moved))

    def take_out(self) -> None:
        """Take the chosen holes out."""
        chosen = self.chosen
        self.point(())
        self.take(hole_places.without(self.map, *chosen))

    def renumber(self) -> None:
        """Number the holes all round from the chosen one; where none is chosen, without gaps."""
        turn: tuple[int, ...] = ()
        if self.chosen:
            turn = round_about(self.map.holes)
            at = turn.index(self.chosen[-1])
            turn = turn[at:] + turn[:at]
        self.point(())
        self.take(hole_places.renumbered(self.map, turn))

    def set_group(self, group: str) -> None:
        self._each(self.chosen, group=group)

    def _each(self, numbers: Sequence[int], **columns: Any) -> None:
        holes = [
            replace(hole, **columns) if hole.number in numbers else hole for hole in self.map.holes
        ]
        self.take(replace(self.map, holes=tuple(holes)))

    def set_order(self, order: OrderKind) -> None:
        self.take(replace(self.map, order=order))

    def set_given(self, given: Sequence[int]) -> None:
        self.take(replace(self.map, given=tuple(given), order=OrderKind.GIVEN))

    def set_scale(self, scale: Scale | None) -> None:
        """The distance between two holes; BadInput where it cannot be one."""
        made = replace(self.map, scale=scale)
        hole_check.checked(made)
        self.take(made)

    def set_seen_from(self, side: str) -> None:
        self.take(replace(self.map, seen_from=side), merging="seen from")

    def set_ground(self, ground: HoleMap) -> None:
        """Lay the holes on another photo or outline, where they were in the old one."""
        old, is_drawn = self.map, not (self.map.photo or ground.photo)
        across = 1.0 if is_drawn else ground.width / old.width
        down = 1.0 if is_drawn else ground.height / old.height
        holes = tuple(replace(hole, x=hole.x * across, y=hole.y * down) for hole in old.holes)
        self.take(
            replace(
                old,
                holes=holes,
                photo=ground.photo,
                outline=ground.outline,
                width=ground.width,
                height=ground.height,
            )
        )

    def _try(self, change: Callable[..., HoleMap], *args: Any) -> bool:
        """Do it; what cannot be is said, and nothing changes."""
        try:
            made = change(self.map, *args)
            hole_check.checked(made)
        except BadInput as wrong:
            self.refused.emit(wrong)
            return False
        self.take(made)
        return True

    def undo(self) -> None:
        super().undo()
        self._still_there()

    def redo(self) -> None:
        super().redo()
        self._still_there()

    def _still_there(self) -> None:
        """Let go of chosen holes that are on the map no more."""
        there = {hole.number for hole in self.map.holes}
        self.point(number for number in self.chosen if number in there)
