"""How a line to renew is told: where its new part stands, and where the old one is kept."""

from collections.abc import Mapping
from datetime import date

from bagtag.domain import nesting
from bagtag.domain.days import late_words
from bagtag.domain.model import Away, Container, Origin, Removal, Replacement
from bagtag.domain.new_part import NewPart
from bagtag.domain.phrases import day

NOT_NOTED = "the day of the order was not noted"
NOT_LISTED = "not on the list yet"
NO_SUPPLIER = "No supplier yet"
SUGGESTED = "To think about"


def called(part: NewPart) -> str:
    """`bolt M8x30 8.8`, `oil seal 25x42x7`."""
    return f"{part.what} {part.size}".strip()


def said(part: NewPart, today: date, *, is_in: bool = False, is_needed: bool = True) -> str:
    """Where a new part stands, in words: `ordered 3 Nov, due 17 Nov, 8 days late`."""
    words = "in" if is_in and part.state is Replacement.HERE else _state(part, today)
    return words if is_needed else f"{words}; not needed any more"


def _state(part: NewPart, today: date) -> str:
    match part.state:
        case Replacement.HERE:
            return ", ".join(filter(None, (_here(part), _compared(part))))
        case Replacement.ORDERED:
            return ", ".join(filter(None, (_ordered(part), _due(part, today), _some(part))))
    return ", ".join(filter(None, (_returned(part) or "wanted", _some(part))))


def _here(part: NewPart) -> str:
    return f"here since {day(part.arrived_on)}" if part.arrived_on else "here"


def _compared(part: NewPart) -> str:
    if part.compared_at is None:
        return ""
    by = f" by {part.compared_by}" if part.compared_by else ""
    return f"compared {day(part.compared_at.date())}{by}"


def _ordered(part: NewPart) -> str:
    is_known = part.ordered_on is not None and NOT_NOTED not in part.note
    return f"ordered {day(part.ordered_on)}" if part.ordered_on and is_known else "ordered"


def _due(part: NewPart, today: date) -> str:
    if part.due is None:
        return ""
    return ", ".join(filter(None, (f"due {day(part.due)}", late_words(part.due, today))))


def _some(part: NewPart) -> str:
    return f"{part.arrived} of {part.count} here" if part.arrived else ""


def _returned(part: NewPart) -> str:
    if part.returned_on is None:
        return ""
    why = f" ({part.returned_why})" if part.returned_why else ""
    return f"wanted again, a wrong one went back {day(part.returned_on)}{why}"


def old_part(
    part: NewPart, removal: Removal, containers: Mapping[int, Container], away: Away | None
) -> str:
    """`compare it with the old one in bag 12, shelf B`; nothing once that is done, or where there
    is no old one. A part is kept until it has been compared with the new one: a rule that workshop
    manuals give for dismantling."""
    if part.compared_at is not None or removal.origin is Origin.NEW:
        return ""
    it, old = ("it", "old one") if part.count == 1 else ("them", "old ones")
    return f"compare {it} with the {old} {_where(removal, containers, away)}"


def _where(removal: Removal, containers: Mapping[int, Container], away: Away | None) -> str:
    if away is not None:
        return f"at {away.shop}" if away.shop else "at the shop"
    chain = nesting.chain(containers, removal.container_id)
    return f"in {', '.join(chain)}" if chain else "on the bench"
