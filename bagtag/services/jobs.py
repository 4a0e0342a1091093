"""Open the job: machine, datum, areas and what opens them."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from uuid import uuid4

from bagtag.domain import areas as tree
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.model import Area, Job
from bagtag.store import fittings, jobs, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class JobForm:
    """What a person enters about a job."""

    machine: str
    purpose: str = ""
    owner: str = ""
    note: str = ""
    datum: Datum = field(default_factory=Datum)


@dataclass(frozen=True, slots=True)
class JobRow:
    """A job in the list: how much is off, back and away."""

    id: int
    number: int
    title: str
    owner: str
    opened_at: datetime | None
    off: int
    back: int
    away: int


def open_job(store: Store, form: JobForm, *, who: str = "") -> Change:
    """A new job; `new_id` is its id."""
    columns = _columns(form)

    def do(act: Act) -> None:
        number = jobs.next_number(act.connection)
        made = act.insert(
            tables.job, uid=str(uuid4()), number=number, opened_at=rows.now(), **columns
        )
        act.scope = made

    return store.act(f"open job {form.machine}", do, who=who)


def edit_job(store: Store, job_id: int, form: JobForm, *, who: str = "") -> Change:
    columns = _columns(form)
    return store.act(
        "edit the job",
        lambda act: act.update(tables.job, job_id, **columns),
        who=who,
        job_id=job_id,
    )


def _columns(form: JobForm) -> dict[str, object]:
    machine = clean_text(form.machine, limit=200)
    if not machine:
        raise BadInput("Give the machine a name, for example: walking tractor.", field="machine")
    names = {side: clean_text(form.datum.names.get(side, ""), limit=60) for side in Side}
    _check_names({side: name for side, name in names.items() if name})
    datum = Datum(clean_text(form.datum.viewpoint, limit=300), names)
    return {
        "machine": machine,
        "purpose": clean_text(form.purpose, limit=200),
        "owner": clean_text(form.owner, limit=200),
        "note": clean_text(form.note, lines=True, limit=10_000),
        **rows.datum_columns(datum),
    }


def _check_names(names: dict[Side, str]) -> None:
    seen: dict[str, Side] = {}
    for side, name in names.items():
        if name.casefold() in seen:
            other = seen[name.casefold()].value
            raise BadInput(
                f"Two sides are called {name}: {other} and {side.value}. Give each its own name.",
                field=side.value,
            )
        seen[name.casefold()] = side


def list_jobs(store: Store) -> list[JobRow]:
    """Every job, the newest first."""
    with store.read() as connection:
        return [_row(job, *jobs.counts(connection, job.id)) for job in jobs.all_jobs(connection)]


def _row(job: Job, off: int, back: int, away: int) -> JobRow:
    return JobRow(job.id, job.number, job.title, job.owner, job.opened_at, off, back, away)


def get_job(store: Store, job_id: int) -> Job:
    with store.read() as connection:
        job = jobs.get(connection, job_id)
    if job is None:
        raise NotFound("This job is no longer in the store. Choose another one.")
    return job


def find_job(store: Store, text: str) -> Job:
    """The job with this number, title or machine; NotFound lists what there is."""
    wanted = text.strip().casefold()
    with store.read() as connection:
        known = jobs.all_jobs(connection)
    for match in (_is_number, _is_title, _begins):
        found = [job for job in known if match(job, wanted)]
        if len(found) == 1:
            return found[0]
    raise NotFound(_not_found(text, known))


def _is_number(job: Job, wanted: str) -> bool:
    return str(job.number) == wanted


def _is_title(job: Job, wanted: str) -> bool:
    return wanted in {job.title.casefold(), job.machine.casefold()}


def _begins(job: Job, wanted: str) -> bool:
    return bool(wanted) and job.title.casefold().startswith(wanted)


def _not_found(text: str, known: Sequence[Job]) -> str:
    if not known:
        return "There is no job in this store yet."
    listed = "; ".join(f"{job.number}: {job.title}" for job in known[:5])
    return f"No single job answers to {text!r}. There are: {listed}."


def areas_of(store: Store, job_id: int) -> list[Area]:
    with store.read() as connection:
        return jobs.areas(connection, job_id)


def find_area(store: Store, job_id: int, name: str) -> Area:
    """The area of a job with this name; NotFound lists what there is."""
    known = areas_of(store, job_id)
    wanted = name.strip().casefold()
    found = next((area for area in known if area.name.casefold() == wanted), None)
    if found is None:
        listed = ", ".join(area.name for area in known[:10]) or "none yet"
        raise NotFound(f"No area is called {name}. There are: {listed}.")
    return found


def add_area(
    store: Store, job_id: int, name: str, *, parent_id: int | None = None, who: str = ""
) -> Change:
    """A new area, inside `parent_id` where given."""
    clean = _area_name(name)

    def do(act: Act) -> None:
        rank = len(jobs.areas(act.connection, job_id))
        act.insert(tables.area, job_id=job_id, name=clean, parent_id=parent_id, rank=rank)

    return store.act(f"add area {clean}", do, who=who, job_id=job_id)


def edit_area(
    store: Store, area_id: int, *, name: str, parent_id: int | None, who: str = ""
) -> Change:
    """Rename an area or put it inside another."""
    clean = _area_name(name)
    area = _area(store, area_id)

    def do(act: Act) -> None:
        rows_ = jobs.areas(act.connection, area.job_id)
        tree.check_parent(rows_, area_id, parent_id)
        act.update(tables.area, area_id, name=clean, parent_id=parent_id)
        check_openers(act, area.job_id)

    return store.act(f"edit area {clean}", do, who=who, job_id=area.job_id)


def set_opener(store: Store, area_id: int, removal_id: int | None, *, who: str = "") -> Change:
    """Say which removal gives access to an area; None for none."""
    area = _area(store, area_id)

    def do(act: Act) -> None:
        act.update(tables.area, area_id, opener_id=removal_id)
        check_openers(act, area.job_id)

    return store.act(f"set what opens {area.name}", do, who=who, job_id=area.job_id)


def set_open(store: Store, area_id: int, is_open: bool, *, who: str = "") -> Change:
    """Say that nothing covers an area, so that it needs no opener; or take that back."""
    area = _area(store, area_id)

    def do(act: Act) -> None:
        act.update(tables.area, area_id, is_open=int(is_open))

    return store.act(f"say what covers {area.name}", do, who=who, job_id=area.job_id)


def check_openers(act: Act, job_id: int) -> None:
    """Refuse what opens areas when it leaves no order that works."""
    rows_ = jobs.areas(act.connection, job_id)
    openers = [area.opener_id for area in rows_ if area.opener_id is not None]
    found = removals.by_ids(act.connection, openers)
    for opener_id in openers:
        if opener_id not in found or found[opener_id].job_id != job_id:
            raise BadInput("What opens an area must be logged in the same job.", field="opener")
    tree.check_openers(rows_, {opener.id: opener.area_id for opener in found.values()})


def delete_area(store: Store, area_id: int, *, who: str = "") -> Change:
    """Take an area out; what lies in it moves to the area around it."""
    area = _area(store, area_id)

    def do(act: Act) -> None:
        for inner in jobs.areas(act.connection, area.job_id):
            if inner.parent_id == area_id:
                act.update(tables.area, inner.id, parent_id=area.parent_id)
        for removal_id in removals.ids_in_area(act.connection, area_id):
            act.update(tables.removal, removal_id, area_id=area.parent_id)
        for task_id in fittings.in_area(act.connection, area_id):
            act.update(tables.task, task_id, area_id=area.parent_id)
        act.delete(tables.area, area_id)
        check_openers(act, area.job_id)

    return store.act(f"delete area {area.name}", do, who=who, job_id=area.job_id)


def _area(store: Store, area_id: int) -> Area:
    with store.read() as connection:
        area = jobs.get_area(connection, area_id)
    if area is None:
        raise NotFound("This area is no longer in the job.")
    return area


def _area_name(name: str) -> str:
    clean = clean_text(name, limit=100)
    if not clean:
        raise BadInput("Give the area a name, for example: gearbox.", field="name")
    return clean
