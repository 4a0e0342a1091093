"""Sign-off: what a step asks for, the fitting signed, and taken back."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field

from bagtag.domain import asked, sign_off
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Asked, Figure, Ref, Task, TaskKind
from bagtag.domain.hardware import HeldBy
from bagtag.domain.joint import Joint
from bagtag.domain.model import Fate, Removal
from bagtag.domain.order_problem import Because
from bagtag.domain.resolve import told
from bagtag.domain.sign_off import SignForm
from bagtag.domain.standing import Hindrance
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.which_way import Fact
from bagtag.services import board, forgetting, tightening
from bagtag.services import jobs as job_cases
from bagtag.services.planning import Planned, planned
from bagtag.store import belongings, fittings, jobs, joints, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

__all__ = ["Missing", "SignForm", "SignSheet", "figures_of", "sheet", "sign", "take_back"]

NOTHING_MORE = SignForm()
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
    are the fasteners to count; `missing` is everything behind an opener that is not in, `tools_out`
    what is laid out and not counted back where it closes a place; `not_by` are those who must not
    sign it; `joint` is how its fasteners are tightened, and how far that has come.
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
    tools_out: tuple[ToolOut, ...] = ()
    joint: Joint | None = None

    @property
    def asks_nothing(self) -> bool:
        """Whether one key is enough."""
        return not (self.asks_more or self.hindrances)

    @property
    def asks_more(self) -> bool:
        """Whether it asks for more than a reason: figures, counts, another name, a tick."""
        counted = any((line.count or 0) > 1 for line in self.held)
        asked_for = self.asks or self.may_ask or self.not_by or self.unticked or self.tools_out
        return bool(asked_for or counted)

    @property
    def unticked(self) -> tuple[str, ...]:
        """The passes still to go over it with, in words; none where the part has no passes of its
        own and none was ticked."""
        if self.joint is None:
            return ()
        rounds = self.joint.rounds
        return tuple(f"pass {n + 1} ({rounds[n].said})" for n in self.joint.unticked)


def sheet(store: Store, ref: Ref) -> SignSheet:
    """What signing this step asks for, as the job stands now."""
    return _sheet(store, ref, _found(store, ref))


def _sheet(store: Store, ref: Ref, step: Removal | Task) -> SignSheet:
    known = planned(store, step.job_id)
    later = known.torque_after(ref)
    own = step.held_by if isinstance(step, Removal) else ()
    held = own if isinstance(step, Removal) else _tightened(store, step)
    return SignSheet(
        ref=ref,
        job_id=step.job_id,
        called=known.called(ref),
        asks=step.asks,
        may_ask=() if later else asked.torque_asked(held),
        held=own,
        hindrances=() if ref in known.signed else board.hindrances_of(known, ref),
        missing=_missing(store, known, ref),
        not_by=known.not_by(ref),
        torque_later=later,
        datum=job_cases.get_job(store, step.job_id).datum,
        tools_out=_tools_out(store, ref, step.job_id),
        joint=tightening.joint_of(store, ref, step),
    )


def _tools_out(store: Store, ref: Ref, job_id: int) -> tuple[ToolOut, ...]:
    """What is laid out, where this step closes a place over it."""
    if ref.removal_id is None:
        return ()
    with store.read() as connection:
        closes = jobs.opened_by(connection, ref.id)
        return tuple(joints.tools_out(connection, job_id)) if closes else ()


def _tightened(store: Store, task: Task) -> tuple[HeldBy, ...]:
    if task.kind is not TaskKind.TIGHTENING or task.removal_id is None:
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


def _found(store: Store, ref: Ref) -> Removal | Task:
    get = removals.get if ref.removal_id is not None else fittings.get_task
    with store.read() as connection:
        step = get(connection, ref.id)
    if step is None:
        raise NotFound("This step is no longer in the build. Choose it again.")
    return step


def sign(store: Store, ref: Ref, form: SignForm = NOTHING_MORE, *, who: str) -> Change:
    """Sign a step off as done; BadInput says what is still wanted, and keeps nothing."""
    step = _found(store, ref)
    name = clean_text(who, limit=100)
    if not name:
        raise BadInput("Say who fitted it: a name or initials.", field="who")
    if isinstance(step, Removal) and step.fate is Fate.SCRAP:
        raise BadInput(f"{step.number} {step.name} is scrapped. Change its fate first.")
    wanted = _sheet(store, ref, step)
    kept = sign_off.checked(wanted, form, name)
    columns = {
        **rows.ref_columns(ref),
        "who": name,
        "note": clean_text(kept.note, limit=1000),
        "reason": clean_text(kept.reason, limit=500),
        "figures": [asdict(figure) for figure in kept.figures],
        "counts": [asdict(count) for count in kept.counts],
    }

    def do(act: Act) -> None:
        if belongings.sign_off_of(act.connection, ref) is not None:
            raise BadInput(f"{wanted.called} is signed off already.")
        act.insert(tables.sign_off, at=rows.now(), **columns)

    verb = "fit" if ref.removal_id is not None else "do"
    return store.act(f"{verb} {wanted.called}", do, who=name, job_id=wanted.job_id)


def take_back(store: Store, ref: Ref, *, who: str = "") -> Change:
    """Take a sign-off back: the step is open again, and so is every pass of it."""
    step = _found(store, ref)
    called = f"{step.number} {step.name}" if isinstance(step, Removal) else step.name

    def do(act: Act) -> None:
        signed = belongings.sign_off_of(act.connection, ref)
        if signed is None:
            raise BadInput(f"{called} is not signed off.")
        act.delete(tables.sign_off, signed.id)
        forgetting.untick(act, ref)

    what = "the fitting of " if ref.removal_id is not None else ""
    return store.act(f"take back {what}{called}", do, who=who, job_id=step.job_id)


def figures_of(asks: Sequence[Asked], values: Sequence[float | None]) -> tuple[Figure, ...]:
    """The figures that were given, in the order asked; None for one that was left out."""
    pairs = zip(asks, values, strict=True)
    return tuple(asked.figure(one, value) for one, value in pairs if value is not None)
