"""What holds a job up, over a real store."""

from datetime import date, timedelta

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import part
from bagtag.domain.model import Fate
from bagtag.domain.readiness import Chase
from bagtag.domain.standing import Reach, Standing

TODAY = date.today()


@pytest.fixture
def case(store, job_id):
    """A case with a shaft under it, logged first and so built last; the shaft waits for nothing."""
    wanted = ("case", "bearing", "shaft")
    return {name: services.strip.log_removal(store, job_id, Entry(name)).new_id for name in wanted}


def test_nothing_holds_a_job_up_that_only_waits_for_its_own_steps(store, job_id, case):
    found = services.readiness.holding_up(store, job_id)
    assert found.rows == ()
    assert (found.left, found.free, found.unknown) == (3, 3, 0)
    assert found.last_day is None


def test_a_casting_away_is_asked_for_on_the_day_after_it_was_promised(store, job_id, case):
    due = TODAY + timedelta(days=4)
    services.fates.send_away(store, [case["bearing"]], shop="Mill Lane", due=due)
    found = services.readiness.holding_up(store, job_id)
    (row,) = found.rows
    assert row.held.chase is Chase.ON_ITS_WAY
    assert found.last_day == due
    days = services.readiness.days(store, job_id)
    assert days == {part(case["shaft"]): TODAY, part(case["bearing"]): due, part(case["case"]): due}
    late = services.readiness.holding_up(store, job_id, due + timedelta(days=2))
    assert late.rows[0].act == "Ask Mill Lane: 2 days late."
    assert late.unknown == 2


def test_each_row_says_what_to_do_and_what_waits(store, job_id, case):
    services.fates.set_fate(store, [case["shaft"]], Fate.DECIDE)
    (row,) = services.readiness.holding_up(store, job_id).rows
    assert (row.act, row.called) == ("Decide it.", "3 shaft")
    assert row.waiting == ("2 bearing", "1 case")
    assert row.held.alone == 3


def test_what_is_away_on_order_or_undecided_is_never_ready(store, job_id, case):
    services.fates.set_fate(store, [case["shaft"]], Fate.RENEW)
    services.fates.send_away(store, [case["bearing"]], shop="Mill Lane")
    services.fates.set_fate(store, [case["case"]], Fate.DECIDE)
    for step in services.board.board(store, job_id).steps:
        assert step.standing is not Standing.NEXT
        assert step.reach is Reach.WAITS
    assert len(services.readiness.holding_up(store, job_id).rows) == 3


def test_the_card_of_each_part_says_from_which_day_it_can_go_in(store, job_id, case):
    due = TODAY + timedelta(days=4)
    services.fates.send_away(store, [case["bearing"]], shop="Mill Lane", due=due)
    cards = {name: services.views.card(store, id_) for name, id_ in case.items()}
    assert not cards["shaft"].is_held_up
    assert (cards["bearing"].is_held_up, cards["bearing"].from_day) == (True, due)
    assert (cards["case"].is_held_up, cards["case"].from_day) == (True, due)
    services.fates.set_fate(store, [case["shaft"]], Fate.RENEW)
    assert services.views.card(store, case["case"]).from_day is None
