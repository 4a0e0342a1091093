"""Order: the plan as it is shown, a step moved by keys and by mouse, and why a step is there."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.fitting import Anchor, Beside, RuleKind, TaskKind
from bagtag.services.signing import SignForm
from bagtag.ui.card.why_here import AS_LOGGED, AS_PUT
from bagtag.ui.theme import current
from tests.ui.order_kit import PLAN, cluster
from tests.ui.shell_kit import scan
from tests.ui.stages_job import nameless

LEFT_BUTTON = Qt.MouseButton.LeftButton


@pytest.fixture
def order(bench):
    bench.press("Ctrl+2")
    return bench


def choose(bench, name):
    bench.plan.setFocus()
    bench.plan.go_to(bench.place(bench.plan, name))
    bench.rest()


def drag(bench, name: str, onto: str, down: float) -> None:
    """Drag a step so far down over another, and hold it there."""
    view, start = bench.plan.viewport(), bench.spot(bench.plan, name)
    end = bench.spot(bench.plan, onto, down)
    QTest.mousePress(view, LEFT_BUTTON, pos=start)
    for step in range(1, 6):
        QTest.mouseMove(view, start + (end - start) * step / 5)
    bench.rest()


def drop(bench, onto: str, down: float) -> None:
    QTest.mouseRelease(bench.plan.viewport(), LEFT_BUTTON, pos=bench.spot(bench.plan, onto, down))
    bench.rest()


def test_the_plan_stands_first_to_last_each_with_its_place(order):
    assert order.names(order.plan) == PLAN
    assert [line.step.place for line in order.plan.lines.lines] == list(range(1, 9))


def test_pieces_stand_in_before_their_bench_build(order):
    cluster(order.store, order.built)
    order.page.build.enter()
    order.rest()
    depth = {line.step.name: line.depth for line in order.plan.lines.lines}
    assert [depth[name] for name in ("fork R", "fork L", "drum")] == [1, 1, 1]
    assert depth["gear cluster"] == depth["dowel"] == 0


def test_the_line_shows_how_far_the_build_has_come(order):
    order.act(services.signing.sign, order.ref("dowel"))
    assert order.plan.done == 1
    order.plan.clearFocus()
    picture = order.plan.viewport().grab().toImage()
    assert picture.pixelColor(3, order.plan.rowViewportPosition(1)) == current().accent
    assert picture.pixelColor(3, order.plan.rowViewportPosition(3)) != current().accent


def test_alt_and_arrows_say_what_the_move_would_make_and_enter_makes_it(order):
    choose(order, "drum")
    order.press("Alt+Up", "Alt+Up")
    assert order.plan.said == "Fit 5 drum before 7 fork R"
    assert order.order.panel.words.text() == order.plan.said
    assert order.names(order.plan) == PLAN, "nothing is moved before it is let go"
    order.press("Return")
    assert order.rules() == ["Fit 5 drum before 7 fork R"]
    assert (
        order.names(order.plan)[:4] == order.planned()[:4] == ["dowel", "drum", "fork R", "fork L"]
    )
    assert order.plan.currentIndex().row() == 1, "the moved one is still chosen"


def test_moved_down_it_is_held(order):
    choose(order, "dowel")
    order.press("Alt+Down", "Alt+Down", "Alt+Down", "Return")
    assert order.rules() == ["Hold 8 dowel until 5 drum"]
    assert order.planned().index("dowel") == order.planned().index("drum") + 1


def test_why_is_asked_after_and_may_stay_unsaid(order):
    choose(order, "drum")
    order.press("Alt+Up", "Return")
    assert order.order.panel.asks_why
    assert order.order.panel.line.hasFocus()
    QTest.keyClicks(QApplication.focusWidget(), "the forks hang in it")
    order.press("Return")
    assert order.rules() == ["Fit 5 drum before 6 fork L (“the forks hang in it”)"]
    assert order.plan.hasFocus()
    assert not order.order.panel.isVisible()


def test_escape_leaves_why_unsaid_and_the_rule_stands(order):
    choose(order, "drum")
    order.press("Alt+Up", "Return")
    order.press("Escape")
    assert order.rules() == ["Fit 5 drum before 6 fork L"]
    assert order.plan.hasFocus()


def test_what_was_typed_of_why_is_kept_when_one_goes_on(order):
    choose(order, "drum")
    order.press("Alt+Up", "Return")
    QTest.keyClicks(QApplication.focusWidget(), "the forks hang in it")
    order.click(order.plan, "dowel")
    assert order.rules() == ["Fit 5 drum before 6 fork L (“the forks hang in it”)"]
    assert not order.order.panel.isVisible()


def test_escape_puts_it_back(order):
    choose(order, "drum")
    order.press("Alt+Up", "Alt+Up", "Escape")
    assert order.plan.on_move is None
    assert not order.order.panel.isVisible()
    assert order.order.reasons.isVisible()
    order.press("Return")
    assert order.rules() == []


def test_pressing_on_another_step_puts_it_back(order):
    choose(order, "drum")
    order.press("Alt+Up")
    order.click(order.plan, "dowel")
    assert order.plan.on_move is None
    assert not order.order.panel.isVisible()
    order.press("Return")
    assert order.rules() == []


def test_moved_up_and_down_again_it_makes_nothing(order):
    choose(order, "drum")
    order.press("Alt+Up", "Alt+Down")
    assert order.plan.on_move.is_still
    order.press("Return")
    assert order.rules() == []
    assert order.plan.on_move is None


def test_enter_before_the_answer_waits_for_it(order):
    choose(order, "drum")
    QTest.keyClick(order.plan, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    QTest.keyClick(order.plan, Qt.Key.Key_Return)
    order.rest()
    assert order.rules() == ["Fit 5 drum before 6 fork L"]


def test_only_the_newest_place_counts(order):
    """However fast the keys, what is said is of where the step would stand now."""
    choose(order, "head")
    for _ in range(6):
        QTest.keyClick(order.plan, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    order.rest()
    assert order.plan.said == f"Fit 2 head before {PLAN_NUMBERS[PLAN[order.plan.on_move.place]]}"


PLAN_NUMBERS = {name: f"{8 - place} {name}" for place, name in enumerate(PLAN)}


def test_it_goes_no_further_than_the_ends(order):
    choose(order, "fork R")
    order.press(*["Alt+Up"] * 4)
    assert order.plan.on_move.place == 0
    order.press("Escape")
    choose(order, "head")
    order.press(*["Alt+Down"] * 4)
    assert order.plan.on_move.place == len(PLAN) - 1


def test_nothing_goes_before_what_is_signed_off_and_that_stays(order):
    order.act(services.signing.sign, order.ref("dowel"))
    choose(order, "fork L")
    order.press(*["Alt+Up"] * 4)
    assert order.plan.on_move.place == 1
    order.press("Escape")
    choose(order, "dowel")
    order.press("Alt+Down")
    assert "signed off" in order.order.panel.words.text()
    order.press("Return")
    assert order.rules() == []
    assert order.plan.on_move is None


def test_dragged_with_the_mouse_the_line_shows_where_and_letting_go_makes_the_rule(order):
    drag(order, "drum", "fork R", 0.1)
    assert order.plan.said == "Fit 5 drum before 7 fork R"
    picture = order.plan.viewport().grab().toImage()
    assert picture.pixelColor(3, order.plan.rowViewportPosition(1)) == current().accent
    drop(order, "fork R", 0.1)
    assert order.rules() == ["Fit 5 drum before 7 fork R"]


def test_dragged_down_and_dropped_it_is_held(order):
    drag(order, "dowel", "fork L", 0.9)
    assert order.plan.said == "Hold 8 dowel until 6 fork L"
    drop(order, "fork L", 0.9)
    assert order.rules() == ["Hold 8 dowel until 6 fork L"]


def test_escape_while_dragging_puts_it_back(order):
    drag(order, "drum", "fork R", 0.1)
    order.press("Escape")
    drop(order, "fork R", 0.1)
    assert order.rules() == []


def test_held_at_the_edge_the_plan_scrolls_on(order, qtbot):
    order.window.resize(940, 560)
    order.rest()
    bar, view = order.plan.verticalScrollBar(), order.plan.viewport()
    bar.setValue(0)
    start = order.spot(order.plan, PLAN[0])
    end = QPoint(start.x(), view.height() - 4)
    QTest.mousePress(view, LEFT_BUTTON, pos=start)
    for step in range(1, 6):
        QTest.mouseMove(view, start + (end - start) * step / 5)
    qtbot.waitUntil(lambda: bar.value() == bar.maximum(), timeout=5000)
    qtbot.waitUntil(lambda: order.plan.on_move.place == len(PLAN) - 1, timeout=5000)
    order.rest()
    QTest.mouseRelease(view, LEFT_BUTTON, pos=end)
    order.rest()
    assert order.rules() == ["Hold 8 dowel until 1 cover"] or order.order.panel.breaks.isVisible()


def test_a_click_moves_nothing(order):
    order.click(order.plan, "drum")
    assert order.plan.on_move is None
    assert order.page.card_id == order.ref("drum").id
    QTest.mouseMove(order.plan.viewport(), QPoint(100, 10))
    assert order.plan.on_move is None


def test_it_says_what_it_would_break_and_asks_before_it_does(order):
    """The dowel held until the drum, and moved before it: both cannot hold."""
    made = (order.ref("dowel"), order.ref("drum"))
    services.rules.add_rule(order.store, order.built.job_id, RuleKind.UNTIL, made, who="Ada")
    order.page.build.enter()
    order.rest()
    choose(order, "dowel")
    order.press("Alt+Up")
    broken = order.order.panel.breaks
    assert broken.isVisible()
    assert "8 dowel must wait for 5 drum" in broken.text()
    rules = order.rules()
    order.press("Return")
    assert order.rules() == rules, "it asks first"
    assert order.order.panel.back.hasFocus(), "the safe answer has the keys"
    order.press("Return")
    assert order.rules() == rules
    assert order.plan.on_move is None


def test_made_all_the_same_it_is_said_that_not_every_rule_holds(order):
    choose(order, "cover")
    order.press(*["Alt+Up"] * 7)
    assert order.order.panel.breaks.isVisible()
    order.press("Return")
    order.order.panel.go.click()
    order.rest()
    assert len(order.rules()) == 1
    assert order.left.circle.isVisible()


def test_which_steps_come_along_is_said(order):
    """The fork needs the head in: moved before the fork R, it takes the head with it."""
    pair = (order.ref("drum"), order.ref("piston"))
    services.rules.add_rule(order.store, order.built.job_id, RuleKind.FIRST, pair, who="Ada")
    order.page.build.enter()
    order.rest()
    choose(order, "drum")
    order.press(*["Alt+Up"] * order.plan.currentIndex().row())
    assert order.order.panel.moves.text() == "Comes along: 4 piston."
    assert not order.order.panel.breaks.isVisible()


def test_a_fresh_plan_ends_a_move(order):
    choose(order, "drum")
    order.press("Alt+Up")
    order.act(services.signing.sign, order.ref("dowel"))
    assert order.plan.on_move is None
    assert not order.order.panel.isVisible()
    assert order.order.reasons.isVisible()


def test_a_scan_while_a_step_is_on_the_move_makes_no_rule(order):
    code = services.views.card(order.store, order.ref("fork L").id).code
    choose(order, "drum")
    order.press("Alt+Up")
    scan(order.window.windowHandle(), code)
    order.rest()
    assert order.rules() == []


def test_a_scan_into_why_leaves_what_was_typed(order):
    choose(order, "drum")
    order.press("Alt+Up", "Return")
    QTest.keyClicks(QApplication.focusWidget(), "fouls")
    code = services.views.card(order.store, order.ref("dowel").id).code
    scan(order.window.windowHandle(), code)
    order.rest()
    assert order.rules() == ["Fit 5 drum before 6 fork L (“fouls”)"]


# Why here


def test_what_stands_as_logged_says_so(order):
    choose(order, "fork L")
    assert order.order.reasons.head.text() == "Why here: 6 fork L"
    assert order.order.reasons.sentences() == [AS_LOGGED]


def test_what_was_brought_forward_says_by_what_and_the_rule_is_dropped_by_key(order):
    choose(order, "drum")
    order.press("Alt+Up", "Alt+Up", "Return")
    order.press("Escape")
    (sentence,) = order.order.reasons.sentences()
    assert sentence.startswith("Put in early: 7 fork R must have it in first, by your rule of")
    (slip,) = order.order.reasons.slips
    slip.drop.setFocus()
    order.press("Delete")
    assert order.rules() == []
    assert order.names(order.plan) == PLAN
    assert order.order.reasons.sentences() == [AS_LOGGED]


def test_another_persons_rule_is_told_as_theirs(order):
    pair = (order.ref("fork R"), order.ref("drum"))
    services.rules.add_rule(order.store, order.built.job_id, RuleKind.FIRST, pair, who="Ben")
    order.page.build.enter()
    order.rest()
    choose(order, "drum")
    assert "by Ben’s rule of" in order.order.reasons.sentences()[0]


def test_a_task_says_why_it_is_there_too(order):
    anchor = Anchor(Beside.AFTER, order.ref("dowel"))
    form = services.tasks.TaskForm(TaskKind.INSPECT, "look at the bores", anchor)
    services.tasks.add_task(order.store, order.built.job_id, form, who="Ada")
    order.page.build.enter()
    order.rest()
    assert order.names(order.plan)[1] == "look at the bores"
    order.plan.setFocus()
    order.plan.go_to(1)
    order.rest()
    assert order.order.reasons.head.text() == "Why here: look at the bores"
    assert order.order.reasons.sentences() == [AS_PUT]
    assert order.page.right.currentWidget() is order.page.side.task_card


def test_every_control_has_a_name(order):
    assert nameless(order.left) == []
    choose(order, "drum")
    order.press("Alt+Up")
    assert nameless(order.left) == []
    order.press("Return")
    assert nameless(order.left) == []


def test_letters_go_into_the_one_field_and_move_nothing(order):
    choose(order, "drum")
    QTest.keyClicks(order.plan, "d")
    assert order.window.field.text == "d"
    assert order.plan.on_move is None


def test_signed_off_it_stands_among_what_is_in(order):
    order.act(services.signing.sign, order.ref("drum"), SignForm(reason="trial"))
    assert order.names(order.plan)[0] == "drum"
    assert order.plan.done == 1
