"""What is added to the log for its build: tasks, bench builds, final tightenings, asked figures."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from uuid import uuid4

from bagtag.domain import asked
from bagtag.domain.change import Change
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Anchor, Asked, Beside, Ref, Task, TaskKind, part, task
from bagtag.domain.model import Fate, Removal, TagRole
from bagtag.domain.task_kinds import NAMES, usual_asks
from bagtag.services import codes_drawn, forgetting, strip
from bagtag.store import fittings, jobs, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class TaskForm:
    """What a person enters of a task. Without a name its kind names it; `asks` None takes what its
    kind usually asks for. Saying a uid again adds nothing."""

    kind: TaskKind
    name: str = ""
    anchor: Anchor = field(default_factory=Anchor)
    area_id: int | None = None
    build_id: int | None = None
    asks: tuple[Asked, ...] | None = None
    note: str = ""
    uid: str = ""


def add_task(store: Store, job_id: int, form: TaskForm, *, who: str = "") -> Change:
    """A task of the build, at its anchor; `new_id` is its id."""
    if form.kind in (TaskKind.TIGHTENING, TaskKind.BENCH_BUILD):
        raise BadInput("A bench build needs its pieces, a final tightening its part.", field="kind")
    return _add(store, job_id, form, who=who)


def _add(
    store: Store,
    job_id: int,
    form: TaskForm,
    *,
    pieces: Sequence[Ref] = (),
    removal_id: int | None = None,
    who: str = "",
) -> Change:
    columns = _columns(form)
    uid = form.uid or str(uuid4())

    def do(act: Act) -> None:
        known = fittings.task_of_uid(act.connection, uid)
        if known is not None:
            act.new_id = known.id
            return
        _check_places(act, job_id, form)
        made = {"made_at": rows.now(), "made_by": act.who, "removal_id": removal_id}
        task_id = act.insert(tables.task, uid=uid, job_id=job_id, **made, **columns)
        codes_drawn.tie(act, "", TagRole.TASK, job_id, task_id=task_id)
        for piece in pieces:
            _put(act, job_id, piece, task_id)

    return store.act(f"add {columns['name']}", do, who=who, job_id=job_id)


def _columns(form: TaskForm) -> dict[str, object]:
    name = clean_text(form.name, limit=200) or NAMES[form.kind]
    if not name:
        raise BadInput("Say what is to be done, for example: turn it by hand.", field="name")
    asks = usual_asks(form.kind) if form.asks is None else form.asks
    return {
        "kind": form.kind.value,
        "name": name,
        "anchor_beside": form.anchor.beside.value,
        **rows.ref_columns(form.anchor.of, "anchor_"),
        "area_id": form.area_id,
        "build_id": form.build_id,
        "asks": rows.asks_data(asked.checked_asks(asks)),
        "note": clean_text(form.note, lines=True, limit=5000),
    }


def _check_places(act: Act, job_id: int, form: TaskForm, task_id: int | None = None) -> None:
    if form.anchor.of is not None:
        _check_step(act, job_id, form.anchor.of)
        _check_ring(act, form.anchor.of, task_id)
    if form.area_id is not None:
        area = jobs.get_area(act.connection, form.area_id)
        if area is None or area.job_id != job_id:
            raise BadInput("This area is not in this job. Choose it again.", field="area_id")
    if form.build_id is not None:
        _check_build(act, job_id, form.build_id, task_id)


def _check_step(act: Act, job_id: int, ref: Ref) -> Removal | Task:
    found: Removal | Task | None
    if ref.removal_id is not None:
        found = removals.get(act.connection, ref.id)
    else:
        found = fittings.get_task(act.connection, ref.id)
    if found is None or found.job_id != job_id:
        raise BadInput("This step is not in this job. Choose it again.", field="anchor")
    if isinstance(found, Removal) and found.fate is Fate.SCRAP:
        raise BadInput(
            f"{found.number} {found.name} is scrapped and does not go back. Choose another step.",
            field="anchor",
        )
    return found


def _check_ring(act: Act, of: Ref, task_id: int | None) -> None:
    """Refuse a task that would stand beside itself, by way of others."""
    step: Ref | None = of
    while step is not None and step.task_id is not None:
        if step.task_id == task_id:
            raise BadInput(
                "A task cannot stand beside itself. Choose another step.", field="anchor"
            )
        found = fittings.get_task(act.connection, step.task_id)
        step = found.anchor.of if found is not None else None


def _check_build(act: Act, job_id: int, build_id: int, task_id: int | None) -> None:
    """Refuse a bench build of another job, what is none, and one that would be in itself."""
    above: int | None = build_id
    while above is not None:
        build = fittings.get_task(act.connection, above)
        if build is None or build.job_id != job_id or build.kind is not TaskKind.BENCH_BUILD:
            raise BadInput("This bench build is not in this job. Choose it again.", field="build")
        if above == task_id:
            raise BadInput(f"{build.name} cannot be a piece of itself.", field="build")
        above = build.build_id


def edit_task(
    store: Store,
    task_id: int,
    form: TaskForm,
    *,
    pieces: Sequence[Ref] | None = None,
    who: str = "",
) -> Change:
    """Write a task anew; its kind stays where its kind is what it is for. A bench build has then
    exactly these `pieces`; None leaves it those it has."""
    one = get_task(store, task_id)
    fixed = (TaskKind.TIGHTENING, TaskKind.BENCH_BUILD)
    form = replace(form, kind=one.kind) if one.kind in fixed or form.kind in fixed else form
    if one.kind is TaskKind.TIGHTENING and form.anchor.of is None:
        raise BadInput("A final tightening waits for a step. Choose which.", field="anchor")
    columns = _columns(form)

    def do(act: Act) -> None:
        _check_places(act, one.job_id, form, task_id)
        act.update(tables.task, task_id, **columns)
        if one.kind is TaskKind.BENCH_BUILD and pieces is not None:
            _set_pieces(act, one, pieces)

    return store.act(f"edit {columns['name']}", do, who=who, job_id=one.job_id)


def _set_pieces(act: Act, build: Task, pieces: Sequence[Ref]) -> None:
    """What is no longer a piece is one of none; what is one now is taken out of where it was."""
    if not pieces:
        raise BadInput("Choose the pieces of the bench build first.", field="pieces")
    had = {part(id_) for id_ in removals.ids_in_build(act.connection, build.id)}
    had |= {task(id_) for id_ in fittings.pieces_of(act.connection, build.id)}
    for gone in sorted(had - set(pieces)):
        _put(act, build.job_id, gone, None)
    for piece in pieces:
        if piece not in had:
            _put(act, build.job_id, piece, build.id)


def delete_task(store: Store, task_id: int, *, who: str = "") -> Change:
    """Take a task out of the build, with its sign-off and the rules that name it. What stood beside
    it stands where it stood; the pieces of a bench build stay."""
    one = get_task(store, task_id)

    def do(act: Act) -> None:
        for other in fittings.hanging_on(act.connection, task(task_id)):
            forgetting.refuse_tightening(other, one.name)
        for removal_id in removals.ids_in_build(act.connection, task_id):
            act.update(tables.removal, removal_id, build_id=one.build_id)
        for inner in fittings.pieces_of(act.connection, task_id):
            act.update(tables.task, inner, build_id=one.build_id)
        forgetting.drop_task(act, one)

    return store.act(f"delete {one.name}", do, who=who, job_id=one.job_id)


def make_bench_build(
    store: Store,
    job_id: int,
    name: str,
    pieces: Sequence[Ref],
    *,
    build_id: int | None = None,
    who: str = "",
) -> Change:
    """A bench build of these pieces, itself a piece of another where `build_id` says so."""
    clean = clean_text(name, limit=200)
    if not clean:
        raise BadInput("Give the bench build a name, for example: gear cluster.", field="name")
    if not pieces:
        raise BadInput("Choose the pieces of the bench build first.", field="pieces")
    form = TaskForm(TaskKind.BENCH_BUILD, clean, build_id=build_id)
    return _add(store, job_id, form, pieces=pieces, who=who)


def put_in_build(
    store: Store, job_id: int, pieces: Sequence[Ref], build_id: int | None, *, who: str = ""
) -> Change:
    """Make steps pieces of a bench build; None takes them out of theirs."""

    def do(act: Act) -> None:
        for piece in pieces:
            _put(act, job_id, piece, build_id)

    title = "take out of the bench build" if build_id is None else "put into the bench build"
    return store.act(title, do, who=who, job_id=job_id)


def _put(act: Act, job_id: int, piece: Ref, build_id: int | None) -> None:
    _check_step(act, job_id, piece)
    if build_id is not None:
        _check_build(act, job_id, build_id, piece.task_id)
    table = tables.removal if piece.removal_id is not None else tables.task
    act.update(table, piece.id, build_id=build_id)


def tighten_later(store: Store, removal_id: int, after: Ref, *, who: str = "") -> Change:
    """The part's fasteners are run in by hand at its own step, and get their final torque after
    another; `new_id` is the final tightening."""
    removal = strip.get_removal(store, removal_id)
    called = f"{removal.number} {removal.name}"
    if after == part(removal_id):
        raise BadInput(f"{called} cannot wait for itself. Choose another step.", field="anchor")
    with store.read() as connection:
        hanging = fittings.hanging_on(connection, part(removal_id))
    if any(one.removal_id == removal_id for one in hanging):
        raise BadInput(f"{called} has its final torque already. Edit that.", field="anchor")
    anchor = Anchor(Beside.AFTER, after)
    form = TaskForm(TaskKind.TIGHTENING, f"final torque of {called}", anchor)
    return _add(store, removal.job_id, form, removal_id=removal_id, who=who)


def ask_at_sign_off(
    store: Store, removal_id: int, asks: Sequence[Asked], *, who: str = ""
) -> Change:
    """The figures that are asked for when a part is signed off."""
    removal = strip.get_removal(store, removal_id)
    data = rows.asks_data(asked.checked_asks(asks))

    def do(act: Act) -> None:
        act.update(tables.removal, removal_id, asks=data)

    title = f"what to measure at {removal.number} {removal.name}"
    return store.act(title, do, who=who, job_id=removal.job_id)


def get_task(store: Store, task_id: int) -> Task:
    with store.read() as connection:
        one = fittings.get_task(connection, task_id)
    if one is None:
        raise NotFound("This task is no longer in the build. Choose another one.")
    return one


def tasks_of(store: Store, job_id: int) -> list[Task]:
    with store.read() as connection:
        return fittings.tasks(connection, job_id)
