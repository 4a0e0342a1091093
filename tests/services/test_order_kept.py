"""Rules, tasks, bench builds and sign-offs as they are kept: what is refused, what goes with it."""

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import (
    Anchor,
    Asked,
    Beside,
    Counted,
    RuleKind,
    TaskKind,
    part,
    task,
)
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate, Origin
from bagtag.domain.standing import Standing
from bagtag.services.jobs import JobForm
from bagtag.services.signing import SignForm
from bagtag.services.strip import Extras
from bagtag.services.tags import Leads
from bagtag.services.tasks import TaskForm

FIRST, UNTIL, TOGETHER = RuleKind.FIRST, RuleKind.UNTIL, RuleKind.TOGETHER


@pytest.fixture
def case(store, job_id, log):
    """A gear case: cover over gasket, gear, shaft and dowels, in the order off."""
    area = services.jobs.add_area(store, job_id, "gear case").new_id
    ids = {"cover": log("cover"), "gasket": log("gasket")}
    ids |= {name: log(name, area_id=area) for name in ("dowels", "gear", "shaft")}
    services.jobs.set_opener(store, area, ids["cover"])
    return {name: part(id_) for name, id_ in ids.items()}


def order(store, job_id) -> list[str]:
    return [step.name for step in services.board.board(store, job_id).steps]


def rule(store, job_id, kind, *members, why=""):
    return services.rules.add_rule(store, job_id, kind, members, why=why, who="Ada").new_id


def test_the_log_read_backwards_until_a_rule_says_otherwise(store, job_id, case):
    assert order(store, job_id) == ["shaft", "gear", "dowels", "gasket", "cover"]
    rule(store, job_id, FIRST, case["shaft"], case["dowels"], why="they guide it")
    assert order(store, job_id) == ["dowels", "shaft", "gear", "gasket", "cover"]
    said = services.board.reasons(store, job_id, case["dowels"], who="Ada")
    assert "5 shaft must have it in first" in said.forced[0]
    assert "they guide it" in said.forced[0]
    assert [row.in_force for row in said.rules] == [True]
    services.history.undo(store, job_id)
    assert order(store, job_id) == ["shaft", "gear", "dowels", "gasket", "cover"]
    services.history.redo(store, job_id)
    assert order(store, job_id)[0] == "dowels"
    assert services.check.check(store).sound


def test_a_circle_is_told_and_the_last_plan_stays(store, job_id, case):
    older = rule(store, job_id, FIRST, case["gear"], case["dowels"])
    good = order(store, job_id)
    newer = rule(store, job_id, UNTIL, case["dowels"], case["gear"], why="no room")
    board = services.board.board(store, job_id)
    assert [step.name for step in board.steps] == good
    assert board.no_order is not None
    assert "3 dowels must wait for 4 gear, by your rule of" in board.no_order.sentence
    assert "4 gear must have 3 dowels in first" in board.no_order.sentence
    assert [rule_id for rule_id, _ in board.no_order.rules] == [newer, older]
    assert [row.in_force for row in services.rules.rules_of(store, job_id)] == [False, True]
    services.rules.drop_rule(store, older, who="Ada")
    board = services.board.board(store, job_id)
    assert board.no_order is None
    assert [step.name for step in board.steps] != good
    services.history.undo(store, job_id)
    services.history.undo(store, job_id)
    assert services.board.board(store, job_id).no_order is None
    assert order(store, job_id) == good


@pytest.mark.parametrize("kind", [FIRST, UNTIL, TOGETHER])
def test_a_rule_to_itself_is_refused(store, job_id, case, kind):
    with pytest.raises(BadInput, match="3 dowels cannot be tied to itself"):
        rule(store, job_id, kind, case["dowels"], case["dowels"])


def test_a_rule_twice_is_refused(store, job_id, case):
    rule(store, job_id, FIRST, case["gasket"], case["dowels"])
    with pytest.raises(BadInput, match=r"there already: Fit 3 dowels before 2 gasket\."):
        rule(store, job_id, FIRST, case["gasket"], case["dowels"])
    rule(store, job_id, TOGETHER, case["gear"], case["shaft"])
    with pytest.raises(BadInput, match="there already"):
        rule(store, job_id, TOGETHER, case["shaft"], case["gear"])


def test_a_rule_to_a_scrapped_part_is_refused_and_an_older_one_sleeps(store, job_id, case):
    rule(store, job_id, FIRST, case["gasket"], case["dowels"])
    services.fates.set_fate(store, [case["dowels"].id], Fate.SCRAP)
    with pytest.raises(BadInput, match="3 dowels is scrapped and does not go back"):
        rule(store, job_id, UNTIL, case["gear"], case["dowels"])
    (row,) = services.rules.rules_of(store, job_id)
    assert (row.in_force, row.why_not) == (False, "3 dowels does not go back")
    assert "dowels" not in order(store, job_id)
    services.fates.set_fate(store, [case["dowels"].id], Fate.REFIT)
    assert services.rules.rules_of(store, job_id)[0].in_force


