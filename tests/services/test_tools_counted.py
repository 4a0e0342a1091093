"""Tools laid out for a build and counted back, one act each."""

import pypdfium2
import pytest

from bagtag import services
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import part
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.tools import ToolKind
from bagtag.domain.wrench import Wrench
from bagtag.services.tools import Span

BOLTS = HeldBy(4, "bolt", "M8", 30, drive="13 mm hex", torque=Torque(24))
SCREWS = HeldBy(6, "screw", "M5", 12, drive="T25")


@pytest.fixture
def steps(log, store, job_id):
    """A cover in one area, a plate in another; off in this order."""
    gearbox = services.jobs.add_area(store, job_id, "gearbox").new_id
    outside = services.jobs.add_area(store, job_id, "outside").new_id
    return {
        "cover": log("gearbox cover", held_by=(BOLTS,), area_id=gearbox),
        "plate": log("number plate", held_by=(SCREWS,), area_id=outside),
        "seal": log("oil seal", area_id=gearbox),
    }


def names(sheet) -> list[str]:
    return [row.name for row in sheet.rows]


def lay_out(store, job_id, *names_: str):
    return services.tools.take_out(store, job_id, names_, who="Ada")


# What to lay out


def test_the_whole_build_one_area_and_the_next_steps(store, job_id, steps):
    whole = services.tools.lay_out(store, job_id)
    assert {"13 mm socket", "T25 bit", "torque wrench for 24 N·m", "seal driver"} <= {*names(whole)}
    assert (whole.steps, whole.span) == (3, "the whole build")
    area_id = services.jobs.find_area(store, job_id, "outside").id
    one = services.tools.lay_out(store, job_id, Span(area_id))
    assert (names(one), one.steps, one.span) == (["T25 bit"], 1, "outside")
    next_ = services.tools.lay_out(store, job_id, Span(steps=1))
    assert (next_.steps, next_.span) == (1, "the next step that can go in now")
    assert "seal driver" in names(next_)
    several = services.tools.lay_out(store, job_id, Span(area_id, 5))
    assert (several.steps, several.span) == (1, "the next 5 steps that can go in now, outside")


def test_what_is_signed_off_needs_no_tools_any_more(store, job_id, steps):
    services.signing.sign(store, part(steps["plate"]), who="Ada")
    assert "T25 bit" not in names(services.tools.lay_out(store, job_id))


def test_a_final_tightening_takes_the_wrench_with_it(store, job_id, steps):
    services.tasks.tighten_later(store, steps["cover"], part(steps["plate"]))
    (row,) = services.tools.lay_out(store, job_id).of(ToolKind.TORQUE)
    assert [step.called for step in row.steps] == ["final torque of 1 gearbox cover"]


def test_the_bench_s_wrenches_are_taken_where_they_suit(store, job_id, steps):
    services.wrenches.add_wrench(store, Wrench("middle wrench", 10, 60, step=1))
    assert "middle wrench" in names(services.tools.lay_out(store, job_id))


def test_special_tools_are_noted_of_a_part(store, job_id, steps):
    services.tools.note_special(store, steps["seal"], " seal  sleeve, depth stop ", who="Ada")
    found = services.tools.lay_out(store, job_id).of(ToolKind.SPECIAL)
    assert [(row.name, row.steps[0].called) for row in found] == [
        ("depth stop", "3 oil seal"),
        ("seal sleeve", "3 oil seal"),
    ]
    services.history.undo(store, job_id)
    assert services.tools.lay_out(store, job_id).of(ToolKind.SPECIAL) == ()


@pytest.mark.parametrize(
    ("span", "said"),
    [
        (Span(area_id=999), "no longer in the job"),
        (Span(steps=0), "the next 1 to 999 steps"),
        (Span(steps=-3), "the next 1 to 999 steps"),
        (Span(steps=1000), "the next 1 to 999 steps"),
    ],
)
def test_a_span_that_cannot_be_is_refused(store, job_id, span, said):
    with pytest.raises(BadInput, match=said):
        services.tools.lay_out(store, job_id, span)


def test_a_job_that_is_gone_is_said(store, job_id):
    with pytest.raises(NotFound):
        services.tools.lay_out(store, job_id + 1)


def words(file) -> str:
    with pypdfium2.PdfDocument(file) as pdf:
        return pdf[0].get_textpage().get_text_bounded()


def test_the_list_is_a_page_to_lay_the_bench_by(store, job_id, steps, tmp_path):
    assert services.tools.write(store, job_id, tmp_path / "tools.pdf") == 1
    whole = words(tmp_path / "tools.pdf")
    assert "13 mm socket" in whole
    assert "T25 bit" in whole
    services.tools.write(store, job_id, tmp_path / "one.pdf", Span(steps=1))
    one = words(tmp_path / "one.pdf")
    assert "seal driver" in one
    assert "T25 bit" not in one
    shown = services.tools.preview(store, job_id, 400, 20, Span())
    assert [png[:4] for png in shown] == [b"\x89PNG"]
    assert len(services.tools.printed_pages(store, job_id, 72)) == 1


# Laid out and counted back


