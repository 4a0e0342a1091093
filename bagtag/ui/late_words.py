"""What is said on opening of what is not back from a shop on its day."""

from datetime import date
from typing import TYPE_CHECKING, Any

from bagtag import services

if TYPE_CHECKING:
    from bagtag.domain.sending import Late

NAMED = 3
"""So many are named; the rest are counted."""


def late(store: Any) -> "tuple[Late, ...]":
    """What is late today, over all jobs."""
    return services.send_outs.late(store, date.today())


def late_words(found: "tuple[Late, ...]", job_id: int) -> str:
    """`Late: send-out 1, Mill Lane Engineering, 2 days.` with its job where that is another."""
    said = [_one(one, job_id) for one in found[:NAMED]]
    more = len(found) - len(said)
    said += [f"and {more} more"] if more else []
    here = any(one.job_id == job_id for one in found)
    where = "Alt+4 shows what is away." if here else "Ctrl+J goes to another job."
    return f"Late: {'; '.join(said)}. {where}" if said else ""


def _one(one: "Late", job_id: int) -> str:
    days = f"{one.days} day{'s' * (one.days != 1)}"
    other = f" ({one.job_title})" if one.job_id != job_id else ""
    return f"{one.called}{other}, {days}"
