"""Batches that go to a shop: what the shop takes off is not forgotten, what is missing is said."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import update

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Asked, Figure, part
from bagtag.domain.model import Fate, Origin, TagRole
from bagtag.domain.send_out import BackCheck
from bagtag.domain.standing import Standing
from bagtag.services.send_outs import Back, PackForm, ShopPart, Wanted
from bagtag.services.tags import Leads
from bagtag.store.tables import away
from tests.store.rows_kit import all_rows

TODAY = date.today()
FORM = PackForm(
    "Mill Lane Engineering",
    TODAY,
    TODAY + timedelta(9),
    "Ada at the counter",
    "Blast nothing.",
    "140,50",
    "EUR",
)
BORE = Asked("bore", "mm", 76.50, 76.52)
ALL = tuple(BackCheck)


@pytest.fixture
def case(log):
    """Some lines of a log, by name."""
    names = ("cover", "bearing", "barrel", "shaft")
    return {name: log(name) for name in names}


@pytest.fixture
def sent(store, job_id, case):
    """The barrel is away; its bearing came off first and the shop takes three jets and a plug."""
    takes = (ShopPart("oil jet", 3), ShopPart("oilway plug"))
    wanted = Wanted(case["barrel"], "Rebore and hone.", (BORE,), (case["bearing"],), takes)
    return services.send_outs.send(store, job_id, FORM, [wanted], who="Ada").new_id


@pytest.fixture
def items(store, sent):
    """The parts of the batch as they stand, by name."""

    def read():
        batch = services.send_outs.batch(store, sent)
        return {item.removal.name: item for item in batch.items}

    return read


# Sending


def test_a_batch_goes_with_all_that_is_on_it(store, job_id, case, sent, items):
    (batch,) = services.send_outs.batches(store, job_id)
    whole = batch.send_out
    assert (whole.number, whole.called) == (1, "send-out 1, Mill Lane Engineering")
    assert (whole.price, whole.currency, whole.made_by) == (Decimal("140.50"), "EUR", "Ada")
    assert [item.removal.name for item in batch.items] == ["barrel", "oil jet", "oilway plug"]
    barrel, jet, plug = batch.items
    assert barrel.off == ("2 bearing",)
    assert (barrel.away.work, barrel.away.asks) == ("Rebore and hone.", (BORE,))
    assert (jet.removal.quantity, jet.by_shop_of) == (3, case["barrel"])
    assert {jet.removal.origin, plug.removal.origin} == {Origin.SHOP}
    assert all(item.away.due == FORM.promised and item.code for item in batch.items)
    found = services.tags.look_up(store, whole.code)
    assert (found.leads, found.send_out_id, found.job_id) == (Leads.SEND_OUT, sent, job_id)
    assert found.tag.role is TagRole.SEND_OUT


def test_what_the_shop_took_off_goes_in_after_its_part_and_waits_for_it(store, job_id, items):
    board = services.board.board(store, job_id)
    names = [step.name for step in board.steps]
    assert names == ["shaft", "barrel", "oilway plug", "oil jet", "bearing", "cover"]
    jet = items()["oil jet"].removal
    assert board.step_of(jet.id).standing is Standing.AWAY
    assert jet.number == "2a"


def test_a_kind_that_is_always_renewed_is_so_when_the_shop_took_it_off(store, job_id, case):
    wanted = Wanted(case["barrel"], by_shop=(ShopPart("oil seal"),))
    services.send_outs.send(store, job_id, FORM, [wanted])
    seal = services.strip.find_removal(store, job_id, "2a")
    assert (seal.name, seal.fate) == ("oil seal", Fate.RENEW)


def test_all_of_a_batch_is_undone_and_done_again_as_one(store, job_id, case):
    before = all_rows(store)
    wanted = Wanted(case["barrel"], off=(case["bearing"],), by_shop=(ShopPart("jet"),))
    services.send_outs.send(store, job_id, FORM, [wanted])
    after = all_rows(store)
    services.history.undo(store, job_id)
    assert all_rows(store) == before
    services.history.redo(store, job_id)
    assert all_rows(store) == after
    assert services.check.check(store).findings == ()


def test_nothing_is_kept_of_a_batch_with_one_part_that_cannot_go(store, job_id, case, sent):
    other = services.jobs.open_job(store, services.jobs.JobForm("Mower")).new_id
    services.signing.sign(store, part(case["shaft"]), who="Ada")
    services.fates.set_fate(store, [case["cover"]], Fate.SCRAP)
    before = all_rows(store)
    bearing = Wanted(case["bearing"])
    for job, wrong, said in (
        (job_id, Wanted(case["barrel"]), "3 barrel is away already, with send-out 1, Mill Lane"),
        (job_id, Wanted(case["shaft"]), "4 shaft is in already"),
        (job_id, Wanted(case["cover"]), "1 cover is scrapped"),
        (job_id, bearing, "2 bearing is packed twice"),
        (other, bearing, "not in this job"),
        (job_id, Wanted(9999), "not in this job"),
    ):
        with pytest.raises(BadInput, match=said):
            services.send_outs.send(store, job, FORM, [bearing, wrong])
    assert all_rows(store) == before
    why_not = services.send_outs.why_not(store, list(case.values()))
    assert sorted(why_not) == sorted([case["barrel"], case["shaft"], case["cover"]])


def test_two_parts_cannot_each_have_been_taken_off_the_other(store, job_id, case, sent):
    with pytest.raises(BadInput, match="3 barrel cannot be taken off 2 bearing"):
        services.send_outs.send(
            store, job_id, FORM, [Wanted(case["bearing"], off=(case["barrel"],))]
        )


# Changing it


def test_an_edit_is_followed_by_the_parts(store, job_id, sent, items):
    was = services.send_outs.get_send_out(store, sent)
    before = items()["barrel"].away.sent_at
    assert services.send_outs.edit(store, sent, FORM).touched == {}
    later = replace(FORM, shop="Toolmaker", promised=TODAY + timedelta(20), price="")
    services.send_outs.edit(store, sent, later)
    now = services.send_outs.get_send_out(store, sent)
    assert (now.shop, now.price, now.code) == ("Toolmaker", None, was.code)
    assert {item.away.shop for item in items().values()} == {"Toolmaker"}
    assert {item.away.due for item in items().values()} == {later.promised}
    assert items()["barrel"].away.sent_at == before
    gone = TODAY - timedelta(3)
    services.send_outs.edit(store, sent, replace(later, out_on=gone))
    assert items()["barrel"].away.sent_at.date() == gone
    with pytest.raises(BadInput, match="before it goes out"):
        services.send_outs.edit(store, sent, replace(later, promised=TODAY - timedelta(1)))


def test_more_goes_with_it_and_a_part_too_many_does_not(store, job_id, case, sent, items):
    services.send_outs.add_wanted(store, sent, [Wanted(case["shaft"], "polish")])
    assert list(items()) == ["barrel", "oil jet", "oilway plug", "shaft"]
    services.send_outs.drop_item(store, items()["barrel"].away.id)
    assert list(items()) == ["shaft"]
    log = services.strip.log_ids(store, job_id)
    assert sorted(log) == sorted(case.values())  # the jets are on the barrel still
    services.send_outs.drop_item(store, items()["shaft"].away.id)
    assert services.send_outs.batches(store, job_id) == ()
    with pytest.raises(NotFound):
        services.send_outs.batch(store, sent)
    assert services.check.check(store).findings == ()


def test_what_is_wanted_is_written_anew(store, job_id, case, sent, items):
    batch = services.send_outs.batch(store, sent)
    item = items()["barrel"]
    wanted = services.send_outs.wanted_of(batch, item)
    takes = (ShopPart("oil jet", 3), ShopPart("oilway plug"))
    assert wanted == Wanted(case["barrel"], "Rebore and hone.", (BORE,), (case["bearing"],), takes)
    assert services.send_outs.change_wanted(store, item.away.id, wanted).touched == {}
    jet = items()["oil jet"]
    other = (ShopPart("Oil jet", 4), ShopPart("dowel", 2))
    changed = replace(wanted, work="Hone only.", asks=(), off=(), by_shop=other)
    services.send_outs.change_wanted(store, item.away.id, changed)
    assert list(items()) == ["barrel", "oil jet", "dowel"]
    now = items()["barrel"]
    assert (now.away.work, now.away.asks, now.off) == ("Hone only.", (), ())
    again = items()["oil jet"]
    assert (again.removal.id, again.code, again.removal.quantity) == (jet.removal.id, jet.code, 4)
    assert services.check.check(store).findings == ()


def test_the_shop_took_something_more_off_later_too(store, job_id, case, sent, items):
    made = services.send_outs.shop_took(store, sent, case["barrel"], "stud", 2, who="Ada")
    stud = items()["stud"]
    assert (stud.removal.id, stud.removal.quantity) == (made.new_id, 2)
    assert (stud.by_shop_of, stud.is_out) == (case["barrel"], True)
    services.send_outs.back(store, [Back(items()["barrel"].away.id)])
    services.send_outs.shop_took(store, sent, case["barrel"], "core plug")
    assert items()["core plug"].is_out
    with pytest.raises(NotFound, match="not in this send-out"):
        services.send_outs.shop_took(store, sent, case["cover"], "stud")


def test_a_batch_that_did_not_go_leaves_nothing_and_comes_back_by_undo(store, job_id, case, sent):
    code = services.send_outs.get_send_out(store, sent).code
    services.documents.add(store, sent, [("quote.pdf", b"%PDF-1.7 140.50")])
    before = all_rows(store)
    services.send_outs.delete(store, sent)
    assert sorted(services.strip.log_ids(store, job_id)) == sorted(case.values())
    with pytest.raises(NotFound):
        services.tags.look_up(store, code)
    services.history.undo(store, job_id)
    assert all_rows(store) == before


# Coming back


def test_those_named_are_back_and_the_others_stay_away(store, job_id, case, sent, items):
    barrel, jet = items()["barrel"], items()["oil jet"]
    over = Back(barrel.away.id, ALL, (Figure("bore", 76.55),), "too wide", decide=True)
    assert services.send_outs.against(over, barrel)[0] == "3 barrel: bore 76.55 mm is above 76.52."
    services.send_outs.back(store, [over, Back(jet.away.id, (BackCheck.CLEAN,))], who="Ben")
    now = items()
    assert {name for name, item in now.items() if item.is_out} == {"oilway plug"}
    assert (now["barrel"].away.back_by, now["barrel"].away.back_note) == ("Ben", "too wide")
    assert now["barrel"].away.figures == (Figure("bore", 76.55, "mm", 76.50, 76.52),)
    assert now["barrel"].away.checks == (BackCheck.WORK, BackCheck.CLEAN, BackCheck.PLUGS)
    assert now["barrel"].removal.fate is Fate.DECIDE
    assert now["oil jet"].removal.fate is Fate.REFIT
    assert services.send_outs.batch(store, sent).out[0].removal.name == "oilway plug"
    with pytest.raises(BadInput, match="3 barrel is back already"):
        services.send_outs.back(store, [over])
    with pytest.raises(BadInput, match="is back already"):
        services.send_outs.drop_item(store, barrel.away.id)
    with pytest.raises(BadInput, match="so the send-out did go"):
        services.send_outs.delete(store, sent)


def test_what_is_not_as_wanted_is_not_decided_by_itself(store, items):
    barrel = items()["barrel"]
    services.send_outs.back(store, [Back(barrel.away.id, (), (Figure("bore", 90),))])
    assert items()["barrel"].removal.fate is Fate.REFIT


def test_a_check_in_of_nothing_or_of_one_twice_is_refused(store, items):
    one = Back(items()["barrel"].away.id)
    for wrong, said in (([], "which parts are back"), ([one, one], "named twice")):
        with pytest.raises(BadInput, match=said):
            services.send_outs.back(store, wrong)
    with pytest.raises(NotFound):
        services.send_outs.back(store, [Back(9999)])


def test_each_scan_at_the_check_in_says_what_it_is(store, job_id, case, sent, items, log):
    second = services.send_outs.send(store, job_id, FORM, [Wanted(case["shaft"])]).new_id
    codes = {item.removal.name: item.code for item in items().values()}
    (other,) = services.send_outs.batch(store, second).items
    services.send_outs.back(store, [Back(items()["oil jet"].away.id)])
    bag = services.containers.add_container(
        store, job_id, services.containers.ContainerKind.BAG
    ).new_id
    (row,) = services.containers.list_containers(store, job_id)
    assert row.container.id == bag
    _, (blank,) = services.tags.make_blank(store, 1)
    of_cover = services.views.card(store, case["cover"]).code
    own = services.send_outs.get_send_out(store, sent).code
    for code, away_id, said in (
        (codes["barrel"], items()["barrel"].away.id, "3 barrel is of this send-out."),
        (codes["oil jet"], None, "2a oil jet is back already, since"),
        (other.code, None, "it went with send-out 2, Mill Lane Engineering. Check it in there."),
        (of_cover, None, "1 cover is not away"),
        (own, None, "is the code of this send-out itself"),
        (row.code, None, "is the tag of a container"),
        (blank, None, "is a blank tag"),
        ("ABC", None, "6"),
        ("", None, "6"),
    ):
        found = services.send_outs.scanned(store, sent, code)
        assert (found.away_id, said in found.sentence) == (away_id, True), found
    assert "another send-out" in services.send_outs.scanned(store, second, own).sentence


# What is late


def test_what_is_late_is_told_over_all_jobs_the_latest_first(store, job_id, case, sent, log):
    mower = services.jobs.open_job(store, services.jobs.JobForm("Mower")).new_id
    blade = services.strip.log_removal(store, mower, Entry("blade")).new_id
    form = replace(FORM, out_on=TODAY - timedelta(40), promised=TODAY - timedelta(30))
    services.send_outs.send(store, mower, form, [Wanted(blade)])
    assert [one.days for one in services.send_outs.late(store, TODAY)] == [30]
    day = FORM.promised + timedelta(1)
    late = services.send_outs.late(store, day)
    assert [(one.called, one.job_title, one.days) for one in late] == [
        ("send-out 1, Mill Lane Engineering", "Mower", 40),
        ("send-out 1, Mill Lane Engineering", "Walking tractor, gearbox", 1),
    ]
    batch = services.send_outs.batch(store, sent)
    services.send_outs.back(store, [Back(item.away.id) for item in batch.out])
    assert [one.job_title for one in services.send_outs.late(store, day)] == ["Mower"]


# Older stores


@pytest.fixture
def old(store, job_id, case):
    """Parts that went before there were batches."""
    ids = [case["shaft"], case["cover"]]
    services.fates.send_away(store, ids, shop="Mill Lane", work="grind", due=TODAY)
    with store.engine.begin() as connection:
        connection.execute(update(away).values(send_out_id=None))
    services.send_outs.delete(store, 1)
    return ids


def test_parts_without_a_batch_show_and_come_back_too(store, job_id, case, old):
    (loose,) = services.send_outs.batches(store, job_id)
    assert (loose.send_out, loose.shop, loose.promised) == (None, "Mill Lane", TODAY)
    shaft = loose.items[0]
    tomorrow = TODAY + timedelta(1)
    late = services.send_outs.late(store, tomorrow)
    assert {(one.send_out_id, one.called) for one in late} == {(None, "4 shaft"), (None, "1 cover")}
    assert services.send_outs.scanned(store, None, shaft.code).away_id == shaft.away.id
    assert services.send_outs.why_not(store, old)[case["shaft"]].startswith(
        "4 shaft is away already, at Mill Lane."
    )
    services.send_outs.change_wanted(store, shaft.away.id, Wanted(case["shaft"], "polish"))
    takes = Wanted(case["shaft"], by_shop=(ShopPart("key"),))
    with pytest.raises(BadInput, match="went without a send-out"):
        services.send_outs.change_wanted(store, shaft.away.id, takes)
    services.send_outs.back(store, [Back(shaft.away.id)])
    services.fates.came_back(store, [case["cover"], case["shaft"]])
    assert services.send_outs.batches(store, job_id) == ()
    assert services.fates.came_back(store, old).touched == {}


# The short way


def test_the_short_way_makes_a_batch_of_its_own(store, job_id, case):
    past = TODAY - timedelta(2)
    services.fates.send_away(store, [case["barrel"]], shop="Mill Lane", work="hone", due=past)
    (batch,) = services.send_outs.batches(store, job_id)
    assert (batch.send_out.out_on, batch.promised, batch.days_late(TODAY)) == (past, past, 2)
    assert [item.away.work for item in batch.items] == ["hone"]
    services.fates.came_back(store, [case["barrel"]], who="Ben")
    (batch,) = services.send_outs.batches(store, job_id)
    assert (batch.out, batch.back[0].away.back_by) == ((), "Ben")


def test_a_line_that_leaves_the_log_takes_its_send_out_with_it_once_that_is_empty(
    store, job_id, sent, items
):
    before = all_rows(store)
    barrel, *pieces = (item.removal.id for item in items().values())
    for removal_id in (barrel, *pieces):
        assert len(services.send_outs.batches(store, job_id)) == 1
        services.strip.delete_removal(store, removal_id)
    assert services.send_outs.batches(store, job_id) == ()
    assert services.check.check(store).sound
    for _ in range(1 + len(pieces)):
        services.history.undo(store, job_id)
    assert all_rows(store) == before
