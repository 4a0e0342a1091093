"""Containers: bags, trays, totes and shelves, one in another, each with its tag."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from bagtag.domain import nesting
from bagtag.domain.change import Change
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.model import Container, ContainerKind, TagRole
from bagtag.services.codes_drawn import tie
from bagtag.store import belongings, removals, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

_LABEL = re.compile(r"\s*(bag|tray|tote|shelf)\b\s*(.*)", re.IGNORECASE | re.DOTALL)


@dataclass(frozen=True, slots=True)
class ContainerRow:
    """A container as the screen lists it, with what lies in it."""

    container: Container
    depth: int
    code: str
    where: tuple[str, ...]
    removal_ids: tuple[int, ...]


def add_container(
    store: Store,
    job_id: int,
    kind: ContainerKind,
    name: str = "",
    *,
    parent_id: int | None = None,
    tag_code: str = "",
    who: str = "",
) -> Change:
    """A new container; without a name it takes the next number, without a blank tag a fresh one."""
    clean = clean_text(name, limit=60)

    def do(act: Act) -> None:
        made(act, job_id, kind, clean, parent_id=parent_id, tag_code=tag_code)

    return store.act(f"add {kind.value} {clean}".strip(), do, who=who, job_id=job_id)


def made(
    act: Act,
    job_id: int,
    kind: ContainerKind,
    name: str,
    *,
    parent_id: int | None = None,
    tag_code: str = "",
) -> int:
    """Insert a container and its tag inside an open act."""
    known = belongings.containers(act.connection, job_id)
    name = name or _next_name(known, kind)
    if _named(known, kind, name):
        raise BadInput(f"There is a {kind.value} {name} in this job already.", field="name")
    container_id = act.insert(
        tables.container, job_id=job_id, kind=kind.value, name=name, parent_id=parent_id
    )
    tie(act, tag_code, TagRole.CONTAINER, job_id, container_id=container_id)
    return container_id


def found_or_made(act: Act, job_id: int, label: str) -> int:
    """The container called `label` ("bag 12"), made where there is none."""
    kind, name = parse_label(label)
    known = _named(belongings.containers(act.connection, job_id), kind, name)
    return known.id if known else made(act, job_id, kind, name)


def parse_label(label: str) -> tuple[ContainerKind, str]:
    """`bag 12` as its kind and name."""
    match = _LABEL.fullmatch(label)
    if match is None:
        raise BadInput(
            "Name a container by its kind and number, for example: bag 12, tray 3, shelf B.",
            field="container",
        )
    return ContainerKind(match[1].lower()), clean_text(match[2], limit=60)


def _named(known: Sequence[Container], kind: ContainerKind, name: str) -> Container | None:
    wanted = name.casefold()
    same = (c for c in known if c.kind is kind and c.name.casefold() == wanted)
    return next(same, None) if name else None


def _next_name(known: Sequence[Container], kind: ContainerKind) -> str:
    numbers = [int(c.name) for c in known if c.kind is kind and c.name.isdecimal()]
    return str(max(numbers, default=0) + 1)


def edit_container(
    store: Store, container_id: int, *, name: str, parent_id: int | None, who: str = ""
) -> Change:
    """Rename a container or stand it in another."""
    container = get_container(store, container_id)
    clean = clean_text(name, limit=60)
    if not clean:
        raise BadInput(f"Give the {container.kind.value} a number or a name.", field="name")

    def do(act: Act) -> None:
        known = belongings.containers(act.connection, container.job_id)
        twin = _named(known, container.kind, clean)
        if twin is not None and twin.id != container_id:
            raise BadInput(f"There is a {twin.label} in this job already.", field="name")
        nesting.check_parent(known, container_id, parent_id)
        act.update(tables.container, container_id, name=clean, parent_id=parent_id)

    return store.act(f"edit {container.label}", do, who=who, job_id=container.job_id)


def delete_container(store: Store, container_id: int, *, who: str = "") -> Change:
    """Take an empty container away; BadInput while something lies in it."""
    container = get_container(store, container_id)

    def do(act: Act) -> None:
        known = belongings.containers(act.connection, container.job_id)
        full = removals.ids_in_container(act.connection, container_id)
        if full or len(nesting.inside(known, container_id)) > 1:
            raise BadInput(f"The {container.label} is not empty. Take out what lies in it first.")
        for tag in belongings.tags_of_container(act.connection, container_id):
            act.delete(tables.tag, tag.id)
        act.delete(tables.container, container_id)

    return store.act(f"delete {container.label}", do, who=who, job_id=container.job_id)


def put(
    store: Store, removal_ids: Sequence[int], container_id: int | None, *, who: str = ""
) -> Change:
    """Put removals into a container, or (None) onto the bench."""
    with store.read() as connection:
        found = removals.by_ids(connection, removal_ids)
        target = belongings.get_container(connection, container_id) if container_id else None
    job_ids = {removal.job_id for removal in found.values()}
    if len(job_ids) != 1 or (target and target.job_id not in job_ids):
        raise BadInput("Parts and container must belong to one job. Choose them again.")

    def do(act: Act) -> None:
        for removal_id in removal_ids:
            act.update(tables.removal, removal_id, container_id=container_id)

    where = target.label if target else "the bench"
    return store.act(f"put into {where}", do, who=who, job_id=job_ids.pop())


def get_container(store: Store, container_id: int) -> Container:
    with store.read() as connection:
        container = belongings.get_container(connection, container_id)
    if container is None:
        raise NotFound("This container is no longer in the job.")
    return container


def list_containers(store: Store, job_id: int) -> list[ContainerRow]:
    """Every container of a job, each before those that stand in it."""
    with store.read() as connection:
        known = belongings.containers(connection, job_id)
        tags = belongings.tags_of_containers(connection, job_id)
        contents = {c.id: tuple(removals.ids_in_container(connection, c.id)) for c in known}
    by_id = {container.id: container for container in known}
    rows: list[ContainerRow] = []
    for depth, container in nesting.in_tree_order(known, _sort_key):
        where = nesting.chain(by_id, container.parent_id)
        code = tags.get(container.id, "")
        rows.append(ContainerRow(container, depth, code, where, contents[container.id]))
    return rows


_LARGEST_FIRST = list(reversed(ContainerKind))


def _sort_key(container: Container) -> tuple[int, int, str]:
    number = int(container.name) if container.name.isdecimal() else 1_000_000
    return _LARGEST_FIRST.index(container.kind), number, container.name
