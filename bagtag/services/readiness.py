"""What is holding a job up: what to chase first, and from which day on each step can go in."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from bagtag.domain import readiness
from bagtag.domain.fitting import Ref
from bagtag.domain.readiness import Held, act_words
from bagtag.services.planning import Planned, planned
from bagtag.store import belongings, between
from bagtag.store.work import Store

NAMED = 3
"""How many of the steps that wait for one thing are named; the rest are counted."""


@dataclass(frozen=True, slots=True)
class HeldRow:
    """One thing that keeps steps out. `why` says how it stands, `act` what to do about it;
    `waiting` are the first steps that wait for it, by name. It leads to a batch at a shop
    (`send_out_id`) or a measuring sheet (`sheet_id`), where there is one; `thumb` is the hash of
    the part's photo."""

    held: Held
    called: str
    area: str
    why: str
    act: str
    waiting: tuple[str, ...] = ()
    thumb: str = ""
    send_out_id: int | None = None
    sheet_id: int | None = None

    @property
    def ref(self) -> Ref:
        return self.held.ref


@dataclass(frozen=True, slots=True)
class RungRow:
    """The steps that can go in from a day on, by name, in the order of the plan."""

    day: date | None
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HoldingUp:
    """What holds a job up, as of a day. `left` counts the steps that are not in, `free` those that
    wait for nothing but other steps."""

    job_id: int
    today: date
    rows: tuple[HeldRow, ...] = ()
    rungs: tuple[RungRow, ...] = ()
    left: int = 0
    free: int = 0

    @property
    def last_day(self) -> date | None:
        """The last of the days that are known; None where everything is here."""
        days = [rung.day for rung in self.rungs if rung.day is not None and rung.day > self.today]
        return max(days, default=None)

    @property
    def unknown(self) -> int:
        """How many steps nobody knows a day for."""
        return sum(len(rung.steps) for rung in self.rungs if rung.day is None)


def holding_up(store: Store, job_id: int, today: date | None = None) -> HoldingUp:
    """What holds a job up as it stands now."""
    known, day = planned(store, job_id), today or date.today()
    found = _found(known, day)
    rows = _rows(store, known, found.held, day)
    rungs = tuple(RungRow(one.day, tuple(map(known.called, one.steps))) for one in found.rungs)
    waiting = known.now.roots
    free = sum(not roots for roots in waiting.values())
    return HoldingUp(job_id, day, rows, rungs, len(waiting), free)


def first_day(known: Planned, ref: Ref, today: date) -> date | None:
    """The earliest day of one step; None where nobody knows."""
    roots = known.now.roots.get(ref, ())
    return readiness.last_of([readiness.earliest(known.own(root), today) for root in roots], today)


def _found(known: Planned, today: date) -> readiness.Holding:
    own = {one.ref: known.own(one.ref) for one in known.now.frees}
    return readiness.holding(own, known.now.roots, known.now.frees, today)


def _rows(store: Store, known: Planned, held: tuple[Held, ...], today: date) -> tuple[HeldRow, ...]:
    ids, behind = [one.ref.id for one in held], _behind(known)
    with store.read() as connection:
        thumbs = belongings.first_thumbs(connection, ids)
        sheets = {one.removal_id: one.id for one in between.open_sheets(connection, known.job_id)}
    return tuple(
        HeldRow(
            one,
            called=known.called(one.ref),
            area=known.area_path(one.ref),
            why=known.why_stuck(one.ref),
            act=act_words(one, today),
            waiting=_waiting(known, one, behind[one.ref]),
            thumb=thumbs.get(one.ref.id, ""),
            send_out_id=known.out[one.ref.id].send_out_id if one.ref.id in known.out else None,
            sheet_id=sheets.get(one.ref.id),
        )
        for one in held
    )


def _behind(known: Planned) -> dict[Ref, list[Ref]]:
    """The first few steps that wait for each stuck one, itself left out, in the order of the
    plan."""
    found: dict[Ref, list[Ref]] = {one.ref: [] for one in known.now.frees}
    for ref, roots in known.now.roots.items():
        for root in roots:
            if root != ref and len(found[root]) < NAMED:
                found[root].append(ref)
    return found


def _waiting(known: Planned, held: Held, behind: Sequence[Ref]) -> tuple[str, ...]:
    """The first few steps that wait for it, by name, and how many more."""
    more = held.all - 1 - len(behind)
    named = tuple(map(known.called, behind))
    return (*named, f"and {more} more") if more > 0 else named
