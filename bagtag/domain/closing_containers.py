"""The closing count by container: what each still holds, and whether every bag is emptied."""

from bagtag.domain.closing_bench import Bench
from bagtag.domain.closing_rows import ContainerLine
from bagtag.domain.closing_sizes import natural
from bagtag.domain.model import Container, Removal
from bagtag.domain.nesting import in_tree_order


def by_container(bench: Bench) -> tuple[ContainerLine, ...]:
    """Every container, each followed by what stands in it, by name. A part that is away has its
    place kept; a fastener that is short is only likely to be there, and is not held."""
    held: dict[int, list[Removal]] = {}
    for removal in bench.log:
        if removal.container_id in bench.containers and bench.is_left(removal):
            held.setdefault(removal.container_id, []).append(removal)
    order = in_tree_order(bench.containers.values(), _rank)
    pieces = {id_: sum(r.quantity for r in parts) for id_, parts in held.items()}
    for _, one in reversed(order):
        if one.parent_id in bench.containers:
            pieces[one.parent_id] = pieces.get(one.parent_id, 0) + pieces.get(one.id, 0)
    return tuple(
        ContainerLine(
            one.id,
            one.label,
            depth,
            tuple(r.id for r in held.get(one.id, ())),
            pieces.get(one.id, 0),
        )
        for depth, one in order
    )


def _rank(one: Container) -> tuple[object, int]:
    return natural(one.label), one.id
