"""What can be done with a line of Renew, as far as it has come."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from bagtag.domain.model import Replacement

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine


class Do(StrEnum):
    ACCEPT = "Renew it"
    ORDER = "Order"
    ARRIVED = "It is here"
    COMPARE = "Compare it"
    WRONG = "Wrong part"
    CHANGE = "Change it"
    SHOW = "Show the part"
    REMOVE = "Take it off the list"


KEYS = {
    Do.ACCEPT: "R",
    Do.ORDER: "O",
    Do.ARRIVED: "H",
    Do.COMPARE: "C",
    Do.WRONG: "W",
    Do.CHANGE: "E",
    Do.SHOW: "S",
    Do.REMOVE: "Del",
}


def acts_for(line: RenewLine) -> tuple[Do, ...]:
    """What makes sense now; what comes next is the first."""
    if line.is_suggestion:
        return Do.ACCEPT, Do.SHOW
    part = line.new_part
    wrong = (Do.WRONG,) if part.arrived else ()
    shown = (Do.SHOW,) if line.removal is not None else ()
    off = (Do.REMOVE,) if line.removal is None or not line.is_needed else ()
    return *_next(line), Do.CHANGE, *wrong, *shown, *off


def _next(line: RenewLine) -> tuple[Do, ...]:
    compare = (Do.COMPARE,) if line.new_part.arrived and line.old_part else ()
    match line.state:
        case Replacement.WANTED if line.is_needed:
            return Do.ORDER, Do.ARRIVED, *compare
        case Replacement.ORDERED:
            return Do.ARRIVED, *compare
        case _:
            return compare
