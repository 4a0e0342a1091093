"""The steps that tools are laid out for, read from a job as it stands."""

from collections.abc import Mapping, Sequence

from bagtag.domain import areas as tree
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import TaskKind
from bagtag.domain.holes import HoleMap
from bagtag.domain.kinds import Kinds
from bagtag.domain.model import Removal
from bagtag.domain.schedule import rounds_of
from bagtag.domain.standing import Reach
from bagtag.domain.tools import ToolStep
from bagtag.domain.tools_work import Stage, Work
from bagtag.services import kinds
from bagtag.services.board import Step, board_of
from bagtag.services.planning import Planned
from bagtag.store import joints, removals
from bagtag.store.work import Store

FEWEST, MOST = 1, 999
_NO_AREA = "This area is no longer in the job. Choose another one."


def chosen(known: Planned, area_id: int | None, steps: int | None) -> tuple[list[Step], str]:
    """The steps still to be done of an area or of all, or the next few that can go in now; and
    which they are, in words."""
    left = [step for step in board_of(known).steps if step.ref not in known.signed]
    where = "the whole build"
    if area_id is not None:
        if area_id not in known.areas:
            raise BadInput(_NO_AREA, field="area_id")
        inside = tree.below(known.rows.areas, area_id)
        left = [step for step in left if step.area_id in inside]
        where = tree.path_text(known.areas, area_id)
    if steps is None:
        return left, where
    return _next(left, steps), _next_words(steps, where if area_id is not None else "")


def _next(left: Sequence[Step], steps: int) -> list[Step]:
    if not FEWEST <= steps <= MOST:
        raise BadInput(
            f"Tools are laid out for the next {FEWEST} to {MOST} steps. Correct it.", field="steps"
        )
    return [step for step in left if step.reach is Reach.NOW][:steps]


def _next_words(steps: int, where: str) -> str:
    said = (
        "the next step that can go in now"
        if steps == 1
        else (f"the next {steps} steps that can go in now")
    )
    return f"{said}, {where}" if where else said


def works(store: Store, steps: Sequence[Step]) -> list[Work]:
    """What each step is done with; the parts are read in one go."""
    ids = [id_ for step in steps if (id_ := step.removal_id or _tightens(step))]
    with store.read() as connection:
        parts = removals.by_ids(connection, ids)
        maps = joints.maps_of(connection, ids)
    every = kinds.of(store)
    return [_work(step, parts, maps, every) for step in steps]


def _tightens(step: Step) -> int | None:
    """The part whose fasteners a final tightening tightens."""
    is_final = step.task is not None and step.task.kind is TaskKind.TIGHTENING
    return step.task.removal_id if step.task is not None and is_final else None


def _work(
    step: Step, parts: Mapping[int, Removal], maps: Mapping[int, HoleMap], every: Kinds
) -> Work:
    here = ToolStep(step.ref, step.place, step.called)
    own = parts.get(step.removal_id or 0)
    if own is not None:
        return _part(step, here, own, maps.get(own.id), every)
    later = parts.get(_tightens(step) or 0)
    if later is not None:
        found = rounds_of(later, maps.get(later.id))
        return Work(here, later.held_by, later.passes, rounds=found, stage=Stage.TIGHTEN)
    return Work(here, task=step.task.kind if step.task is not None else None)


def _part(step: Step, here: ToolStep, own: Removal, hole_map: HoleMap | None, every: Kinds) -> Work:
    kind = every.of(own.name, own.kind)
    return Work(
        step=here,
        held_by=own.held_by,
        passes=own.passes,
        tools=own.tools,
        goes_on=own.goes_on,
        usual=kind.goes_on if kind is not None else "",
        part=kind.name if kind is not None else "",
        rounds=() if step.torque_later else rounds_of(own, hole_map),
        stage=Stage.RUN_IN if step.torque_later else Stage.WHOLE,
    )
