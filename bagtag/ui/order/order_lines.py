"""The plan as lines, first to last; the pieces of a bench build stand in before it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from bagtag.domain.fitting import Ref, task
from bagtag.ui.order.left_lines import (
    StepLine,
    along_words,
    pieces_by_build,
    pieces_words,
)

if TYPE_CHECKING:
    from bagtag.services.board import Board, Step


def order_lines(board: Board) -> list[StepLine]:
    """One line for each step, in the order of the plan."""
    pieces = pieces_by_build(board.steps)
    along = {ref for step in board.steps for ref in step.along}
    called = {step.ref: step.called for step in board.steps if step.ref in along}
    builds = {ref: step.build_id for step in board.steps if (ref := step.ref) in pieces}
    return [
        StepLine(
            step,
            _depth(step.build_id, builds),
            _under(step, called) if step.along else step.area,
            pieces_words(step, pieces[step.ref]) if step.ref in pieces else "",
        )
        for step in board.steps
    ]


def _under(step: Step, called: Mapping[Ref, str]) -> str:
    return ". ".join(filter(None, (step.area, along_words(step, called))))


def _depth(build_id: int | None, builds: dict[Ref, int | None]) -> int:
    """How many bench builds deep."""
    depth = 0
    while build_id is not None and task(build_id) in builds and depth < len(builds):
        depth, build_id = depth + 1, builds[task(build_id)]
    return depth


def done_of(steps: tuple[Step, ...]) -> int:
    """How many steps at the beginning are signed off: they stay where they are."""
    place = 0
    while place < len(steps) and steps[place].sign_off is not None:
        place += 1
    return place
