"""Tightening: the passes of a joint, each ticked as it is done."""

from collections.abc import Callable, Sequence
from datetime import date

from bagtag.domain import schedule, tightening
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Ref, Task, TaskKind
from bagtag.domain.joint import Joint
from bagtag.domain.model import Removal
from bagtag.domain.round_wrenches import uses_of
from bagtag.domain.schedule import rounds_of
from bagtag.domain.tightening import Pass
from bagtag.services import forgetting, strip
from bagtag.services.planning import planned
from bagtag.store import belongings, fittings, joints, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


def joint(store: Store, ref: Ref) -> Joint:
    """How a step's fasteners are tightened; that of a final tightening is its part's."""
    with store.read() as connection:
        get = removals.get if ref.removal_id is not None else fittings.get_task
        step = get(connection, ref.id)
    if step is None:
        raise NotFound("This step is no longer in the build. Choose it again.")
    return joint_of(store, ref, step)


def joint_of(store: Store, ref: Ref, step: Removal | Task) -> Joint:
    """The same, of a step that was read already."""
    removal = step if isinstance(step, Removal) else _tightened(store, step)
    if removal is None:
        return Joint(ref, step.job_id)
    with store.read() as connection:
        hole_map = joints.map_of(connection, removal.id)
        ticks = joints.ticks_of(connection, ref)
        wrenches = joints.wrenches(connection)
    is_later = ref.removal_id is not None and ref in planned(store, step.job_id).tightenings
    rounds = () if is_later else rounds_of(removal, hole_map)
    return Joint(
        ref,
        step.job_id,
        removal.id,
        f"{removal.number} {removal.name}",
        removal.held_by,
        hole_map,
        removal.passes,
        rounds,
        uses_of(removal.held_by, rounds, wrenches, date.today()),
        tuple(ticks[n] for n in sorted(ticks) if n < len(rounds)),
    )


def _tightened(store: Store, step: Task) -> Removal | None:
    if step.kind is not TaskKind.TIGHTENING or step.removal_id is None:
        return None
    with store.read() as connection:
        return removals.get(connection, step.removal_id)


def set_passes(store: Store, removal_id: int, passes: Sequence[Pass], *, who: str = "") -> Change:
    """How the manual tightens a part; none are the usual ones. What was ticked is open again, at
    its own step and at its final tightening."""
    removal = strip.get_removal(store, removal_id)

    def do(act: Act) -> None:
        now = removals.get(act.connection, removal_id) or removal
        found = joints.map_of(act.connection, removal_id)
        kept = schedule.checked(passes, now.held_by, found)
        if kept != now.passes:
            act.update(tables.removal, removal_id, passes=tightening.to_data(kept))
            forgetting.untick_part(act, removal_id)

    called = f"{removal.number} {removal.name}"
    return store.act(f"the passes of {called}", do, who=who, job_id=removal.job_id)


def tick(store: Store, ref: Ref, place: int, *, who: str = "") -> Change:
    """One pass of a step is done, from 0. Saying it again adds nothing."""

    def do(act: Act) -> None:
        if place not in joints.ticks_of(act.connection, ref):
            made = {"place": place, "who": act.who, "at": rows.now()}
            act.insert(tables.pass_tick, **rows.ref_columns(ref), **made)

    return _at_pass(store, ref, place, "tick", do, who=who)


def untick(store: Store, ref: Ref, place: int, *, who: str = "") -> Change:
    """A pass is open again."""

    def do(act: Act) -> None:
        known = joints.ticks_of(act.connection, ref).get(place)
        if known is not None:
            act.delete(tables.pass_tick, known.id)

    return _at_pass(store, ref, place, "untick", do, who=who)


def _at_pass(
    store: Store, ref: Ref, place: int, word: str, do: Callable[[Act], None], *, who: str
) -> Change:
    found = joint(store, ref)
    if not 0 <= place < len(found.rounds):
        raise BadInput("This joint has other passes now. Look at them again.")

    def open_only(act: Act) -> None:
        if belongings.sign_off_of(act.connection, ref) is not None:
            raise BadInput(
                f"{found.called} is signed off already. Take that back to go over it again."
            )
        do(act)

    title = f"{word} pass {place + 1} of {found.called}"
    return store.act(title, open_only, who=who, job_id=found.job_id)
