"""A job half built with two castings away: what can go in, a circle, a cover too early, the end."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.closing_rows import Likely
from bagtag.domain.fitting import TaskKind
from bagtag.domain.model import Fate, Replacement
from bagtag.domain.standing import Standing
from bagtag.services.signing import SignForm
from bagtag.services.tags import Leads
from bagtag.ui.field.one_field import HINTS
from bagtag.ui.order.add_menu import AddMenu
from bagtag.ui.order.rule_form import RuleDialog

KEYS = Qt.Key
DOWELS, COVER = "crankcase dowels", "crankcase cover"


@pytest.fixture
def bench(bench):
    """The demo job in the window, at its build."""
    change = services.demo.write(bench.desk.store, who="N. Birch")
    bench.desk.changed.emit(change)
    bench.settle()
    bench.stage(7)
    return bench


def left(bench):
    return bench.window.work.bench.side.left


def said(listed) -> list[str]:
    """What a list says of its lines to who cannot see them."""
    rows = range(listed.model().rowCount())
    role = Qt.ItemDataRole.AccessibleTextRole
    return [str(listed.model().index(row, 0).data(role)) for row in rows]


def board(bench):
    return services.board.board(bench.desk.store, bench.desk.job_id)


def named(bench, name: str):
    return next(step for step in board(bench).steps if step.name == name)


def show(bench, name: str) -> None:
    bench.desk.show_step.emit(named(bench, name).ref)
    bench.settle()


def top(kind):
    return next(w for w in QApplication.topLevelWidgets() if isinstance(w, kind) and w.isVisible())


def make_rule(bench, key: str, name: str, other: str) -> None:
    """By keys alone: Add, its key, the number of the other step, Enter for it and for the rule."""
    show(bench, name)
    bench.control(KEYS.Key_T)
    bench.qtbot.waitUntil(lambda: top(AddMenu).isVisible())
    bench.type(key)
    bench.qtbot.waitUntil(
        lambda: any(isinstance(w, RuleDialog) for w in QApplication.topLevelWidgets())
    )
    bench.settle()
    bench.type(named(bench, other).number)
    bench.press(KEYS.Key_Return)
    bench.press(KEYS.Key_Return)
    form = [w for w in QApplication.topLevelWidgets() if isinstance(w, RuleDialog)]
    if form and form[0].isVisible():  # it breaks another rule, and says so: all the same
        form[0].keep.setFocus()
        bench.press(KEYS.Key_Return)
    bench.window.activateWindow()  # as a window manager does once the form is gone
    bench.settle()


def test_what_can_go_in_today_and_why_the_rest_waits(bench):
    lines = said(left(bench).now)
    text = "\n".join(lines)
    for step in board(bench).steps:
        if step.standing is Standing.NEXT:
            assert step.name in text
    assert any("friction plates" in line and "on order" in line for line in lines)
    head = named(bench, "cylinder head")
    assert head.standing is Standing.AWAY
    assert any("Mill Lane Engineering" in h.sentence for h in head.hindrances)
    bar = bench.window.work.bench.build
    assert "6 away" in bar.waiting.sentence
    before = board(bench).done
    bench.press(KEYS.Key_F5)
    bench.press(KEYS.Key_F6)
    if bench.window.work.bench.card.signing.isVisible():
        bench.press(KEYS.Key_F6)  # what counts and torques there are may be left as they are
    assert board(bench).done == before + 1


def test_a_circle_made_on_purpose_is_explained_and_undone(bench):
    good = [step.ref for step in board(bench).steps]
    make_rule(bench, "7", DOWELS, "crankcase cover gasket")
    circle = left(bench).circle
    assert circle.isVisible()
    assert "36 crankcase dowels must wait for 35 crankcase cover gasket" in circle.sentence.text()
    assert "must have 36 crankcase dowels in first" in circle.sentence.text()
    assert len(circle.drops) == 2
    assert [step.ref for step in board(bench).steps] == good
    bench.control(KEYS.Key_Z)
    assert not circle.isVisible()
    assert board(bench).no_order is None
    make_rule(bench, "7", DOWELS, "crankcase cover gasket")
    circle.drops[1].setFocus()  # the older one may go as well
    bench.press(KEYS.Key_Return)
    assert not circle.isVisible()
    order = [step.name for step in board(bench).steps]
    assert order.index("crankcase cover gasket") < order.index(DOWELS)


def test_a_cover_signed_early_names_what_is_missing_behind_it(bench):
    done = board(bench).done
    show(bench, COVER)
    bench.press(KEYS.Key_F6)
    closing = bench.window.work.bench.card.signing.closing
    assert closing.isVisible()
    titles = [line.title for line in closing.list.steps.lines]
    assert titles[:3] == ["38 thrust washer, governor", "37 governor gear", "36 crankcase dowels"]
    bench.press(KEYS.Key_Escape)
    assert not closing.isVisible()
    assert board(bench).done == done


def finish(bench, *, without: str = "") -> None:
    """Everything is back, decided and here, and signed, but for one part."""
    store, job_id = bench.desk.store, bench.desk.job_id
    for removal, _ in services.fates.away_list(store, job_id):
        services.fates.came_back(store, [removal.id])
    for row in services.measuring.for_stage(store, job_id):
        for sheet in row.sheets:
            if row.removal is not None and sheet.sheet.decision is None:
                why = "as the manual has it"
                services.measuring.decide(
                    store, sheet.sheet.id, Fate.REFIT, why=why, who="N. Birch"
                )
    for removal in services.fates.with_fate(store, job_id, Fate.DECIDE):
        services.fates.set_fate(store, [removal.id], Fate.REFIT)
    waiting = [removal.id for removal in services.fates.with_fate(store, job_id, Fate.RENEW)]
    services.fates.set_replacement(store, waiting, Replacement.HERE)
    for step in board(bench).steps:
        if step.sign_off is None and step.name != without:
            is_hold = step.task is not None and step.task.kind is TaskKind.HOLD_POINT
            who = "J. Alder" if is_hold else "N. Birch"
            for place in services.tightening.joint(store, step.ref).unticked:
                services.tightening.tick(store, step.ref, place, who=who)
            form = SignForm(note="as it should be", reason="trial" if without else "")
            services.signing.sign(store, step.ref, form, who=who)
    bench.stage(8)


def test_a_finished_job_counts_up_to_nothing_left(bench):
    finish(bench)
    close = bench.window.pages.currentWidget()
    assert close.verdict.text() == "Nothing is left on the bench"
    assert services.closing.closing_count(bench.desk.store, bench.desk.job_id).adds_up


def test_a_missing_dowel_is_named(bench):
    finish(bench, without=DOWELS)
    count = services.closing.closing_count(bench.desk.store, bench.desk.job_id)
    (one,) = count.leftovers
    assert one.removal_id == named(bench, DOWELS).removal_id
    assert (one.likely, one.pieces) == (Likely.LEFT_OUT, 2)
    close = bench.window.pages.currentWidget()
    assert "2 pieces" in close.verdict.text()
    assert any("crankcase dowels" in line for line in said(close.left))


def test_a_hold_point_is_signed_by_another(bench):
    """Its code, scanned off the checklist on another stage, brings it up."""
    hold = next(step for step in board(bench).steps if step.name.startswith("hold point"))
    code = services.task_views.card(bench.desk.store, hold.task.id).code
    bench.stage(4)
    bench.scan(code)
    card = bench.window.work.bench.side.task_card
    assert card.isVisible()
    assert bench.window.work.stage == "Build"
    assert card.card.task.id == hold.task.id
    bench.press(KEYS.Key_F6)
    assert card.signing.isVisible()
    assert "N. Birch" in card.signing.sheet.not_by
    bench.press(KEYS.Key_Escape)
    assert not card.signing.isVisible()


def hold_point(bench) -> tuple[int, str]:
    """The id of the hold point's task, and its code."""
    hold = next(step for step in board(bench).steps if step.name.startswith("hold point"))
    return hold.task.id, services.task_views.card(bench.desk.store, hold.task.id).code


