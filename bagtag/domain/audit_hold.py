"""The audit of what parts share: what they say against each other, containers, areas."""

import re
from collections import defaultdict
from collections.abc import Iterator

from bagtag.domain.areas import by_id, in_tree_order
from bagtag.domain.audit_finding import Finding, Lack, Look
from bagtag.domain.audit_words import listed
from bagtag.domain.contradictions import Contradiction, between, within
from bagtag.domain.model import Area, Container, Fate, Removal

_IF_SO = ' If it is so after all, write "looked at" in the note.'
_LOOKED_AT = re.compile(r"\blooked at\b", re.IGNORECASE)
_APART = (Fate.RENEW, Fate.SCRAP, Fate.DECIDE)


def contradictory(look: Look) -> Iterator[Finding]:
    """What cannot be true together, in the order off, and then what is worth a second look."""
    place = {removal.id: place for place, removal in enumerate(look.log)}
    found = [(one, parts) for one, parts in _contradictions(look) if not _is_settled(one, parts)]
    for one, parts in sorted(found, key=lambda pair: (pair[0].is_warning, place[pair[1][0].id])):
        ids = tuple(part.id for part in parts)
        said = one.sentence + _IF_SO * one.is_warning
        yield Finding(Lack.CONTRADICTION, said, ids[0], ids[1:])


def _contradictions(look: Look) -> Iterator[tuple[Contradiction, list[Removal]]]:
    datum = look.stripped.datum
    for removal in look.live:
        for one in within(removal.which_way, datum, removal.side):
            yield one, [removal]
    for one in between(look.log, datum, look.stripped.kinds):
        yield one, [look.by_uid[uid] for uid in one.uids]


def _is_settled(one: Contradiction, parts: list[Removal]) -> bool:
    """Whether all its parts are scrapped, or a warning has been looked at."""
    if all(part.fate is Fate.SCRAP for part in parts):
        return True
    return one.is_warning and any(_LOOKED_AT.search(part.note) for part in parts)


def mixed(look: Look) -> Iterator[Finding]:
    """Containers that hold parts to renew, scrap or decide together with parts that go back.

    "Parts to be renewed and parts for further inspection" lie in "separate containers from parts
    for rebuild" (a vehicle maker's workshop manual, General Fitting Instructions, Disassembly).
    """
    held: dict[int, list[Removal]] = defaultdict(list)
    for removal in look.log:
        if removal.container_id is not None:
            held[removal.container_id].append(removal)
    for container in sorted(look.stripped.containers, key=lambda container: container.id):
        parts = held[container.id]
        apart = [removal for removal in parts if removal.fate in _APART]
        if apart and len(apart) < len(parts):
            yield _mixed(container, apart)


def _mixed(container: Container, apart: list[Removal]) -> Finding:
    named = listed([f"{part.number} {part.name} ({part.fate.value})" for part in apart])
    said = f"Take out of {container.label} and keep apart: {named}."
    ids = tuple(part.id for part in apart)
    return Finding(Lack.MIXED, said, 0, ids, container_id=container.id)


def shut(look: Look) -> Iterator[Finding]:
    """Areas with parts that nothing is said to open, the outermost of each; in tree order.

    An area is reached through its own opener or one around it; one that is open lets at its own
    parts, and not into the areas inside it.
    """
    areas = by_id(look.stripped.areas)
    outermost = {_outermost_shut(areas, removal.area_id) for removal in look.live}
    for _, area in in_tree_order(look.stripped.areas):
        if area.id in outermost:
            said = f"Say which part opens {area.name}, or that nothing covers it."
            yield Finding(Lack.OPENER, said, area_id=area.id)


def _outermost_shut(areas: dict[int, Area], area_id: int | None) -> int | None:
    """The outermost area that shuts a part of this one in, or None."""
    found: int | None = None
    seen: set[int] = set()
    while area_id in areas and area_id not in seen:
        area = areas[area_id]
        if area.opener_id is not None or (not seen and area.is_open):
            return None
        seen.add(area.id)
        found = found if area.is_open else area.id
        area_id = area.parent_id
    return found
