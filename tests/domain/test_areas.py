"""Areas: a tree of places, and openers that leave an order that works."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.areas import (
    below,
    by_id,
    check_openers,
    check_parent,
    in_tree_order,
    path,
    path_text,
)
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import part
from bagtag.domain.model import Area
from bagtag.domain.order_plan import plan
from bagtag.domain.order_problem import Circle, Item, Problem

ENGINE = Area(1, 1, "engine")
CASE = Area(2, 1, "lower case", 1)
GEARBOX = Area(3, 1, "gearbox", 2, rank=1)
HEAD = Area(4, 1, "head", 1, rank=2)
TREE = [HEAD, GEARBOX, ENGINE, CASE]


def test_a_path_runs_from_the_outside_in():
    assert path(by_id(TREE), 3) == ("engine", "lower case", "gearbox")
    assert path_text(by_id(TREE), 3) == "engine > lower case > gearbox"
    assert path_text(by_id(TREE), None) == path_text(by_id(TREE), 99) == ""


def test_each_area_is_listed_before_those_inside_it_by_rank():
    assert [(depth, area.name) for depth, area in in_tree_order(TREE)] == [
        (0, "engine"),
        (1, "lower case"),
        (2, "gearbox"),
        (1, "head"),
    ]


def test_below_is_the_area_and_all_inside():
    assert below(TREE, 2) == {2, 3}
    assert below(TREE, 1) == {1, 2, 3, 4}


@pytest.mark.parametrize("parent", [1, 2, 3])
def test_an_area_does_not_go_into_itself(parent):
    with pytest.raises(BadInput, match="The area engine cannot lie inside itself"):
        check_parent(TREE, 1, parent)


def test_what_opens_an_area_lies_outside_it():
    opened = [ENGINE, Area(2, 1, "lower case", 1, opener_id=10), GEARBOX]
    check_openers(opened, {10: 1})
    for inside in (2, 3):
        with pytest.raises(BadInput, match="What opens lower case cannot lie inside it"):
            check_openers(opened, {10: inside})


@given(
    parents=st.lists(st.none() | st.integers(1, 4), min_size=5, max_size=5),
    openers=st.lists(st.none() | st.integers(10, 14), min_size=5, max_size=5),
    lies_in=st.lists(st.none() | st.integers(1, 5), min_size=5, max_size=5),
)
def test_openers_are_refused_exactly_where_no_order_would_work(parents, openers, lies_in):
    """With a part in every area, the check lets it be if and only if no opener lies in what it
    opens and the build finds an order."""
    tree = [p if p is not None and p < n else None for n, p in enumerate(parents, start=1)]
    areas = [Area(n, 1, f"area {n}", tree[n - 1], openers[n - 1]) for n in range(1, 6)]
    area_of = dict(zip(range(10, 15), lies_in, strict=True))
    log = [Item(part(id_), area_id) for id_, area_id in area_of.items()]
    log += [Item(part(100 + n), n) for n in range(1, 6)]
    found = plan(Problem(log, areas))
    shut_in = any(a.opener_id and area_of[a.opener_id] in below(areas, a.id) for a in areas)
    if shut_in or isinstance(found, Circle):
        with pytest.raises(BadInput, match=r"Move that part|Change what opens"):
            check_openers(areas, area_of)
        return
    assert len(found.order) == len(log)
    check_openers(areas, area_of)


def test_a_circle_of_parents_from_a_damaged_store_does_not_hang():
    known = by_id([Area(1, 1, "engine", 2), Area(2, 1, "gearbox", 1)])
    assert len(path(known, 1)) <= 3