def test_a_rule_across_jobs_is_refused(store, job_id, case):
    other = services.jobs.open_job(store, JobForm("Lathe")).new_id
    theirs = part(services.strip.log_removal(store, other, Entry("chuck")).new_id)
    with pytest.raises(BadInput, match="steps of one job"):
        rule(store, job_id, FIRST, case["gear"], theirs)
    with pytest.raises(BadInput, match="not in this job"):
        services.tasks.add_task(
            store, job_id, TaskForm(TaskKind.OIL, anchor=Anchor(Beside.AFTER, theirs))
        )
    with pytest.raises(BadInput, match="not in this job"):
        services.tasks.make_bench_build(store, job_id, "cluster", [theirs])


def test_a_removal_that_rules_name_takes_them_with_it(store, job_id, case):
    rule(store, job_id, FIRST, case["gasket"], case["dowels"])
    rule(store, job_id, TOGETHER, case["dowels"], case["gear"], case["shaft"])
    change = services.strip.delete_removal(store, case["dowels"].id, who="Ada")
    assert change.act == "delete 3 dowels and 1 rule that named it"
    (left,) = services.rules.rules_of(store, job_id)
    assert left.rule.members == (case["gear"], case["shaft"])
    assert services.check.check(store).sound
    services.history.undo(store, job_id)
    assert len(services.rules.rules_of(store, job_id)) == 2
    assert services.check.check(store).sound


def add(store, job_id, kind, beside, of, **fields):
    form = TaskForm(kind, anchor=Anchor(beside, of), **fields)
    return task(services.tasks.add_task(store, job_id, form, who="Ada").new_id)


def test_a_task_stands_beside_its_step_and_follows_it(store, job_id, case):
    add(store, job_id, TaskKind.END_FLOAT, Beside.AFTER, case["shaft"])
    add(store, job_id, TaskKind.CLEAN, Beside.BEFORE, case["dowels"])
    assert order(store, job_id)[:5] == ["shaft", "measure the end float", "gear", "clean", "dowels"]
    rule(store, job_id, UNTIL, case["shaft"], case["dowels"])
    assert order(store, job_id)[:5] == ["gear", "clean", "dowels", "shaft", "measure the end float"]
    rule(store, job_id, FIRST, case["gear"], case["dowels"])
    assert order(store, job_id)[:3] == ["clean", "dowels", "gear"]


def test_a_task_beside_a_deleted_line_stands_where_it_stood(store, job_id, case):
    add(store, job_id, TaskKind.END_FLOAT, Beside.AFTER, case["gear"])
    add(store, job_id, TaskKind.OIL, Beside.BEFORE, case["gear"])
    before = [name for name in order(store, job_id) if name != "gear"]
    services.strip.delete_removal(store, case["gear"].id)
    assert order(store, job_id) == before
    assert services.check.check(store).sound


def test_two_stages_of_one_tightening(store, job_id, log):
    torque = HeldBy(4, "stud", "M10", 60, torque=Torque(50))
    head = log("head")
    studs = part(log("studs", held_by=(torque,)))
    made = services.tasks.tighten_later(store, studs.id, part(head), who="Ada")
    assert order(store, job_id) == ["studs", "head", "final torque of 2 studs"]
    board = services.board.board(store, job_id)
    assert board.step(studs).torque_later == "1 head"
    assert services.signing.sheet(store, studs).may_ask == ()
    final = services.signing.sheet(store, task(made.new_id))
    assert [(one.unit, one.low, one.high) for one in final.may_ask] == [("N·m", 48.0, 52.0)]
    assert "1 head must go in first" in [h.sentence for h in final.hindrances]
    with pytest.raises(BadInput, match="has its final torque already"):
        services.tasks.tighten_later(store, studs.id, part(head))
    with pytest.raises(BadInput, match="cannot wait for itself"):
        services.tasks.tighten_later(store, head, part(head))
    with pytest.raises(BadInput, match="final torque of 2 studs waits for it"):
        services.strip.delete_removal(store, head)
    services.strip.delete_removal(store, studs.id)
    assert order(store, job_id) == ["head"]
    services.history.undo(store, job_id)
    assert services.check.check(store).sound


