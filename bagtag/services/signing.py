"""Sign-off: what a step asks for, the fitting signed, and taken back."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field

from bagtag.domain import asked
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Asked, Counted, Figure, Ref, Task, TaskKind
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Fate, Removal
from bagtag.domain.order_problem import Because
from bagtag.domain.resolve import told
from bagtag.domain.standing import Hindrance
from bagtag.domain.which_way import Fact
from bagtag.services import board
from bagtag.services import jobs as job_cases
from bagtag.services.planning import Planned, planned
from bagtag.store import belongings, fittings, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

PICTURED = 200
"""Of how many missing parts without a photo it is told how they sit: more are not looked through.
"""


@dataclass(frozen=True, slots=True)
class Missing:
    """Something behind an opener that is not in yet. `thumb` is the hash of its photo; `facts` say
    how it sits where it has none."""

    ref: Ref
    called: str
    area: str
    sentence: str
    thumb: str
    facts: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True)
class SignSheet:
    """What signing a step asks for.

    `asks` must be answered, or the note says why not; `may_ask` (torques) may be left out; `held`
    are the fasteners to count; `missing` is everything behind an opener that is not in; `not_by`
    are those who must not sign it.
    """

    ref: Ref
    job_id: int
    called: str
    asks: tuple[Asked, ...] = ()
    may_ask: tuple[Asked, ...] = ()
    held: tuple[HeldBy, ...] = ()
    hindrances: tuple[Hindrance, ...] = ()
    missing: tuple[Missing, ...] = ()
    not_by: tuple[str, ...] = ()
    torque_later: str = ""
    datum: Datum = field(default_factory=Datum)

    @property
    def asks_nothing(self) -> bool:
        """Whether one key is enough."""
        counted = any((line.count or 0) > 1 for line in self.held)
        return not (self.asks or self.may_ask or counted or self.hindrances or self.not_by)


@dataclass(frozen=True, slots=True)
class SignForm:
    """What a person says at sign-off. `reason` is why it is signed although it waits, a figure is
    out of its limits or the fasteners do not count up."""

    note: str = ""
    reason: str = ""
    figures: tuple[Figure, ...] = ()
    counts: tuple[Counted, ...] = ()


def sheet(store: Store, ref: Ref) -> SignSheet:
    """What signing this step asks for, as the job stands now."""
    removal, task = _found(store, ref)
    return _sheet(store, ref, removal, task)


def _sheet(store: Store, ref: Ref, removal: Removal | None, task: Task | None) -> SignSheet:
    job_id = (removal or task).job_id  # type: ignore[union-attr]  # one of the two is there
    known = planned(store, job_id)
    later = known.torque_after(ref)
    tightened = _tightened(store, task)
    held = tightened if task else removal.held_by if removal else ()
    asks = task.asks if task else removal.asks if removal else ()
    return SignSheet(
        ref=ref,
        job_id=job_id,
        called=known.called(ref),
        asks=asks,
        may_ask=() if later else asked.torque_asked(held),
        held=() if task else held,
        hindrances=() if ref in known.signed else board.hindrances_of(known, ref),
        missing=_missing(store, known, ref),
        not_by=known.not_by(ref),
        torque_later=later,
        datum=job_cases.get_job(store, job_id).datum,
    )


def _tightened(store: Store, task: Task | None) -> tuple[HeldBy, ...]:
    if task is None or task.kind is not TaskKind.TIGHTENING or task.removal_id is None:
        return ()
    with store.read() as connection:
        part = removals.get(connection, task.removal_id)
    return part.held_by if part is not None else ()


def _missing(store: Store, known: Planned, ref: Ref) -> tuple[Missing, ...]:
    """Everything behind an opener that is not in, in the order it would go in."""
    ties = known.needs.get(ref, ())
    behind = {tie.before for tie in ties if tie.because is Because.OPENER} - set(known.signed)
    wanted = [other for other in known.plan.order if other in behind]
    ids = [other.id for other in wanted if other.removal_id is not None]
    with store.read() as connection:
        thumbs = belongings.first_thumbs(connection, ids) if ids else {}
        bare = [id_ for id_ in ids if id_ not in thumbs][:PICTURED]
        parts = removals.by_ids(connection, bare)
        others = removals.tied_to(connection, parts.values())
    return tuple(
        Missing(
            other,
            known.called(other),
            known.area_path(other),
            known.why_stuck(other),
            thumbs.get(other.removal_id or 0, ""),
            told(parts[other.id], others) if other.removal_id in parts else (),
        )
        for other in wanted
    )


def _found(store: Store, ref: Ref) -> tuple[Removal | None, Task | None]:
    with store.read() as connection:
        removal = removals.get(connection, ref.id) if ref.removal_id is not None else None
        task = fittings.get_task(connection, ref.id) if ref.task_id is not None else None
    if removal is None and task is None:
        raise NotFound("This step is no longer in the build. Choose it again.")
    return removal, task


def sign(store: Store, ref: Ref, form: SignForm = SignForm(), *, who: str) -> Change:
    """Sign a step off as done; BadInput says what is still wanted, and keeps nothing."""
    removal, task = _found(store, ref)
    name = clean_text(who, limit=100)
    if not name:
        raise BadInput("Say who fitted it: a name or initials.", field="who")
    if removal is not None and removal.fate is Fate.SCRAP:
        raise BadInput(f"{removal.number} {removal.name} is scrapped. Change its fate first.")
    wanted = _sheet(store, ref, removal, task)
    reason = clean_text(form.reason, limit=500)
    _check(wanted, form, name, reason)
    columns = {
        **rows.ref_columns(ref),
        "who": name,
        "note": clean_text(form.note, limit=1000),
        "reason": reason,
        "figures": [asdict(figure) for figure in form.figures],
        "counts": [asdict(count) for count in form.counts],
    }

    def do(act: Act) -> None:
        if belongings.sign_off_of(act.connection, ref) is not None:
            raise BadInput(f"{wanted.called} is signed off already.")
        act.insert(tables.sign_off, at=rows.now(), **columns)

    verb = "fit" if removal is not None else "do"
    return store.act(f"{verb} {wanted.called}", do, who=name, job_id=wanted.job_id)


def _check(wanted: SignSheet, form: SignForm, name: str, reason: str) -> None:
    _check_name(wanted, name)
    _check_figures(wanted, form)
    against = _against(wanted, form)
    if against and not reason:
        raise BadInput(against, field="reason")


def _check_name(wanted: SignSheet, name: str) -> None:
    same = next((other for other in wanted.not_by if is_same_person(name, other)), None)
    if same is not None:
        raise BadInput(
            f"A hold point wants a second pair of eyes: {same} did the work it looks at, so "
            "another must sign it.",
            field="who",
        )


def is_same_person(one: str, other: str) -> bool:
    """Whether two names are one person's: "N. Birch" and "n birch" are."""
    return _letters(one) == _letters(other)


