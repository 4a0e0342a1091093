"""What holds a job up, over a real store."""

from datetime import date, timedelta

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import part
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.model import Fate
from bagtag.domain.readiness import Chase
from bagtag.domain.standing import Reach, Standing
from bagtag.services.planning import planned
from bagtag.services.send_outs import Back, PackForm, Wanted

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
    known = planned(store, job_id)
    days = {ref: services.readiness.first_day(known, ref, TODAY) for ref in known.now.roots}
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


def test_what_is_to_be_worked_is_sent_then_waited_for_then_measured_again(store, job_id, case):
    """Nobody waits for a part that nobody has sent; back from the shop it is no longer to go."""
    made = services.measuring.add_sheet(store, job_id, SheetKind.BORE, case["shaft"]).new_id
    services.send_outs.back(store, [Back(_sent(store, job_id, case["shaft"]))])  # of another day
    work, why = "Rebore to 68.25 mm.", "worn"
    services.measuring.decide(store, made, Fate.DECIDE, why=why, work=work, who="Ada")

    def told():
        (row,) = services.readiness.holding_up(store, job_id).rows
        return row.held.chase, row.act, row.held.day, row.why

    (chase, act, day, why) = told()
    assert (chase, act, day) == (Chase.TO_WORK, "Send it away to be worked.", None)
    assert why == "it is still to be worked on and measured again (Rebore to 68.25 mm)"
    away_id = _sent(store, job_id, case["shaft"])
    assert told()[0] is Chase.NO_DAY
    services.send_outs.back(store, [Back(away_id)])
    again = "it is to be measured again after its work (Rebore to 68.25 mm)"
    assert told() == (Chase.TO_MEASURE, "Measure it.", TODAY, again)
    services.history.undo(store, job_id)
    services.history.undo(store, job_id)
    assert told()[0] is Chase.TO_WORK


def _sent(store, job_id, removal_id):
    form = PackForm("Mill Lane", TODAY)
    made = services.send_outs.send(store, job_id, form, [Wanted(removal_id)]).new_id
    return services.send_outs.batch(store, made).items[0].away.id