def test_a_bench_build_waits_for_its_pieces_and_its_pieces_for_nothing_else(store, job_id, case):
    made = services.tasks.make_bench_build(
        store, job_id, "gear cluster", [case["shaft"], case["gear"]], who="Ada"
    )
    build = task(made.new_id)
    assert order(store, job_id)[:3] == ["shaft", "gear", "gear cluster"]
    services.fates.send_away(store, [case["shaft"].id], shop="the grinder")
    board = services.board.board(store, job_id)
    assert board.step(case["gear"]).standing is Standing.WAITS  # on the bench after the shaft
    assert board.step(case["dowels"]).roots == (case["shaft"],)
    assert board.step(build).build_id is None
    assert board.step(build).area == "gear case"
    inner = services.tasks.make_bench_build(
        store, job_id, "gear with its bush", [case["gear"]], build_id=build.id
    )
    with pytest.raises(BadInput, match="cannot be a piece of itself"):
        services.tasks.put_in_build(store, job_id, [build], inner.new_id)
    services.tasks.delete_task(store, build.id)
    assert services.tasks.get_task(store, inner.new_id).build_id is None
    services.history.undo(store, job_id)
    assert services.tasks.get_task(store, inner.new_id).build_id == build.id
    assert services.check.check(store).sound


def test_what_one_casting_away_leaves_to_be_done(store, job_id, log):
    """Everything that does not wait for it can go in today; it alone frees the rest."""
    top = services.jobs.add_area(store, job_id, "top end").new_id
    bottom = services.jobs.add_area(store, job_id, "bottom end").new_id
    names = {name: part(log(name, area_id=top)) for name in ("head", "barrel", "piston")}
    names |= {name: part(log(name, area_id=bottom)) for name in ("sump", "pump")}
    services.fates.send_away(store, [names["barrel"].id], shop="the borer")
    board = services.board.board(store, job_id)
    assert {s.name for s in board.steps if s.standing is Standing.NEXT} == {"piston", "pump"}
    assert {s.name for s in board.steps if not s.roots} == {"piston", "pump", "sump"}
    (freed,) = board.frees
    assert (freed.called, freed.why, freed.alone) == ("2 barrel", "it is away at the borer", 2)


def test_figures_are_held_against_their_limits(store, job_id, case):
    asks = [Asked("end float", "mm", 0.1, 0.3)]
    services.tasks.ask_at_sign_off(store, case["shaft"].id, asks, who="Ada")
    sheet = services.signing.sheet(store, case["shaft"])
    assert sheet.asks == tuple(asks)

    def sign(value, **fields):
        form = SignForm(figures=services.signing.figures_of(sheet.asks, [value]), **fields)
        return services.signing.sign(store, case["shaft"], form, who="Ada")

    with pytest.raises(BadInput, match="Give the end float, or say in the note"):
        sign(None)
    with pytest.raises(BadInput, match=r"end float 0\.35 mm is above 0\.3"):
        sign(0.35)
    with pytest.raises(BadInput, match="cannot be inf"):
        sign(float("inf"))
    assert order(store, job_id)
    sign(0.35, reason="thrust washer on order")
    done = services.board.board(store, job_id).step(case["shaft"]).sign_off
    assert (done.figures[0].value, done.reason) == (0.35, "thrust washer on order")


@pytest.mark.parametrize(
    ("asks", "wrong"),
    [
        ([Asked(" ")], "Say what is measured"),
        ([Asked("gap"), Asked("Gap")], "Gap is asked for twice"),
        ([Asked("gap", "mm", 0.3, 0.1)], "the wrong way round"),
    ],
)
def test_figures_that_cannot_be_asked_for(store, case, asks, wrong):
    with pytest.raises(BadInput, match=wrong):
        services.tasks.ask_at_sign_off(store, case["shaft"].id, asks)


def test_fasteners_are_counted_back(store, job_id, log):
    cover = part(log("cover", held_by=(HeldBy(6, "bolt", "M6", 25),)))
    with pytest.raises(BadInput, match="5 of 6 M6x25 bolt went back"):
        services.signing.sign(store, cover, SignForm(counts=(Counted(0, 6, 5),)), who="Ada")
    form = SignForm(counts=(Counted(0, 6, 5),), reason="one is lost")
    services.signing.sign(store, cover, form, who="Ada")
    assert services.board.board(store, job_id).steps[0].sign_off.counts == (Counted(0, 6, 5),)


def test_a_hold_point_wants_another_name(store, job_id, case):
    hold = add(store, job_id, TaskKind.HOLD_POINT, Beside.AFTER, case["shaft"])
    services.signing.sign(store, case["shaft"], who="N. Birch")
    assert services.signing.sheet(store, hold).not_by == ("N. Birch",)
    for name in ("N. Birch", "n birch", " N.BIRCH "):
        with pytest.raises(BadInput, match=r"N\. Birch did the work it looks at"):
            services.signing.sign(store, hold, who=name)
    services.signing.sign(store, hold, who="J. Alder")
    assert services.board.board(store, job_id).step(hold).standing is Standing.IN


