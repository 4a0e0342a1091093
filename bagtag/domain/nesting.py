"""Containers that stand in one another: bag 12 in tray 3 on shelf B."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from bagtag.domain.errors import BadInput
from bagtag.domain.model import Container
from bagtag.domain.phrases import capital


def chain(containers: Mapping[int, Container], container_id: int | None) -> tuple[str, ...]:
    """Labels from the innermost outwards: ("bag 12", "tray 3", "shelf B")."""
    labels: list[str] = []
    while container_id is not None and container_id in containers:
        if len(labels) > len(containers):
            break
        labels.append(containers[container_id].label)
        container_id = containers[container_id].parent_id
    return tuple(labels)


def in_tree_order(
    containers: Iterable[Container], rank: Callable[[Container], Any]
) -> list[tuple[int, Container]]:
    """(depth, container), each before what stands in it, those side by side by their rank."""
    ordered = sorted(containers, key=rank, reverse=True)
    ids = {one.id for one in ordered}
    children: dict[int | None, list[Container]] = {}
    for one in ordered:
        children.setdefault(one.parent_id if one.parent_id in ids else None, []).append(one)
    listed: list[tuple[int, Container]] = []
    open_ = [(0, one) for one in children.get(None, ())]
    while open_:
        depth, one = open_.pop()
        listed.append((depth, one))
        open_ += [(depth + 1, within) for within in children.get(one.id, ())]
    return listed


def inside(containers: Iterable[Container], container_id: int) -> set[int]:
    """The container and all that stand in it."""
    rows = list(containers)
    found, grew = {container_id}, True
    while grew:
        more = {row.id for row in rows if row.parent_id in found} - found
        found |= more
        grew = bool(more)
    return found


def check_parent(containers: Iterable[Container], container_id: int, parent_id: int | None) -> None:
    """Refuse to put a container into itself or into one that stands in it."""
    rows = list(containers)
    if parent_id is not None and parent_id in inside(rows, container_id):
        label = next(row.label for row in rows if row.id == container_id)
        raise BadInput(
            f"{capital(label)} cannot stand inside itself. Choose a container outside it.",
            field="parent",
        )
