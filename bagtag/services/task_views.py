"""What the screens show of a task of the build: its card."""

from collections.abc import Iterator
from dataclasses import dataclass

from bagtag.domain.cautions import cautions
from bagtag.domain.errors import NotFound
from bagtag.domain.fitting import Beside, Ref, Task, TaskKind, task
from bagtag.domain.model import Removal
from bagtag.domain.standing import Standing
from bagtag.services import board, kinds, tasks
from bagtag.services.board import Step
from bagtag.services.planning import Planned, planned
from bagtag.store import belongings, removals
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
    code: str = ""

    @property
    def pieces_in(self) -> tuple[int, int]:
        """How many of its own pieces are in, and how many there are."""
        own = [piece for piece in self.pieces if not piece.depth]
        return sum(piece.standing is Standing.IN for piece in own), len(own)


def card(store: Store, task_id: int) -> TaskCard:
    """The card of a task as its job stands now."""
    one = tasks.get_task(store, task_id)
    with store.read() as connection:
        own = belongings.tags_of_task(connection, task_id)
    known = planned(store, one.job_id)
    step = board.one_step(known, task(task_id))
    if step is None:
        raise NotFound("This task is no longer in the build. Choose another one.")
    removal = _tightened(store, one)
    return TaskCard(
        task=one,
        code=own[0].code if own else "",
        step=step,
        stands=_stands(one, known),
        within=known.called(task(one.build_id)) if one.build_id else "",
        along=tuple(known.called(other) for other in step.along),
        tightens=removal,
        cautions=_cautions(store, removal),
        not_by=known.not_by(task(task_id)),
        pieces=tuple(_pieces(known, one.id, 0)),
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


def _stands(one: Task, known: Planned) -> str:
    """`after 27 fork R`, `before everything`; a bench build stands after its pieces."""
    if one.anchor.of is not None:
        return f"{one.anchor.beside.value} {known.called(one.anchor.of)}"
    if one.kind is TaskKind.BENCH_BUILD:
        return ""
    return "after everything else" if one.anchor.beside is Beside.AFTER else "before everything"


def _pieces(known: Planned, build_id: int, depth: int) -> Iterator[Piece]:
    """The pieces in the order of the plan, each followed by those of a build that it is."""
    for ref in known.pieces(build_id):
        step = board.step_of(known, ref, 0, (ref,))
        waits = step.hindrances[0].sentence if step.hindrances else ""
        yield Piece(ref, step.called, step.standing, depth, waits)
        if ref.task_id is not None:
            yield from _pieces(known, ref.task_id, depth + 1)