def test_tools_are_laid_out_in_one_act_and_counted_back_in_one(store, job_id):
    change = lay_out(store, job_id, "13 mm socket", "circlip pliers")
    out = services.tools.out_now(store, job_id)
    assert [(one.name, one.count, one.out_by) for one in out] == [
        ("13 mm socket", 1, "Ada"),
        ("circlip pliers", 1, "Ada"),
    ]
    assert change.act == "lay out 13 mm socket and circlip pliers"
    services.tools.count_back(store, [one.id for one in out], who="Ben")
    assert services.tools.out_now(store, job_id) == []
    services.history.undo(store, job_id)
    assert [one.name for one in services.tools.out_now(store, job_id)] == [
        "13 mm socket",
        "circlip pliers",
    ]
    services.history.undo(store, job_id)
    assert services.tools.out_now(store, job_id) == []


def test_who_counted_a_tool_back_and_when_is_kept(store, job_id):
    lay_out(store, job_id, "lamp")
    (one,) = services.tools.out_now(store, job_id)
    services.tools.count_back(store, [one.id], who="Ben")
    from bagtag.store import joints

    with store.read() as connection:
        kept = joints.get_tool(connection, one.id)
    assert (kept.back_by, kept.back_at is not None) == ("Ben", True)


def test_one_that_is_out_already_is_one_more_of_it(store, job_id):
    lay_out(store, job_id, "13 mm spanner", "13 MM  Spanner", "rag")
    lay_out(store, job_id, "13 mm SPANNER")
    out = services.tools.out_now(store, job_id)
    assert [(one.name, one.count) for one in out] == [("13 mm spanner", 3), ("rag", 1)]
    services.history.undo(store, job_id)
    assert services.tools.out_now(store, job_id)[0].count == 2


def test_of_several_one_is_counted_back_and_the_others_stay_out(store, job_id):
    lay_out(store, job_id, "lamp", "lamp", "lamp")
    (lamps,) = services.tools.out_now(store, job_id)
    services.tools.count_one_back(store, lamps.id, who="Ben")
    assert [one.count for one in services.tools.out_now(store, job_id)] == [2]
    services.history.undo(store, job_id)
    assert [one.count for one in services.tools.out_now(store, job_id)] == [3]
    for left in (2, 1, 0):
        services.tools.count_one_back(store, lamps.id, who="Ben")
        assert sum(one.count for one in services.tools.out_now(store, job_id)) == left
    with pytest.raises(BadInput, match="counted back already"):
        services.tools.count_one_back(store, lamps.id)
    assert services.check.check(store).sound


def test_one_that_came_back_is_laid_out_anew(store, job_id):
    lay_out(store, job_id, "lamp")
    (first,) = services.tools.out_now(store, job_id)
    services.tools.count_back(store, [first.id])
    lay_out(store, job_id, "lamp")
    (second,) = services.tools.out_now(store, job_id)
    assert (second.id != first.id, second.count) == (True, 1)


def test_many_tools_are_named_by_the_first_few(store, job_id):
    assert lay_out(store, job_id, *"abcde").act == "lay out a, b, c and 2 more"


@pytest.mark.parametrize(
    ("tools", "said"),
    [((), "Choose a tool"), (("lamp", "  "), "Write the tool's name"), (("x" * 201,), "201 char")],
)
def test_a_tool_without_a_name_is_refused_and_nothing_is_kept(store, job_id, tools, said):
    with pytest.raises(BadInput, match=said):
        lay_out(store, job_id, *tools)
    assert services.tools.out_now(store, job_id) == []


def test_more_than_a_bench_holds_is_refused(store, job_id):
    lay_out(store, job_id, *["pin"] * 999)
    with pytest.raises(BadInput, match="1000 of pin"):
        lay_out(store, job_id, "pin")


def test_what_is_back_already_or_never_was_out_is_refused(store, job_id):
    lay_out(store, job_id, "lamp", "rag")
    lamp, rag = services.tools.out_now(store, job_id)
    services.tools.count_back(store, [lamp.id])
    with pytest.raises(BadInput, match="lamp is counted back already"):
        services.tools.count_back(store, [rag.id, lamp.id])
    assert services.tools.out_now(store, job_id) == [rag]
    with pytest.raises(NotFound, match="no longer laid out"):
        services.tools.count_back(store, [999])
    with pytest.raises(BadInput, match="Choose what"):
        services.tools.count_back(store, [])


def test_each_job_has_its_own_bench(store, job_id):
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump"), who="Ada").new_id
    lay_out(store, job_id, "lamp")
    lay_out(store, other, "lamp")
    (one,), (two,) = (services.tools.out_now(store, id_) for id_ in (job_id, other))
    assert services.tools.lay_out(store, other).out == (two,)
    with pytest.raises(BadInput, match="different jobs"):
        services.tools.count_back(store, [one.id, two.id])


def test_it_is_kept_when_the_store_is_opened_again(store, job_id):
    from bagtag.store.work import Store

    lay_out(store, job_id, "lamp")
    again = Store(store.location)
    assert [one.name for one in services.tools.out_now(again, job_id)] == ["lamp"]
    again.close()
