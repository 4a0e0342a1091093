"""New parts from the day they are wanted until they are compared with the old ones."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bagtag import services
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import part as ref
from bagtag.domain.hardware import HeldBy
from bagtag.domain.measuring.sheet import Limits, Reading, SheetKind
from bagtag.domain.model import Fate, Replacement
from bagtag.domain.new_part import NewPart
from bagtag.services import renewals
from bagtag.services.renewals import Why
from bagtag.store.work import Store

ON = date(2026, 11, 20)


@pytest.fixture
def seal(log) -> int:
    return log("oil seal", fate=Fate.RENEW, size="25x42x7", quantity=3)


@pytest.fixture
def line(store, job_id):
    """The first line as it stands now."""

    def read():
        return renewals.lines(store, job_id)[0]

    return read


def kept(store, removal_id: int) -> Replacement:
    return services.strip.get_removal(store, removal_id).replacement


def free(job_id: int, **fields) -> NewPart:
    return NewPart(0, "", job_id, **{"what": "rags"} | fields)


def test_a_line_is_written_by_the_first_act_on_it(store, line, seal) -> None:
    assert line().new_part.id == 0
    renewals.order(store, [line().new_part], ON, date(2026, 12, 4), who="Ada")
    part = line().new_part
    assert (part.id > 0, part.uid != "", part.removal_id) == (True, True, seal)
    assert (part.ordered_on, part.due) == (ON, date(2026, 12, 4))
    assert kept(store, seal) is Replacement.ORDERED


def test_from_wanted_to_compared(store, line, seal) -> None:
    renewals.order(store, [line().new_part], ON)
    renewals.arrive(store, line().new_part, 2, ON)
    assert (kept(store, seal), line().still) == (Replacement.ORDERED, 1)
    renewals.arrive(store, line().new_part, 1, ON)
    assert kept(store, seal) is Replacement.HERE
    assert line().said == "here since 20 Nov"
    assert line().old_part == "compare them with the old ones on the bench"
    renewals.compare(store, line().new_part, True, "same lip", who="Ada")
    part = line().new_part
    assert (part.compared_by, part.compared_note) == ("Ada", "same lip")
    assert line().old_part == ""


def test_a_wrong_part_goes_back_and_is_wanted_again(store, line, seal) -> None:
    renewals.order(store, [line().new_part], ON, date(2026, 11, 24))
    renewals.arrive(store, line().new_part, 3, ON)
    renewals.wrong(store, line().new_part, "2 mm too wide", ON, count=1)
    part = line().new_part
    assert (part.arrived, part.ordered_on, part.due) == (2, None, None)
    assert (part.returned_on, part.returned_why) == (ON, "2 mm too wide")
    assert kept(store, seal) is Replacement.WANTED
    assert line().said == "wanted again, a wrong one went back 20 Nov (2 mm too wide), 2 of 3 here"
    renewals.order(store, [line().new_part], ON)
    renewals.arrive(store, line().new_part, 1, ON)
    assert kept(store, seal) is Replacement.HERE


def test_one_that_is_not_the_same_goes_back(store, line, seal) -> None:
    renewals.arrive(store, line().new_part, 3, ON)
    with pytest.raises(BadInput, match="Say what is wrong"):
        renewals.compare(store, line().new_part, False)
    renewals.compare(store, line().new_part, False, "lip on the wrong side")
    part = line().new_part
    assert (part.arrived, part.arrived_on, part.compared_at) == (0, None, None)
    assert part.returned_why == "lip on the wrong side"


def test_every_act_can_be_undone_with_what_the_part_says(store, job_id, line, seal) -> None:
    renewals.order(store, [line().new_part], ON)
    renewals.arrive(store, line().new_part, 3, ON)
    services.history.undo(store, job_id)
    assert (kept(store, seal), line().state) == (Replacement.ORDERED, Replacement.ORDERED)
    services.history.undo(store, job_id)
    assert (kept(store, seal), line().new_part.id) == (Replacement.WANTED, 0)
    services.history.redo(store, job_id)
    assert kept(store, seal) is Replacement.ORDERED


def test_what_is_said_of_a_line_is_kept_and_what_has_come_stays(store, job_id, line, seal) -> None:
    stale = line().new_part
    renewals.arrive(store, stale, 3, ON)
    change = renewals.save(
        store,
        NewPart(0, "", job_id, seal, "", " oil  seal ", "25x42x7", "S-1", "Mill Lane", 4,
                Decimal("3.20"), "€", note="lip to the oil"),
        who="Ada",
    )  # fmt: skip
    part = line().new_part
    assert (part.what, part.part_number, part.supplier) == ("oil seal", "S-1", "Mill Lane")
    assert (part.count, part.price, part.currency) == (4, Decimal("3.20"), "EUR")
    assert (part.arrived, part.arrived_on) == (3, ON)
    assert kept(store, seal) is Replacement.WANTED
    assert change.touches("renewal")
    assert change.touches("removal")


def test_what_was_counted_wrong_is_counted_anew(store, job_id, line, seal) -> None:
    renewals.arrive(store, line().new_part, 3, ON)
    renewals.compare(store, line().new_part, is_same=True, who="Ada")
    renewals.save(store, line().new_part, arrived=2)
    part = line().new_part
    assert (part.arrived, part.arrived_on, part.compared_by) == (2, ON, "Ada")
    assert kept(store, seal) is Replacement.WANTED
    for wrong in (-1, 4):
        with pytest.raises(BadInput, match="from 0 to 3") as caught:
            renewals.save(store, part, arrived=wrong)
        assert caught.value.field == "arrived"
    renewals.save(store, part, arrived=0)
    part = line().new_part
    assert (part.arrived, part.arrived_on, part.compared_at, part.compared_by) == (
        0,
        None,
        None,
        "",
    )
    services.history.undo(store, job_id)
    assert line().new_part.arrived == 2


def test_a_line_of_no_part(store, job_id, line) -> None:
    renewals.save(store, free(job_id, count=2))
    assert (line().why, line().new_part.count, line().removal) == (Why.ADDED, 2, None)
    renewals.remove(store, line().new_part)
    assert renewals.lines(store, job_id) == ()
    services.history.undo(store, job_id)
    assert line().new_part.what == "rags"


def test_hardware_new_each_time_has_a_state_of_its_own(store, job_id, log, line) -> None:
    bolts = HeldBy(6, thread="M8", length=30, grade="10.9", one_time=True)
    cover = log("cover", held_by=(bolts,))
    renewals.arrive(store, line().new_part, 6, ON)
    assert (line().state, line().why) == (Replacement.HERE, Why.ONE_TIME)
    assert kept(store, cover) is Replacement.WANTED
    with pytest.raises(BadInput, match="Change its hardware instead"):
        renewals.remove(store, line().new_part)


def test_a_line_that_its_part_asks_for_cannot_be_taken_out(store, job_id, line, seal) -> None:
    renewals.order(store, [line().new_part], ON)
    with pytest.raises(BadInput, match="1 oil seal is to be renewed"):
        renewals.remove(store, line().new_part)
    services.fates.set_fate(store, [seal], Fate.REFIT)
    assert (line().is_suggestion, line().said) == (True, "ordered 20 Nov")
    renewals.remove(store, line().new_part)
    assert (line().new_part.id, line().said) == (0, "not on the list yet")
    assert kept(store, seal) is Replacement.WANTED


def test_a_suggestion_is_taken(store, job_id, log, line) -> None:
    gasket = log("head gasket")
    assert (line().is_suggestion, line().why) == (True, Why.KIND)
    renewals.accept(store, line())
    assert services.strip.get_removal(store, gasket).fate is Fate.RENEW
    assert not line().is_suggestion
    with pytest.raises(BadInput, match="in the list already"):
        renewals.accept(store, line())


def test_a_sheet_out_of_its_limits_suggests_until_it_is_decided(store, job_id, log, line) -> None:
    shaft = log("input shaft", fate=Fate.DECIDE)
    made = services.measuring.add_sheet(store, job_id, SheetKind.SIZE, shaft, who="Ada").new_id
    sheet = services.measuring.get_sheet(store, made)
    form = services.measuring.view(store, made).form
    sheet = type(sheet)(
        **{name: getattr(sheet, name) for name in sheet.__slots__}
        | {
            "readings": (
                Reading(form.places[0].key, Decimal("19.90"), resolution=Decimal("0.01")),
            ),
            "limits": (Limits("size", wear_low=Decimal("19.95")),),
        }
    )
    services.measuring.save(store, sheet, who="Ada")
    assert (line().is_suggestion, line().why) == (True, Why.MEASURED)
    assert "19.9" in line().because
    services.measuring.decide(store, made, Fate.RENEW, who="Ada")
    assert (line().is_suggestion, line().why) == (False, Why.MEASURED)


def test_what_is_fitted_says_so(store, job_id, log, line) -> None:
    ring = log("snap ring", fate=Fate.RENEW)
    renewals.arrive(store, line().new_part, 1, ON)
    services.signing.sign(store, ref(ring), who="Ada")
    assert (line().is_in, line().said) == (True, "in")


def test_the_word_for_a_state_writes_the_line_too(store, line, seal) -> None:
    today = date.today()
    for state, arrived, ordered in (
        (Replacement.ORDERED, 0, today),
        (Replacement.HERE, 3, today),
        (Replacement.ORDERED, 0, today),
        (Replacement.WANTED, 0, None),
    ):
        services.fates.set_replacement(store, [seal], state)
        part = line().new_part
        assert (kept(store, seal), part.state) == (state, state)
        assert (part.arrived, part.ordered_on) == (arrived, ordered)


def test_a_state_that_holds_already_is_no_act(store, seal) -> None:
    assert not services.fates.set_replacement(store, [seal], Replacement.WANTED).touched


def test_what_cannot_be_done_is_said(store, job_id, line, seal) -> None:
    part = line().new_part
    for sentence, act in (
        ("Choose at least one line", lambda: renewals.order(store, [], ON)),
        ("due 2026-11-02, before", lambda: renewals.order(store, [part], ON, date(2026, 11, 2))),
        ("Only 3 of 3", lambda: renewals.arrive(store, part, 4, ON)),
        ("from 1 to 9999", lambda: renewals.arrive(store, part, 0, ON)),
        ("Say what is wrong", lambda: renewals.wrong(store, part, " ", ON)),
        ("none can go back", lambda: renewals.wrong(store, part, "bent", ON)),
        ("nothing to compare", lambda: renewals.compare(store, part, True)),
        ("Say what is bought", lambda: renewals.save(store, free(job_id, what=""))),
    ):
        with pytest.raises(BadInput, match=sentence):
            act()
    assert line().new_part.id == 0
    renewals.arrive(store, part, 3, ON)
    with pytest.raises(BadInput, match="is here already"):
        renewals.order(store, [line().new_part], ON)
    with pytest.raises(BadInput, match="from 1 to 3"):
        renewals.wrong(store, line().new_part, "bent", ON, count=4)


def test_lines_of_two_jobs_are_not_one_order(store, job_id, line, seal) -> None:
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    with pytest.raises(BadInput, match="job by job"):
        renewals.order(store, [line().new_part, free(other)], ON)
    with pytest.raises(BadInput, match="not in this job"):
        renewals.save(store, free(other, removal_id=seal))


def test_a_line_that_is_gone_is_said(store, job_id, line) -> None:
    renewals.save(store, free(job_id))
    part = line().new_part
    renewals.remove(store, part)
    for act in (lambda: renewals.order(store, [part], ON), lambda: renewals.save(store, part)):
        with pytest.raises(NotFound, match="no longer in the list"):
            act()
    with pytest.raises(NotFound):
        renewals.save(store, free(job_id, removal_id=99))


def test_the_order_list_of_two_jobs(store, job_id, log, line, seal) -> None:
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    mine = free(other, what="oil seal", size="25x42x7", supplier="Mill Lane", price=Decimal(2))
    renewals.save(store, mine)
    assert [len(one.lines) for one in renewals.merged(store, [job_id, other])] == [1, 1]
    part = line().new_part
    renewals.save(
        store, NewPart(**{n: getattr(part, n) for n in part.__slots__} | {"supplier": "Mill Lane"})
    )
    (only,) = renewals.merged(store, [job_id, other, other])
    (merged,) = only.lines
    assert (merged.count, merged.sum) == (4, 8)
    assert merged.for_ == ("job 1: 1 oil seal (step 1)", "job 2")
    renewals.order(store, [line().new_part], ON)
    (only,) = renewals.merged(store, [job_id, other])
    assert only.lines[0].count == 1
    (only,) = renewals.merged(store, [job_id, other], everything=True)
    assert only.lines[0].count == 4
    assert renewals.merged(store, [job_id]) == ()


def test_a_table_written_read_and_taken_in(store, job_id, line, seal, tmp_path) -> None:
    file = tmp_path / "orders.csv"
    assert renewals.write_csv(store, [job_id], file, ";") == 1
    text = file.read_text("utf-8-sig").replace(";3;", ";4;") + "rags;;;2;;\n=1+2;;;1;;\n"
    plan = renewals.plan_import(store, job_id, renewals.read_csv(text.encode()))
    assert [part.what for part in plan.new] == ["rags", "=1+2"]
    change = renewals.apply_import(store, plan, who="Ada")
    assert change.act == "read 3 lines from a file"
    assert line().new_part.count == 4
    again = renewals.plan_import(store, job_id, renewals.read_csv(text.encode()))
    assert (again.does_something, again.alike) == (False, 3)
    with pytest.raises(BadInput, match="Nothing in this file is new"):
        renewals.apply_import(store, again)
    services.history.undo(store, job_id)
    assert [one.new_part.id for one in renewals.lines(store, job_id)] == [0]


def test_files_that_cannot_be_read_or_written_are_said(store, job_id, tmp_path) -> None:
    with pytest.raises(BadInput, match="cannot be read"):
        renewals.read_csv(tmp_path / "none.csv")
    with pytest.raises(BadInput, match="cannot be written"):
        renewals.write_csv(store, [job_id], tmp_path / "none" / "orders.csv")
    with pytest.raises(BadInput, match="comma, semicolon, tab"):
        renewals.write_csv(store, [job_id], tmp_path / "orders.csv", "|")


def test_a_thousand_lines_are_one_act(store, job_id) -> None:
    body = "".join(f"jet {n},,J-{n},1,Mill Lane,1.5\n" for n in range(1000))
    plan = renewals.plan_import(store, job_id, renewals.read_csv(body.encode()))
    change = renewals.apply_import(store, plan)
    lines = renewals.lines(store, job_id)
    assert [one.new_part.what for one in lines] == [f"jet {n}" for n in range(1000)]
    ids = [one.new_part.id for one in lines]
    assert (len(set(ids)), change.new_id, change.touched["renewal"]) == (1000, ids[0], set(ids))
    assert len({one.new_part.uid for one in lines}) == 1000
    services.history.undo(store, job_id)
    assert renewals.lines(store, job_id) == ()


ACTS = st.lists(
    st.sampled_from(["order", "arrive", "wrong", "compare", "save", "more", "word", "undo"]),
    max_size=12,
)


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(ACTS, st.data())
def test_a_part_always_says_what_its_line_says(tmp_path_factory, acts, data) -> None:
    store = Store.in_folder(tmp_path_factory.mktemp("store"))
    job_id = services.jobs.open_job(store, services.jobs.JobForm("Walking tractor")).new_id
    entry = services.strip.Entry("ring", quantity=2, fate=Fate.RENEW)
    ring = services.strip.log_removal(store, job_id, entry, services.strip.Extras()).new_id
    for name in acts:
        (line,) = renewals.lines(store, job_id)
        try:
            _do(store, job_id, name, line.new_part, data)
        except BadInput:
            assert renewals.lines(store, job_id) == (line,)
        (line,) = renewals.lines(store, job_id)
        assert line.state is kept(store, ring)
        assert line.new_part.arrived >= 0
    store.close()


def _do(store, job_id: int, name: str, part: NewPart, data) -> None:
    more = NewPart(**{n: getattr(part, n) for n in part.__slots__} | {"count": part.count + 1})
    word = data.draw(st.sampled_from(Replacement)) if name == "word" else Replacement.HERE
    {
        "order": lambda: renewals.order(store, [part], ON),
        "arrive": lambda: renewals.arrive(store, part, 1, ON),
        "wrong": lambda: renewals.wrong(store, part, "bent", ON, count=1),
        "compare": lambda: renewals.compare(store, part, True, who="Ada"),
        "save": lambda: renewals.save(store, part),
        "more": lambda: renewals.save(store, more),
        "word": lambda: services.fates.set_replacement(store, [part.removal_id], word),
        "undo": lambda: services.history.undo(store, job_id) if part.id else None,
    }[name]()
