"""What the screens show of a task of the build: its card."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from bagtag.domain.cautions import cautions
from bagtag.domain.fitting import Beside, Ref, Task, TaskKind, task
from bagtag.domain.model import Removal
from bagtag.domain.standing import Standing
from bagtag.services import board, kinds, tasks
from bagtag.services.board import Step
from bagtag.services.planning import planned
from bagtag.store import removals
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a bench build; `depth` is 0 for its own and 1 for those of a build within it.
    `waits` is the first thing that keeps it out."""

    ref: Ref
    called: str
    standing: Standing
    depth: int
    waits: str = ""


@dataclass(frozen=True, slots=True)
class TaskCard:
    """The card of a task, readable from a metre away.

    `stands` says beside which step it has its place ("after 27 fork R"); `within` is the bench
    build it belongs to, `tightens` the part whose fasteners a final tightening tightens; `not_by`
    are those who must not sign a hold point.
    """

    task: Task
    step: Step
    stands: str
    within: str = ""
    along: tuple[str, ...] = ()
    tightens: Removal | None = None
    cautions: tuple[str, ...] = ()
    not_by: tuple[str, ...] = ()
    pieces: tuple[Piece, ...] = ()

    @property
    def pieces_in(self) -> tuple[int, int]:
        """How many of its own pieces are in, and how many there are."""
        own = [piece for piece in self.pieces if not piece.depth]
        return sum(piece.standing is Standing.IN for piece in own), len(own)


def card(store: Store, task_id: int) -> TaskCard:
    """The card of a task as its job stands now."""
    one = tasks.get_task(store, task_id)
    known = planned(store, one.job_id)
    steps = {step.ref: step for step in board.board_of(known).steps}
    step = steps[task(task_id)]
    removal = _tightened(store, one)
    return TaskCard(
        task=one,
        step=step,
        stands=_stands(one, steps),
        within=steps[task(one.build_id)].called if one.build_id else "",
        along=tuple(steps[other].called for other in step.along),
        tightens=removal,
        cautions=_cautions(store, removal),
        not_by=known.not_by(task(task_id)),
        pieces=tuple(_pieces(one.id, _by_build(steps), 0)),
    )


def _tightened(store: Store, one: Task) -> Removal | None:
    if one.kind is not TaskKind.TIGHTENING or one.removal_id is None:
        return None
    with store.read() as connection:
        return removals.get(connection, one.removal_id)


def _cautions(store: Store, removal: Removal | None) -> tuple[str, ...]:
    if removal is None:
        return ()
    return cautions(removal, kinds.of(store).of(removal.name, removal.kind))


def _stands(one: Task, steps: Mapping[Ref, Step]) -> str:
    """`after 27 fork R`, `before everything else`; a bench build stands after its pieces."""
    if one.kind is TaskKind.BENCH_BUILD and one.anchor.of is None:
        return ""
    other = steps.get(one.anchor.of) if one.anchor.of is not None else None
    if other is not None:
        return f"{one.anchor.beside.value} {other.called}"
    return "after everything else" if one.anchor.beside is Beside.AFTER else "before everything"


def _by_build(steps: Mapping[Ref, Step]) -> Mapping[int, list[Step]]:
    found: dict[int, list[Step]] = {}
    for step in steps.values():
        if step.build_id is not None:
            found.setdefault(step.build_id, []).append(step)
    return found


def _pieces(build_id: int, inside: Mapping[int, list[Step]], depth: int) -> Iterator[Piece]:
    """The pieces in the order of the plan, each followed by those of a build that it is."""
    for step in inside.get(build_id, ()):
        waits = step.hindrances[0].sentence if step.hindrances else ""
        yield Piece(step.ref, step.called, step.standing, depth, waits)
        if step.task is not None:
            yield from _pieces(step.task.id, inside, depth + 1)
