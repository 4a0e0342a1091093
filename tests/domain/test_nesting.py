"""Containers in one another: where a bag stands, and no circle."""

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.model import Container, ContainerKind
from bagtag.domain.nesting import chain, check_parent, inside

BAG = Container(12, 1, ContainerKind.BAG, "12", 3)
TRAY = Container(3, 1, ContainerKind.TRAY, "3", 2)
SHELF = Container(2, 1, ContainerKind.SHELF, "B")
KNOWN = {row.id: row for row in (BAG, TRAY, SHELF)}


def test_where_a_bag_stands():
    assert chain(KNOWN, 12) == ("bag 12", "tray 3", "shelf B")
    assert chain(KNOWN, None) == chain(KNOWN, 99) == ()


@pytest.mark.parametrize("parent", [12, 3, 2])
def test_a_shelf_does_not_go_into_what_stands_on_it(parent):
    with pytest.raises(BadInput, match="Shelf B cannot stand inside itself") as refused:
        check_parent(KNOWN.values(), 2, parent)
    assert refused.value.field == "parent"


@given(st.lists(st.tuples(st.integers(1, 12), st.none() | st.integers(1, 12)), max_size=40))
def test_whatever_is_allowed_never_makes_a_circle(moves):
    """networkx finds none, and what is refused would have made one."""
    known = {n: Container(n, 1, ContainerKind.BAG, str(n)) for n in range(1, 13)}
    for which, parent in moves:
        moved = known | {which: Container(which, 1, ContainerKind.BAG, str(which), parent)}
        try:
            check_parent(known.values(), which, parent)
        except BadInput:
            assert not networkx.is_directed_acyclic_graph(graph_of(moved))
            continue
        known = moved
        graph = graph_of(known)
        assert networkx.is_directed_acyclic_graph(graph)
        assert inside(known.values(), which) == networkx.ancestors(graph, which) | {which}
        assert len(chain(known, which)) == len(networkx.descendants(graph, which)) + 1


def graph_of(known: dict[int, Container]) -> networkx.DiGraph:
    graph = networkx.DiGraph()
    graph.add_nodes_from(known)
    graph.add_edges_from((c.id, c.parent_id) for c in known.values() if c.parent_id is not None)
    return graph


def test_a_circle_from_a_damaged_store_does_not_hang():
    round_and_round = {
        1: Container(1, 1, ContainerKind.BAG, "1", 2),
        2: Container(2, 1, ContainerKind.BAG, "2", 1),
    }
    assert set(chain(round_and_round, 1)) == {"bag 1", "bag 2"}
    assert inside(round_and_round.values(), 1) == {1, 2}
