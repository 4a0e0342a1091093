"""Areas: the places in a machine, as a tree, and what opens them."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from graphlib import CycleError, TopologicalSorter

from bagtag.domain.errors import BadInput
from bagtag.domain.model import Area


def by_id(areas: Iterable[Area]) -> dict[int, Area]:
    return {area.id: area for area in areas}


def path(areas: Mapping[int, Area], area_id: int | None) -> tuple[str, ...]:
    """Names from the outermost area inwards: ("engine", "lower case", "gearbox")."""
    names: list[str] = []
    while area_id is not None and area_id in areas and len(names) <= len(areas):
        names.append(areas[area_id].name)
        area_id = areas[area_id].parent_id
    return tuple(reversed(names))


def path_text(areas: Mapping[int, Area], area_id: int | None) -> str:
    """`engine > lower case > gearbox`, or nothing for no area."""
    return " > ".join(path(areas, area_id))


def below(areas: Iterable[Area], area_id: int) -> set[int]:
    """The area and every area inside it."""
    children = _children(areas)
    found, open_ = {area_id}, [area_id]
    while open_:
        inner = set(children[open_.pop()]) - found
        found |= inner
        open_ += inner
    return found


def in_tree_order(areas: Iterable[Area]) -> list[tuple[int, Area]]:
    """(depth, area) from the top of the tree down, each area before those inside it."""
    rows = sorted(areas, key=lambda area: (area.rank, area.id))
    known = {area.id: area for area in rows}
    children = _children(rows)
    listed: list[tuple[int, Area]] = []
    open_ = [(0, area) for area in reversed(rows) if area.parent_id not in known]
    while open_:
        depth, area = open_.pop()
        listed.append((depth, area))
        open_ += [(depth + 1, known[inner]) for inner in reversed(children[area.id])]
    return listed


def check_parent(areas: Iterable[Area], area_id: int, parent_id: int | None) -> None:
    """Refuse to put an area inside itself."""
    rows = list(areas)
    if parent_id is not None and parent_id in below(rows, area_id):
        name = by_id(rows)[area_id].name
        raise BadInput(
            f"The area {name} cannot lie inside itself. Choose an area that is not part of it.",
            field="parent",
        )


def check_openers(areas: Iterable[Area], area_of: Mapping[int, int | None]) -> None:
    """Refuse openers that let no order work: one behind itself, or areas that shut each other in.

    `area_of` maps each opener to the area it lies in.
    """
    rows = list(areas)
    for area in rows:
        if area.opener_id is not None and area.opener_id in area_of:
            check_opener(rows, area.id, area_of[area.opener_id])
    filled_before = {area.id: _holders(area, area_of) for area in rows}
    try:
        TopologicalSorter(filled_before).prepare()
    except CycleError as circle:
        known = by_id(rows)
        names = " and ".join(dict.fromkeys(known[id_].name for id_ in circle.args[1]))
        raise BadInput(
            f"No order works: {names} would be opened from inside one another. "
            "Change what opens one of them.",
            field="opener",
        ) from circle


def _holders(area: Area, area_of: Mapping[int, int | None]) -> set[int]:
    """The areas that are not full before this one is."""
    opener_in = area_of.get(area.opener_id) if area.opener_id is not None else None
    return {id_ for id_ in (area.parent_id, opener_in) if id_ is not None}


def check_opener(areas: Iterable[Area], area_id: int, opener_area_id: int | None) -> None:
    """Refuse an opener that lies in the area it opens."""
    rows = list(areas)
    if opener_area_id is not None and opener_area_id in below(rows, area_id):
        name = by_id(rows)[area_id].name
        raise BadInput(
            f"What opens {name} cannot lie inside it. Move that part to the area around it first.",
            field="opener",
        )


def _children(areas: Iterable[Area]) -> dict[int, list[int]]:
    children: dict[int, list[int]] = defaultdict(list)
    for area in areas:
        if area.parent_id is not None:
            children[area.parent_id].append(area.id)
    return children
