"""How a new part goes on: whatever is done, no more is here than is wanted, and what came since the
last comparison is not compared."""

from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain import renewal_steps as steps
from bagtag.domain.errors import BadInput
from bagtag.domain.model import Replacement
from tests.domain.renew_kit import part

ON, LATER = date(2026, 11, 3), date(2026, 11, 17)
AT = datetime(2026, 11, 18, 9, tzinfo=UTC)
COUNTS = st.integers(-1, 5)
ACTS = st.one_of(
    COUNTS.map(lambda n: ("arrived", lambda now: steps.arrived(now, max(n, 1), ON))),
    COUNTS.map(lambda n: ("sent back", lambda now: steps.sent_back(now, "bent", ON, n))),
    COUNTS.map(lambda n: ("recounted", lambda now: steps.recounted(now, n))),
    st.just(("ordered", lambda now: steps.ordered(now, ON, LATER, "Mill Lane"))),
    st.just(("compared", lambda now: steps.compared(now, AT, "Ada", ""))),
    st.sampled_from(Replacement).map(lambda to: ("put", lambda now: steps.put_at(now, to, ON))),
)


@given(st.integers(1, 4), st.lists(ACTS, max_size=12))
def test_no_story_of_a_new_part_loses_count(count, acts) -> None:
    now = part("oil seal", count=count)
    for name, act in acts:
        before = now
        try:
            now = act(before)
        except BadInput:
            continue
        assert 0 <= now.arrived <= now.count == count
        assert (now.state is Replacement.HERE) is (now.arrived == count)
        assert now.arrived or now.compared_at is None
        has_come = name in ("arrived", "put") and now.arrived > before.arrived
        if has_come or name == "sent back":
            assert now.compared_at is None
        if name == "sent back":
            assert (now.state, now.due, now.returned_why) == (Replacement.WANTED, None, "bent")


@given(st.sampled_from(Replacement))
def test_a_state_that_is_said_is_the_state_it_is_in(state) -> None:
    assert steps.put_at(part("jet", count=3), state, ON).state is state


def test_what_is_ordered_keeps_the_supplier_it_has() -> None:
    new = steps.ordered(part("jet", supplier="Mill Lane"), ON, LATER, "another")
    assert (new.supplier, new.ordered_on, new.due) == ("Mill Lane", ON, LATER)
    assert steps.ordered(part("jet"), ON, None, "another").supplier == "another"


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("Only 2 of 3 are still to come", lambda now: steps.arrived(now, 3, ON)),
        ("from 1 to 1", lambda now: steps.sent_back(now, "bent", ON, 2)),
        ("from 0 to 3 can be here", lambda now: steps.recounted(now, 4)),
    ],
)
def test_what_cannot_be_is_said(said, act) -> None:
    with pytest.raises(BadInput, match=said):
        act(steps.arrived(part("jet", count=3), 1, ON))


def test_what_is_all_here_is_neither_ordered_nor_awaited() -> None:
    here = steps.put_at(part("jet", count=2), Replacement.HERE, ON)
    with pytest.raises(BadInput, match="Leave it out of the order"):
        steps.ordered(here, ON, None)
    with pytest.raises(BadInput, match="Raise its count first"):
        steps.arrived(here, 1, ON)
