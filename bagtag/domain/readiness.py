"""What holds a job up: what to chase first, and the earliest day each step can go in.

A step can go in on the day when the last of what keeps it out is there. A day that has passed says
no more than that the thing is late: then nobody knows the day. What is measured and decided at the
bench itself can be done today.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from bagtag.domain.days import day_words, late_words
from bagtag.domain.fitting import Ref
from bagtag.domain.now import Frees
from bagtag.domain.standing import Hindrance, Keeps


class Chase(StrEnum):
    """What is to be done about one thing that keeps a step out, the most pressing first."""

    LATE = "late"
    NO_DAY = "no day known"
    TO_ORDER = "to order"
    TO_WORK = "to be worked"
    TO_MEASURE = "to measure"
    TO_DECIDE = "to decide"
    ON_ITS_WAY = "on its way"


@dataclass(frozen=True, slots=True)
class Held:
    """A step that is kept out by itself, by `pressing` before all else.

    `alone` and `all` count the steps that wait for it, itself among them, for it alone and in all;
    `day` is the earliest it can go in, None where nobody knows.
    """

    ref: Ref
    hindrances: tuple[Hindrance, ...]
    pressing: Hindrance
    chase: Chase
    day: date | None
    alone: int = 0
    all: int = 0


@dataclass(frozen=True, slots=True)
class Rung:
    """The steps that can go in from a day on and not before; `day` is None for those of which
    nobody knows."""

    day: date | None
    steps: tuple[Ref, ...]


@dataclass(frozen=True, slots=True)
class Holding:
    """`held` has what to chase first at the top, what is on its way at the end; `days` the
    earliest day of every step that is not in; `rungs` the same by day, the unknown last."""

    held: tuple[Held, ...] = ()
    days: Mapping[Ref, date | None] = field(default_factory=dict)
    rungs: tuple[Rung, ...] = ()


def chase_of(one: Hindrance, today: date) -> Chase:
    """What is to be done about one hindrance of a part's own."""
    if one.keeps in _OURS:
        return _OURS[one.keeps]
    if one.due is not None:
        return Chase.LATE if one.due < today else Chase.ON_ITS_WAY
    is_wanted = one.keeps is Keeps.NEW_PART and not one.is_ordered
    return Chase.TO_ORDER if is_wanted else Chase.NO_DAY


_OURS = {
    Keeps.WORK: Chase.TO_WORK,
    Keeps.MEASURING: Chase.TO_MEASURE,
    Keeps.DECISION: Chase.TO_DECIDE,
}


def earliest(own: Iterable[Hindrance], today: date) -> date | None:
    """The first day when nothing of its own keeps a part out; None where nobody knows."""
    day = today
    for one in own:
        match chase_of(one, today):
            case Chase.TO_MEASURE | Chase.TO_DECIDE:
                continue
            case Chase.ON_ITS_WAY if one.due is not None:
                day = max(day, one.due)
            case _:
                return None
    return day


def holding(
    own: Mapping[Ref, Sequence[Hindrance]],
    roots: Mapping[Ref, Sequence[Ref]],
    frees: Iterable[Frees],
    today: date,
) -> Holding:
    """`own` has what keeps each stuck step out by itself, `roots` for every step that is not in
    the stuck steps it waits for, in the order of the plan."""
    first = {ref: earliest(found, today) for ref, found in own.items()}
    days = {ref: last_of([first[root] for root in found], today) for ref, found in roots.items()}
    held = [_held(one, own[one.ref], first[one.ref], today) for one in frees]
    held.sort(key=lambda one: (one.chase is Chase.ON_ITS_WAY, -one.alone, -one.all))
    return Holding(tuple(held), days, _rungs(days))


def _held(one: Frees, own: Sequence[Hindrance], day: date | None, today: date) -> Held:
    rank = list(Chase)
    pressing = min(_to_chase(own), key=lambda each: rank.index(chase_of(each, today)))
    chase = chase_of(pressing, today)
    return Held(one.ref, tuple(own), pressing, chase, day, one.alone, one.all)


def _to_chase(own: Sequence[Hindrance]) -> Sequence[Hindrance]:
    """What can be done about a part now: none is measured or decided while it is at a shop."""
    is_away = any(one.keeps is Keeps.AWAY for one in own)
    elsewhere = [one for one in own if one.keeps not in _AT_THE_BENCH]
    return elsewhere if is_away else own


_AT_THE_BENCH = (Keeps.MEASURING, Keeps.DECISION)


def last_of(days: Sequence[date | None], today: date) -> date | None:
    """The last of the days that are waited for, today where there are none; None where one of
    them is not known."""
    known = [day for day in days if day is not None]
    return max(known, default=today) if len(known) == len(days) else None


def _rungs(days: Mapping[Ref, date | None]) -> tuple[Rung, ...]:
    found: dict[date | None, list[Ref]] = {}
    for ref, day in days.items():
        found.setdefault(day, []).append(ref)
    in_turn = sorted(found, key=lambda day: (day is None, day or date.min))
    return tuple(Rung(day, tuple(found[day])) for day in in_turn)


def act_words(held: Held, today: date) -> str:
    """What to do about it, one sentence: "Ask Mill Lane Engineering: 2 days late."."""
    pressing, whom = held.pressing, held.pressing.whom
    match held.chase:
        case Chase.LATE:
            late = late_words(pressing.due, today) if pressing.due else ""
            return f"Ask {whom or 'where it is'}: {late}."
        case Chase.NO_DAY:
            return f"Ask {whom} for a day." if whom else "Ask for a day."
        case Chase.TO_ORDER:
            return f"Order it from {whom}." if whom else "Order it."
        case Chase.ON_ITS_WAY:
            return f"Due {day_words(pressing.due, today)}." if pressing.due else ""
        case _:
            return _AT_OUR_BENCH[held.chase]


_AT_OUR_BENCH = {
    Chase.TO_WORK: "Send it away to be worked.",
    Chase.TO_MEASURE: "Measure it.",
    Chase.TO_DECIDE: "Decide it.",
}
"""What waits for nobody but ourselves."""