def test_closing_an_opener_lists_what_is_not_behind_it(store, job_id, case):
    services.signing.sign(store, case["shaft"], who="Ada")
    services.signing.sign(store, case["gear"], who="Ada")
    sheet = services.signing.sheet(store, case["cover"])
    assert [one.called for one in sheet.missing] == ["3 dowels"]
    with pytest.raises(BadInput, match="Do that first, or say why"):
        services.signing.sign(store, case["cover"], who="Ada")
    assert services.board.board(store, job_id).done == 2


def test_parts_that_were_never_logged_stand_where_they_go_in(store, job_id, case, lines):
    for origin, beside, name in (
        (Origin.SHOP, Beside.BEFORE, "plug"),
        (Origin.NEW, Beside.AFTER, "shim"),
    ):
        extras = Extras(origin=origin, beside=Anchor(beside, case["gear"]))
        services.strip.log_removal(store, job_id, Entry(name), extras, who="Ada")
    assert order(store, job_id)[:4] == ["shaft", "plug", "gear", "shim"]
    assert lines()[2:5] == [("3", "dowels"), ("3a", "shim"), ("4", "gear")]
    counts = services.jobs.list_jobs(store)[0]
    assert counts.off == 6  # the new shim never came off
    assert services.check.check(store).sound


def test_what_if_it_stood_elsewhere(store, job_id, case):
    found = services.rules.what_if(
        store, job_id, case["dowels"], Beside.BEFORE, case["shaft"], who="Ada"
    )
    assert (found.kind, found.members) == (FIRST, (case["shaft"], case["dowels"]))
    assert (found.words, found.breaks) == ("Fit 3 dowels before 5 shaft", ())
    found = services.rules.what_if(store, job_id, case["cover"], Beside.BEFORE, case["gear"])
    assert "1 cover can close the gear case only after 4 gear" in found.breaks
    assert services.rules.rules_of(store, job_id) == []
    services.signing.sign(store, case["shaft"], who="Ada")
    with pytest.raises(BadInput):
        services.rules.what_if(store, job_id, case["dowels"], Beside.BEFORE, case["shaft"])


def test_a_task_said_twice_is_there_once(store, job_id, case):
    form = TaskForm(TaskKind.OIL, anchor=Anchor(Beside.AFTER, case["gear"]), uid="form-1")
    first = services.tasks.add_task(store, job_id, form)
    assert services.tasks.add_task(store, job_id, form).new_id == first.new_id
    assert len(services.tasks.tasks_of(store, job_id)) == 1


def test_tasks_that_cannot_be(store, job_id, case):
    oil = add(store, job_id, TaskKind.OIL, Beside.AFTER, case["gear"])
    form = TaskForm(TaskKind.OIL, anchor=Anchor(Beside.AFTER, oil))
    with pytest.raises(BadInput, match="cannot stand beside itself"):
        services.tasks.edit_task(store, oil.id, form)
    with pytest.raises(BadInput, match="Say what is to be done"):
        services.tasks.add_task(store, job_id, TaskForm(TaskKind.OTHER))
    with pytest.raises(BadInput, match="needs its pieces"):
        services.tasks.add_task(store, job_id, TaskForm(TaskKind.BENCH_BUILD, "cluster"))
    with pytest.raises(BadInput, match="Choose the pieces"):
        services.tasks.make_bench_build(store, job_id, "cluster", [])
    services.tasks.delete_task(store, oil.id)
    with pytest.raises(NotFound):
        services.tasks.get_task(store, oil.id)


def test_the_code_of_a_task_leads_to_it_as_long_as_it_is_there(store, job_id, case):
    hold = add(store, job_id, TaskKind.HOLD_POINT, Beside.AFTER, case["shaft"])
    code = services.task_views.card(store, hold.id).code
    found = services.tags.look_up(store, code)
    assert (found.leads, found.task_id, found.job_id) == (Leads.TASK, hold.id, job_id)
    _, steps = services.checklists.steps_of(store, job_id)
    assert [step.code for step in steps if step.task is TaskKind.HOLD_POINT] == [code]
    services.tasks.delete_task(store, hold.id)
    with pytest.raises(NotFound):
        services.tags.look_up(store, code)
    services.history.undo(store, job_id)
    assert services.tags.look_up(store, code).task_id == hold.id
    assert services.check.check(store).sound
