"""The build: every step in an order that works, what it waits for, and its sign-off."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bagtag.domain.change import Change
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.model import Area, Away, Fate, Removal, SignOff
from bagtag.domain.order import Piece, blockers, build_order
from bagtag.domain.standing import Hindrance, Outline, Standing, of_its_own, standing
from bagtag.services import strip
from bagtag.store import belongings, jobs, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

NAMED = 3
"""How many parts a step names that it waits for; the rest are counted."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the build. `place` counts from 1, in the order things go back."""

    place: int
    removal_id: int
    standing: Standing
    hindrances: tuple[Hindrance, ...] = ()
    sign_off: SignOff | None = None


@dataclass(frozen=True, slots=True)
class Board:
    """The whole build of a job, in order."""

    job_id: int
    steps: tuple[Step, ...]

    @property
    def done(self) -> int:
        return sum(step.standing is Standing.IN for step in self.steps)

    def step_of(self, removal_id: int) -> Step | None:
        return next((step for step in self.steps if step.removal_id == removal_id), None)


def board(store: Store, job_id: int) -> Board:
    """The plan of a job as it stands now; BadInput when no order works."""
    with store.read() as connection:
        log = removals.outlines(connection, job_id)
        areas = jobs.areas(connection, job_id)
        signed = belongings.sign_offs(connection, job_id)
        out = belongings.away_now(connection, job_id)
    pieces = [Piece(r.id, r.area_id) for r in log if r.fate is not Fate.SCRAP]
    order = build_order(pieces, areas)
    waits = blockers(order, pieces, areas, signed.keys())
    openers = {area.opener_id for area in areas}
    facts = _Facts({removal.id: removal for removal in log}, out, signed, waits, openers)
    return Board(job_id, tuple(facts.step(place, id_) for place, id_ in enumerate(order, 1)))


@dataclass(frozen=True, slots=True)
class _Facts:
    """What the steps of a board are told from."""

    known: Mapping[int, Outline]
    out: Mapping[int, Away]
    signed: Mapping[int, SignOff]
    waits: Mapping[int, Sequence[int]]
    openers: set[int | None]

    def step(self, place: int, removal_id: int) -> Step:
        removal = self.known[removal_id]
        fitted = removal_id in self.signed
        hindrances = () if fitted else self.hindrances(removal)
        word = standing(removal, fitted=fitted, away=removal_id in self.out, hindrances=hindrances)
        return Step(place, removal_id, word, hindrances, self.signed.get(removal_id))

    def hindrances(self, removal: Outline) -> tuple[Hindrance, ...]:
        away = self.out.get(removal.id)
        own = of_its_own(removal, away.shop if away else None)
        waiting = self.waits.get(removal.id, ())
        named = tuple(self._first(removal.id, other) for other in waiting[:NAMED])
        rest = len(waiting) - len(named)
        more = (Hindrance(f"and {rest} more behind it"),) if rest else ()
        return own + named + more

    def _first(self, removal_id: int, other_id: int) -> Hindrance:
        where = "goes behind it" if removal_id in self.openers else "goes in first"
        return Hindrance(f"{self.known[other_id].called} {where}", other_id)


def sign(
    store: Store, removal_id: int, *, who: str, note: str = "", out_of_order: str = ""
) -> Change:
    """Sign a step off as fitted.

    A step that still waits needs `out_of_order`, the reason it goes in all the same; it is kept
    with the sign-off.
    """
    removal = strip.get_removal(store, removal_id)
    name = clean_text(who, limit=100)
    if not name:
        raise BadInput("Say who fitted it: a name or initials.", field="who")
    _check_ready(store, removal, clean_text(out_of_order, limit=500))
    kept = clean_text(" ".join(filter(None, (out_of_order, note))), limit=1000)

    def do(act: Act) -> None:
        if belongings.sign_off_of(act.connection, removal_id) is not None:
            raise BadInput(f"{removal.number} {removal.name} is signed off already.")
        act.insert(tables.sign_off, removal_id=removal_id, who=name, at=rows.now(), note=kept)

    title = f"fit {removal.number} {removal.name}"
    return store.act(title, do, who=name, job_id=removal.job_id)


def _check_ready(store: Store, removal: Removal, reason: str) -> None:
    if removal.fate is Fate.SCRAP:
        raise BadInput(f"{removal.number} {removal.name} is scrapped. Change its fate first.")
    step = board(store, removal.job_id).step_of(removal.id)
    if step is not None and step.hindrances and not reason:
        first = step.hindrances[0].sentence
        raise BadInput(
            f"{removal.number} {removal.name} waits: {first}. Do that first, or say why it "
            "goes in now.",
            field="out_of_order",
        )


def take_back(store: Store, removal_id: int, *, who: str = "") -> Change:
    """Take a sign-off back: the part is off again."""
    removal = strip.get_removal(store, removal_id)

    def do(act: Act) -> None:
        sign_off = belongings.sign_off_of(act.connection, removal_id)
        if sign_off is None:
            raise BadInput(f"{removal.number} {removal.name} is not signed off.")
        act.delete(tables.sign_off, sign_off.id)

    title = f"take back the fitting of {removal.number} {removal.name}"
    return store.act(title, do, who=who, job_id=removal.job_id)


def areas_opened(areas: Sequence[Area], removal_id: int) -> tuple[str, ...]:
    """The names of the areas that a removal opens."""
    return tuple(area.name for area in areas if area.opener_id == removal_id)