def test_a_task_is_found_by_its_code_while_parts_are_logged(bench):
    """Typed in the one field, letter by letter, on Strip; the build does not offer its next."""
    task_id, code = hold_point(bench)
    bench.stage(2)
    bench.control(KEYS.Key_L)
    for letter in code:
        bench.type(letter)
        bench.settle()
    assert bench.window.field.frame.hint.endswith("open its card")
    bench.press(KEYS.Key_Return)
    side = bench.window.work.bench.side
    assert bench.window.work.stage == "Build"
    assert (side.task_id, side.task_card.card.task.id) == (task_id, task_id)
    assert side.task_card.isVisible()


def test_what_does_not_add_up_leads_to_its_own_card(bench):
    """From Close, with nothing on the card before: the part pressed, and not the next step."""
    bench.stage(2)
    bench.stage(8)
    listed = bench.window.pages.currentWidget().left
    wanted = listed.leftovers.lines[3].ref
    listed.setFocus()
    for _ in range(3):
        bench.press(KEYS.Key_Down)
    bench.press(KEYS.Key_Return)
    assert bench.window.work.stage == "Build"
    assert bench.window.work.bench.side.step == wanted
    assert bench.window.work.bench.card.card.removal.id == wanted.id


def test_each_place_that_a_code_leads_to_has_its_hint():
    assert set(HINTS) == {leads.value for leads in Leads}
