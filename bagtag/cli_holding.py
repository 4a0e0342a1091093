"""`holding`: what is holding a job up, what to chase first, and from which day what can go in."""

from collections.abc import Iterator
from typing import Any

from bagtag import services
from bagtag.cli_answers import answer
from bagtag.domain.days import day_words
from bagtag.services.readiness import HeldRow, HoldingUp
from bagtag.store.work import Store


def say_holding(store: Store, job: str, as_json: bool) -> None:
    """What to chase first at the top; then the days."""
    known = services.jobs.find_job(store, job)
    found = services.readiness.holding_up(store, known.id)
    data = {
        "job": {"number": known.number, "title": known.title},
        "left": found.left,
        "free": found.free,
        "last_day": found.last_day.isoformat() if found.last_day else None,
        "unknown": found.unknown,
        "held": [_held_data(row) for row in found.rows],
        "days": [
            {"day": rung.day.isoformat() if rung.day else None, "steps": list(rung.steps)}
            for rung in found.rungs
        ],
    }
    answer(data, list(_lines(found)), as_json)


def _held_data(row: HeldRow) -> dict[str, Any]:
    return {
        "step": row.called,
        "area": row.area,
        "why": row.why,
        "act": row.act,
        "chase": row.held.chase.value,
        "day": row.held.day.isoformat() if row.held.day else None,
        "frees": row.held.alone,
        "waiting": row.held.all,
    }


def _lines(found: HoldingUp) -> Iterator[str]:
    if not found.rows:
        yield "Nothing holds this job up."
        return
    yield f"{found.left - found.free} of {found.left} steps left are held up."
    for row in found.rows:
        yield f"  {row.called}: {row.why}. {row.act} {_frees(row)}"
    for rung in found.rungs:
        day = f"From {day_words(rung.day, found.today)}" if rung.day else "No day known"
        yield f"{day}: {_steps(len(rung.steps))}"
        yield f"  {'; '.join(rung.steps)}"


def _frees(row: HeldRow) -> str:
    """How many steps are free with it, itself among them, or wait for others as well."""
    alone, every = row.held.alone, row.held.all
    return f"Frees {_steps(alone)}." if alone else f"One of several for {_steps(every)}."


def _steps(count: int) -> str:
    return f"{count} step{'s' * (count != 1)}"
