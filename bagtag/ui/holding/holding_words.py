"""What is said of what holds a job up."""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from bagtag.domain.days import day_words
from bagtag.domain.readiness import Chase
from bagtag.domain.standing import Keeps

if TYPE_CHECKING:
    from bagtag.services.readiness import HeldRow, HoldingUp

CALM = ("Nothing holds this job up", "Every step that is left waits for other steps and no more.")
ALL_IN = ("Everything is in", "Close the job next.")
NAMED, TODAY = 40, 6
"""So many steps of a day are named; of those that the build shows as free now, fewer."""
SIGNS = {
    Chase.LATE: "!",
    Chase.NO_DAY: "?",
    Chase.TO_ORDER: "+",
    Chase.TO_WORK: "»",
    Chase.TO_MEASURE: "↔",
    Chase.TO_DECIDE: "…",
    Chase.ON_ITS_WAY: "→",
}
"""One sign for each, so that a row is told from another without its colour."""
SETTLED_IN = {
    Keeps.AWAY: "Away",
    Keeps.WORK: "Away",
    Keeps.NEW_PART: "Renew",
    Keeps.MEASURING: "Measure",
    Keeps.DECISION: "Measure",
}
"""The stage where each is settled."""


def steps(count: int) -> str:
    return f"{count} step{'s' * (count != 1)}"


def head_words(found: "HoldingUp") -> str:
    """`27 of 52 steps left are held up`"""
    return f"{found.left - found.free} of {steps(found.left)} left are held up"


def help_words(found: "HoldingUp") -> str:
    """Where the end stands: until when what has a day can be in, and what nobody knows."""
    last = day_words(found.last_day, found.today) if found.last_day else ""
    if not found.unknown:
        return f"The last of them can go in from {last}." if last else ""
    known = f"What has a day can be in by {last}. " if last else ""
    verb = "waits" if found.unknown == 1 else "wait"
    return f"{known}{steps(found.unknown)} {verb} for something that nobody knows a day for."


def frees_words(row: "HeldRow") -> str:
    """`frees 6 steps`; `one of several for 11 steps`, where it alone is not enough."""
    if row.held.alone:
        return f"frees {steps(row.held.alone)}"
    return f"one of several for {steps(row.held.all)}"


def rung_words(day: date | None, today: date) -> str:
    return "no day known" if day is None else f"from {day_words(day, today)}"


def named(called: Sequence[str], most: int = NAMED) -> str:
    """The steps of a day by name; where there are very many, the rest are counted."""
    more = len(called) - most
    return ", ".join((*called[:most], *([f"and {more} more"] if more > 0 else ())))


def stage_of(row: "HeldRow") -> str:
    """The stage where the most pressing of what keeps it is settled."""
    pressing = row.held.pressing
    return SETTLED_IN.get(pressing.keeps, "Build")


def act_of(row: "HeldRow") -> str:
    """What Enter does: "Open its send-out"."""
    match stage_of(row):
        case "Away":
            return "Open its send-out" if row.send_out_id else "Go to Away"
        case "Measure":
            return "Open its sheet" if row.sheet_id else "Go to Measure"
        case "Renew":
            return "Go to Renew"
        case _:
            return "Show the step"


def spoken(row: "HeldRow") -> str:
    """A row as it is read out."""
    parts = (row.called, row.why, row.act.rstrip("."), frees_words(row))
    return ", ".join(part for part in parts if part)
