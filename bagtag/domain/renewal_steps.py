"""How a new part goes on: ordered, arrived, sent back, compared; each step on its line alone."""

from dataclasses import replace
from datetime import date, datetime
from typing import Any

from bagtag.domain.clean import whole
from bagtag.domain.errors import BadInput
from bagtag.domain.model import Replacement
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewal_words import called

NOT_COMPARED: dict[str, Any] = {"compared_at": None, "compared_by": "", "compared_note": ""}
"""What is said of a comparison that nobody made."""


def ordered(now: NewPart, on: date, due: date | None, supplier: str = "") -> NewPart:
    """Ordered on a day, from `supplier` where the line has none; BadInput where all is here."""
    if now.state is Replacement.HERE:
        raise BadInput(f"{called(now)} is here already. Leave it out of the order.", field="parts")
    return replace(now, supplier=now.supplier or supplier, ordered_on=on, due=due)


def arrived(now: NewPart, count: int, on: date) -> NewPart:
    """So many pieces more are here; BadInput for more than are still to come."""
    if count > now.still:
        raise BadInput(_too_many(now), field="count")
    return replace(now, arrived=now.arrived + count, arrived_on=on, **NOT_COMPARED)


def _too_many(now: NewPart) -> str:
    if not now.still:
        return f"{called(now)} is here already. Raise its count first if more came."
    return f"Only {now.still} of {now.count} are still to come. Raise the count first if more came."


def sent_back(now: NewPart, why: str, on: date, count: int | None = None) -> NewPart:
    """Wrong pieces went back, all or `count` of them, and are wanted again; BadInput for more than
    are here."""
    if not now.arrived:
        raise BadInput(f"No {called(now)} has arrived, so none can go back.", field="count")
    back = whole(
        now.arrived if count is None else count, "What goes back", field="count", most=now.arrived
    )
    return replace(
        now,
        arrived=now.arrived - back,
        arrived_on=now.arrived_on if back < now.arrived else None,
        ordered_on=None,
        due=None,
        returned_on=on,
        returned_why=why,
        **NOT_COMPARED,
    )


def compared(now: NewPart, at: datetime, who: str, note: str) -> NewPart:
    """Held against the old one and found the same; BadInput where none is here."""
    if not now.arrived:
        raise BadInput(
            f"No {called(now)} has arrived, so there is nothing to compare.", field="note"
        )
    return replace(now, compared_at=at, compared_by=who, compared_note=note)


def recounted(now: NewPart, count: int) -> NewPart:
    """The same with so many pieces here, counted anew: what is none at all is not compared."""
    if count == now.arrived:
        return now
    if not 0 <= count <= now.count:
        raise BadInput(
            f"{now.count} are wanted, so from 0 to {now.count} can be here. "
            "Correct it, or raise how many are wanted.",
            field="arrived",
        )
    if count:
        return replace(now, arrived=count)
    return replace(now, arrived=0, arrived_on=None, **NOT_COMPARED)


def put_at(now: NewPart, state: Replacement, on: date) -> NewPart:
    """Where it stands, said in one word: wanted, ordered, here, as of a day."""
    if state is Replacement.HERE:
        return arrived(now, now.still, on) if now.still else now
    ordered_on = (now.ordered_on or on) if state is Replacement.ORDERED else None
    due = now.due if ordered_on else None
    return replace(now, arrived=0, arrived_on=None, ordered_on=ordered_on, due=due, **NOT_COMPARED)
