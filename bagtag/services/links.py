"""Parts that name each other: "chamfer to the gear" is tied to the gear's own entry.

A part may be named before it is logged. So an entry is tied to what is logged already, and a new
one ties those that were waiting for it; two that could be meant are never chosen between.
"""

from dataclasses import replace

from bagtag.domain import which_way
from bagtag.domain.entry import Entry
from bagtag.domain.model import Removal
from bagtag.domain.resolve import linked, loose
from bagtag.store import removals, tables
from bagtag.store.act import Act


def tie(act: Act, job_id: int, entry: Entry, uid: str) -> Entry:
    """The entry with its other parts tied to their entries, as far as they can only mean one."""
    if not loose(entry.which_way):
        return entry
    near = removals.near(act.connection, job_id, entry.area_id)
    return replace(entry, which_way=linked(entry.which_way, near, replace(entry, uid=uid)))


def tie_waiting(act: Act, job_id: int, removal_id: int) -> None:
    """Tie to a new entry those that named it before it was logged."""
    waiting = removals.naming_others(act.connection, job_id)
    new = removals.get(act.connection, removal_id) if waiting else None
    meaning = [r for r in waiting if new is not None and _may_mean(r, new)]
    if not meaning or new is None:
        return
    near = removals.near(act.connection, job_id, new.area_id)
    for removal in meaning:
        facts = linked(removal.which_way, near, removal)
        act.update(tables.removal, removal.id, which_way=which_way.to_data(facts))


def _may_mean(removal: Removal, new: Removal) -> bool:
    """Whether a part that is named there can be the new one: a quick look before the thorough."""
    return linked(removal.which_way, [new], removal) != removal.which_way
