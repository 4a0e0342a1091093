"""What can go in now, as lines: by area what is ready, what comes after it, and what waits."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bagtag.domain.fitting import Ref, task
from bagtag.domain.standing import Reach, Standing
from bagtag.ui.order.left_lines import (
    Area,
    Fold,
    FreedLine,
    Heading,
    Line,
    Said,
    StepLine,
    along_words,
    pieces_by_build,
    pieces_words,
)

if TYPE_CHECKING:
    from bagtag.services.board import Board, Step

FREES = "What would free the most"
AFTER = "after these"


@dataclass(slots=True)
class _Group:
    """The steps of one area that are not in, and no pieces of another: ready, then, waiting."""

    area: Area
    name: str
    steps: tuple[list[Step], list[Step], list[Step]] = field(default_factory=lambda: ([], [], []))

    @property
    def best(self) -> tuple[Reach, int]:
        """What it has to offer, and where in the plan: areas stand in that order."""
        kind = next(kind for kind in Reach if self.steps[kind])
        return kind, self.steps[kind][0].place


class NowLines:
    """The lines of a board. `opened` are the areas whose waiting steps are unfolded."""

    def __init__(self, board: Board, opened: Collection[Area] = (), most_frees: int = 3) -> None:
        self.board, self.opened, self.most_frees = board, opened, most_frees
        self.pieces = pieces_by_build(board.steps)
        self.called = {step.ref: step.called for step in board.steps}
        self._kinds: dict[Ref, Reach] = {}

    def all(self) -> list[Line]:
        groups = self._groups()
        lines: list[Line] = [*self._frees()]
        if groups and groups[0].best[0] is not Reach.NOW:
            lines.append(Said("Nothing can go in now."))
        for group in groups:
            lines += self._of_area(group, alone=len(groups) == 1)
        return lines

    def area_of(self, ref: Ref) -> tuple[bool, Area]:
        """Whether a step waits behind the fold of an area, and of which."""
        for group in self._groups():
            if any(ref in self._inside(step) for step in group.steps[Reach.WAITS]):
                return True, group.area
        return False, None

    def _frees(self) -> Iterator[Line]:
        found = [freed for freed in self.board.frees if freed.alone > 1][: self.most_frees]
        if found:
            yield Heading(FREES)
        for freed in found:
            yield FreedLine(freed)

    def _groups(self) -> list[_Group]:
        groups: dict[Area, _Group] = {}
        for step in self.board.steps:
            if self._is_piece(step) or self._is_done(step):
                continue
            group = groups.setdefault(step.area_id, _Group(step.area_id, step.area))
            group.steps[self.kind_of(step)].append(step)
        return sorted(groups.values(), key=_best)

    def _is_piece(self, step: Step) -> bool:
        return step.build_id is not None and task(step.build_id) in self.pieces

    def _is_done(self, step: Step) -> bool:
        pieces = self.pieces.get(step.ref, ())
        return step.standing is Standing.IN and all(self._is_done(piece) for piece in pieces)

    def kind_of(self, step: Step) -> Reach:
        """Ready, to come after others, or waiting; a bench build is what its pieces are at best."""
        known = self._kinds.get(step.ref)
        if known is None:
            inner = [self.kind_of(one) for one in self._open_pieces(step)]
            known = self._kinds[step.ref] = min([step.reach, *inner])
        return known

    def _open_pieces(self, step: Step) -> list[Step]:
        return [one for one in self.pieces.get(step.ref, ()) if not self._is_done(one)]

    def _inside(self, step: Step) -> set[Ref]:
        found = {step.ref}
        for piece in self._open_pieces(step):
            found |= self._inside(piece)
        return found

    def _of_area(self, group: _Group, *, alone: bool) -> Iterator[Line]:
        ready, then, waiting = group.steps
        if group.name or not alone:
            count = f"{len(ready)} now" if ready else ""
            yield Heading(group.name or "Elsewhere", count)
        for step in ready:
            yield from self._step(step, group.area)
        if then:
            yield Said(AFTER if ready else "after other steps")
        for step in then:
            yield from self._step(step, group.area)
        if waiting:
            yield from self._waiting(waiting, group.area)

    def _waiting(self, steps: Sequence[Step], area: Area) -> Iterator[Line]:
        is_open = area in self.opened
        verb = "waits" if len(steps) == 1 else "wait"
        yield Fold(area, f"{len(steps)} {verb}", is_open)
        for step in steps if is_open else ():
            yield from self._step(step, area)

    def _step(self, step: Step, area: Area, depth: int = 0) -> Iterator[Line]:
        yield StepLine(step, depth, self._under(step), self._word(step), area)
        for piece in self._open_pieces(step):
            yield from self._step(piece, area, depth + 1)

    def _under(self, step: Step) -> str:
        """For what waits: for what. For the rest nothing but what goes in with it: the part itself
        says how it sat."""
        along = along_words(step, self.called)
        own = step.hindrances[0].sentence if step.hindrances else ""
        return ". ".join(filter(None, (own, along)))

    def _word(self, step: Step) -> str:
        counted = pieces_words(step, self.pieces.get(step.ref, ()))
        if counted:
            return counted
        return "then" if step.reach is Reach.TODAY else step.standing.value


def _best(group: _Group) -> tuple[Reach, int]:
    return group.best