def _letters(name: str) -> str:
    return "".join(letter for letter in name.casefold() if letter.isalnum())


def _check_figures(wanted: SignSheet, form: SignForm) -> None:
    given = {figure.name for figure in form.figures}
    for one in wanted.asks:
        if one.name not in given and not form.note.strip():
            raise BadInput(
                f"Give the {one.name}, or say in the note why there is none.", field=one.name
            )
    for figure in form.figures:
        asked.figure(Asked(figure.name, figure.unit, figure.low, figure.high), figure.value)


def _against(wanted: SignSheet, form: SignForm) -> str:
    """The first thing that speaks against signing now, with what to do about it."""
    if wanted.hindrances:
        return (
            f"{wanted.called} waits: {wanted.hindrances[0].sentence}. Do that first, or say why "
            "it goes in now."
        )
    for figure in form.figures:
        if said := asked.outside(figure):
            return f"{said}. Measure again, or say why it is fitted all the same."
    said = asked.miscounted(form.counts, wanted.held)
    return f"{said}. Find the rest, or say where they are." if said else ""


def take_back(store: Store, ref: Ref, *, who: str = "") -> Change:
    """Take a sign-off back: the step is open again."""
    removal, task = _found(store, ref)
    called = f"{removal.number} {removal.name}" if removal else task.name if task else ""

    def do(act: Act) -> None:
        sign_off = belongings.sign_off_of(act.connection, ref)
        if sign_off is None:
            raise BadInput(f"{called} is not signed off.")
        act.delete(tables.sign_off, sign_off.id)

    job_id = removal.job_id if removal else task.job_id if task else 0
    title = f"take back the fitting of {called}" if removal else f"take back {called}"
    return store.act(title, do, who=who, job_id=job_id)


def figures_of(asks: Sequence[Asked], values: Sequence[float | None]) -> tuple[Figure, ...]:
    """The figures that were given, in the order asked; None for one that was left out."""
    pairs = zip(asks, values, strict=True)
    return tuple(asked.figure(one, value) for one, value in pairs if value is not None)
