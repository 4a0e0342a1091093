"""The audit of what parts share: what they say against each other, containers, areas."""

from collections import defaultdict
from collections.abc import Iterator

from bagtag.domain import contradictions
from bagtag.domain.areas import by_id, in_tree_order
from bagtag.domain.audit_finding import Finding, Lack, Look
from bagtag.domain.audit_words import listed
from bagtag.domain.model import Area, Container, Fate, Removal

_APART = (Fate.RENEW, Fate.SCRAP, Fate.DECIDE)


def contradictory(look: Look) -> Iterator[Finding]:
    """What cannot be true together, in the order off."""
    datum = look.stripped.datum
    live = {removal.id for removal in look.live}
    found = [
        Finding(Lack.CONTRADICTION, one.sentence, removal.id)
        for removal in look.live
        for one in contradictions.within(removal.which_way, datum)
    ]
    for one in contradictions.between(look.log, datum):
        ids = tuple(look.by_uid[uid].id for uid in one.uids)
        if live.intersection(ids):
            found.append(Finding(Lack.CONTRADICTION, one.sentence, ids[0], ids[1:]))
    place = {removal.id: place for place, removal in enumerate(look.log)}
    yield from sorted(found, key=lambda finding: place[finding.removal_id])


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
    said = f"Take out of {container.label}, and lay by themselves: {named}."
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
