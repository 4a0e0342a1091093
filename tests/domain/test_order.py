"""The order of the build, against another library's sort and by its own laws."""

import networkx
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.model import Area
from bagtag.domain.order import Piece, blockers, build_order

SHUT_IN = "opened from inside the other"


@st.composite
def machines(draw) -> tuple[list[Piece], list[Area]]:
    """A log of up to 25 pieces and a tree of up to 6 areas, each with any piece as its opener."""
    parents = [
        draw(st.none() | st.integers(1, number - 1)) if number > 1 else None
        for number in range(1, draw(st.integers(0, 6)) + 1)
    ]
    some_area = st.none() | st.integers(1, len(parents)) if parents else st.none()
    count = draw(st.integers(0, 25))
    ids = draw(st.permutations([100 + number for number in range(count)]))
    log = [Piece(id_, draw(some_area)) for id_ in ids]
    opener = st.none() | st.sampled_from(ids) if ids else st.none()
    areas = [Area(n, 1, f"area {n}", parent, draw(opener)) for n, parent in enumerate(parents, 1)]
    return log, areas


def ties(log: list[Piece], areas: list[Area]) -> networkx.DiGraph:
    """What must go in before what, piece by piece: everything behind an opener before it."""
    graph = networkx.DiGraph()
    graph.add_nodes_from(piece.id for piece in log)
    known = {area.id: area for area in areas}
    for piece in log:
        area = known.get(piece.area_id)
        while area is not None:
            if area.opener_id in graph:
                graph.add_edge(piece.id, area.opener_id)
            area = known.get(area.parent_id)
    return graph


@given(machines())
def test_an_order_is_found_exactly_when_there_is_one(machine):
    """networkx says whether areas and openers shut one another in, and what must come first."""
    log, areas = machine
    if not is_open(log, areas):
        with pytest.raises(BadInput, match=SHUT_IN):
            build_order(log, areas)
        return
    order = build_order(log, areas)
    assert sorted(order) == sorted(piece.id for piece in log)
    place = {id_: number for number, id_ in enumerate(order)}
    assert all(place[before] < place[after] for before, after in ties(log, areas).edges)


def is_open(log: list[Piece], areas: list[Area]) -> bool:
    """Whether no area, with what opens it, shuts itself in."""
    area_of = {piece.id: piece.area_id for piece in log}
    graph = networkx.DiGraph()
    for area in areas:
        if area.parent_id is not None:
            graph.add_edge(area.id, area.parent_id)
        if area_of.get(area.opener_id) is not None:
            graph.add_edge(area.id, area_of[area.opener_id])
    return networkx.is_directed_acyclic_graph(graph)


@given(machines())
def test_a_log_that_keeps_the_rules_is_the_build_backwards(machine):
    """Read backwards, such a log is what networkx gives with the place in it as its key."""
    log, areas = machine
    assume(is_open(log, areas))
    graph = ties(log, areas)
    kept = list(networkx.lexicographical_topological_sort(graph))
    rank = {id_: number for number, id_ in enumerate(kept)}
    fair = sorted(log, key=lambda piece: rank[piece.id], reverse=True)
    assert build_order(fair, areas) == tuple(
        networkx.lexicographical_topological_sort(graph, key=rank.__getitem__)
    )
    assert list(build_order(fair, areas)) == [piece.id for piece in reversed(fair)]


@given(machines())
def test_only_openers_and_what_they_held_leave_their_place(machine):
    """All other parts go back in the order of the log read backwards."""
    log, areas = machine
    assume(is_open(log, areas))
    graph, openers = ties(log, areas), {area.opener_id for area in areas}
    held = openers | {
        id_ for opener in openers & set(graph) for id_ in networkx.descendants(graph, opener)
    }
    order = build_order(log, areas)
    free = [piece.id for piece in reversed(log) if piece.id not in held]
    assert [id_ for id_ in order if id_ not in held] == free


def test_a_cover_logged_last_goes_on_after_its_contents():
    """A cover that was written down late still closes the case last."""
    areas = [Area(1, 1, "gearbox", None, opener_id=30)]
    log = [Piece(10, 1), Piece(20, 1), Piece(30), Piece(40)]
    assert build_order(log, areas) == (40, 20, 10, 30)


def test_an_opener_may_lie_in_the_area_around():
    areas = [Area(1, 1, "engine", None, 10), Area(2, 1, "lower case", 1, 20)]
    log = [Piece(10), Piece(20, 1), Piece(30, 2)]
    assert build_order(log, areas) == (30, 20, 10)


@pytest.mark.parametrize(
    "areas",
    [
        [Area(1, 1, "gearbox", None, 10)],
        [Area(1, 1, "gearbox", None, 20), Area(2, 1, "clutch", None, 10)],
        [Area(1, 1, "gearbox", None, 20), Area(2, 1, "clutch", 1)],
    ],
)
def test_openers_that_shut_each_other_in_are_said(areas):
    log = [Piece(10, 1), Piece(20, 2 if len(areas) > 1 else 1), Piece(30)]
    with pytest.raises(BadInput, match=SHUT_IN):
        build_order(log, areas)


@given(machines(), st.sets(st.integers(100, 125)))
def test_a_step_waits_for_exactly_what_is_missing_before_it(machine, fitted):
    log, areas = machine
    assume(is_open(log, areas))
    order = build_order(log, areas)
    waits = blockers(order, log, areas, fitted)
    graph, area_of = ties(log, areas), {piece.id: piece.area_id for piece in log}
    missing = [id_ for id_ in order if id_ not in fitted]
    assert list(waits) == missing
    for at, step in enumerate(missing):
        same_area = [id_ for id_ in missing[:at] if area_of[id_] == area_of[step]]
        wanted = set(graph.predecessors(step)) - set(fitted) | set(same_area[-1:])
        assert set(waits[step]) == wanted
        assert len(waits[step]) == len(wanted)


def test_ten_thousand_lines_in_a_deep_tree_are_ordered():
    """Ties run through areas, not from part to part: a deep tree does not square the work."""
    areas = [Area(n, 1, f"area {n}", n - 1 or None, opener_id=n) for n in range(1, 200)]
    log = [Piece(n, n - 1 or None) for n in range(1, 200)]
    log += [Piece(n, 199) for n in range(200, 10_200)]
    assert build_order(log, areas) == tuple(range(10_199, 0, -1))
