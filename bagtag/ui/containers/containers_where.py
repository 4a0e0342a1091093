"""What stands in what and what lies where, as the containers page shows it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from bagtag import services
from bagtag.domain.standing import Standing

if TYPE_CHECKING:
    from bagtag.domain.model import Container
    from bagtag.services.containers import ContainerRow
    from bagtag.services.views import StripRow


@dataclass(frozen=True)
class Whereabouts:
    """Every container of a job and every part of its log, by id."""

    containers: "tuple[ContainerRow, ...]"
    parts: "Mapping[int, StripRow]"

    @cached_property
    def rows(self) -> "Mapping[int, ContainerRow]":
        return {row.container.id: row for row in self.containers}

    @cached_property
    def _children(self) -> "Mapping[int | None, list[ContainerRow]]":
        found: dict[int | None, list[ContainerRow]] = {}
        for row in self.containers:
            parent = row.container.parent_id
            found.setdefault(parent if parent in self.rows else None, []).append(row)
        return found

    @property
    def on_the_bench(self) -> "list[StripRow]":
        loose = (row for row in self.parts.values() if row.removal.container_id is None)
        return [row for row in loose if row.standing is Standing.OFF]

    def inside(self, container_id: int) -> "list[StripRow]":
        """The parts that lie in this very container."""
        row = self.row(container_id)
        ids = row.removal_ids if row else ()
        return [self.parts[id_] for id_ in ids if id_ in self.parts]

    def all_inside(self, container_id: int) -> "list[StripRow]":
        """The parts that lie in this container and in all that stands in it, and are not in yet."""
        below = (row.container.id for row in self.standing_in(container_id))
        found = [part for id_ in below for part in self.all_inside(id_)]
        here = (row for row in self.inside(container_id) if row.standing is not Standing.IN)
        return [*here, *found]

    def row(self, container_id: int) -> "ContainerRow | None":
        return self.rows.get(container_id)

    def standing_in(self, container_id: int | None) -> "Sequence[ContainerRow]":
        return self._children.get(container_id, ())

    @property
    def frame(self) -> "list[tuple[Container, str]]":
        """What stands in what, whatever lies in it."""
        return [(row.container, row.code) for row in self.containers]


def read(store: Any, job_id: int) -> Whereabouts:
    """Everything the containers page shows."""
    rows = services.containers.list_containers(store, job_id)
    ids = list(services.strip.log_ids(store, job_id))
    parts = services.views.strip_rows(store, job_id, ids)
    return Whereabouts(tuple(rows), {row.removal.id: row for row in parts})


def to_know(
    store: Any, job_id: int, container_id: int, inside: "Sequence[StripRow]"
) -> tuple[int, tuple[str, ...]]:
    """What is to be known of parts in a container before they go in, each by its name."""
    told = services.views.to_know_of(store, job_id, [row.removal.id for row in inside])
    parts = (row.removal for row in inside)
    return container_id, tuple(
        f"{part.number} {part.name}: {sentence}"
        for part in parts
        for sentence in told.get(part.id, ())
    )
