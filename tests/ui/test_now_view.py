"""Now: what can go in, by area; what would free the most; what waits, folded away."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.fitting import part
from bagtag.domain.standing import Standing
from bagtag.services.signing import SignForm
from bagtag.ui.order.left_lines import Fold, FreedLine, Heading, Said, spoken
from bagtag.ui.theme import current
from tests.ui.order_kit import cluster
from tests.ui.shell_kit import log, scan
from tests.ui.stages_job import nameless


def words(view) -> list[str]:
    return [spoken(line) for line in view.lines.lines]


def lines_of(view, kind) -> list:
    return [line for line in view.lines.lines if isinstance(line, kind)]


def test_build_opens_on_what_can_go_in_now(bench):
    assert bench.left.word == "Now"
    assert bench.left.pages.currentWidget() is bench.now
    assert bench.names(bench.now)[0] == "dowel"
    assert bench.page.card_id == bench.ref("dowel").id, "the first of them is on the card"
    assert bench.now.is_shown(bench.place(bench.now, "dowel"))


def test_steps_stand_by_area_ready_first_then_what_comes_after(bench):
    said = words(bench.now)
    gearbox, top = said.index("gearbox, 1 now"), said.index("top end, 1 now")
    assert gearbox < top
    assert said[gearbox + 1].startswith("8 dowel")
    assert said[gearbox + 2] == "after these"
    assert [word.split(",")[0] for word in said[gearbox + 3 : gearbox + 6]] == [
        "7 fork R", "6 fork L", "5 drum",
    ]  # fmt: skip
    assert said[top + 1].startswith("4 piston")


def test_what_waits_is_folded_and_says_for_what_once_it_is_open(bench):
    (fold,) = lines_of(bench.now, Fold)
    assert fold.text == "2 wait"
    assert "barrel" not in bench.names(bench.now)
    place = bench.now.lines.place_of(("fold", bench.built.areas["top end"]))
    bench.now.setFocus()
    bench.now.go_to(place)
    bench.press("Right")
    said = words(bench.now)
    assert "3 barrel, it is away at Mill Lane Engineering, away" in said
    assert any(word.startswith("2 head, 3 barrel must go in first") for word in said)


@pytest.mark.parametrize("keys", [("Right", "Left"), ("Return", "Return")])
def test_a_fold_opens_and_folds_by_key(bench, keys):
    bench.now.setFocus()
    bench.now.go_to(bench.now.lines.place_of(("fold", bench.built.areas["top end"])))
    bench.press(keys[0])
    assert "head" in bench.names(bench.now)
    bench.press(keys[1])
    assert "head" not in bench.names(bench.now)
    assert isinstance(bench.now.here, Fold), "the keys stay on it"


def test_left_on_a_step_that_waits_folds_its_area(bench):
    bench.window.work.show_step(bench.ref("head"))
    bench.rest()
    bench.now.setFocus()
    bench.press("Left")
    assert "head" not in bench.names(bench.now)


def test_a_fold_opens_by_mouse(bench):
    place = bench.now.lines.place_of(("fold", bench.built.areas["top end"]))
    bench.now.scrollTo(bench.now.lines.index(place))
    spot = bench.now.visualRect(bench.now.lines.index(place)).center()
    QTest.mouseClick(bench.now.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert "head" in bench.names(bench.now)


def test_it_says_what_would_free_the_most_and_pressing_it_shows_it(bench):
    heading, freed = bench.now.lines.lines[:2]
    assert isinstance(heading, Heading)
    assert isinstance(freed, FreedLine)
    assert spoken(freed) == (
        "3 barrel, it is away at Mill Lane Engineering: 1 step waits for it alone"
    )
    spot = bench.now.visualRect(bench.now.lines.index(1)).center()
    QTest.mouseClick(bench.now.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    bench.rest()
    assert bench.page.card_id == bench.ref("barrel").id


def test_walking_shows_each_step_and_leaves_the_keys_on_the_list(bench):
    bench.now.setFocus()
    bench.now.go_to(bench.place(bench.now, "dowel"))
    bench.press("Down")
    assert bench.page.card_id == bench.ref("fork R").id, "the quiet line between is passed over"
    assert bench.page.strip.chosen_id == bench.ref("fork R").id, "the strip follows out of sight"
    assert bench.now.hasFocus()
    bench.press("End")
    assert isinstance(bench.now.here, Fold) or bench.now.here is bench.now.lines.lines[-1]
    bench.press("Home")
    assert isinstance(bench.now.here, FreedLine)


def test_enter_goes_on_to_the_card(bench):
    bench.now.setFocus()
    bench.now.go_to(bench.place(bench.now, "fork L"))
    bench.press("Return")
    assert bench.page.card_id == bench.ref("fork L").id
    assert not bench.now.hasFocus()


def test_what_is_signed_off_leaves_the_list_and_the_next_is_ready(bench):
    bench.now.setFocus()
    bench.act(services.signing.sign, bench.ref("dowel"))
    assert "dowel" not in bench.names(bench.now)
    assert bench.names(bench.now)[0] == "fork R"
    assert not bench.now.is_shown(bench.place(bench.now, "fork R")), "the card still has the dowel"
    box = bench.now.visualRect(bench.now.currentIndex())
    edge = bench.now.grab().toImage().pixelColor(200, box.top() + 5)
    assert edge == current().ink, "here are the keys, but it is not on the card"
    bench.press("Down", "Up")
    assert bench.page.card_id == bench.ref("fork R").id


def test_next_step_chooses_its_line(bench):
    bench.press("F5")
    assert bench.page.card_id == bench.ref("piston").id
    assert bench.now.currentIndex().row() == bench.place(bench.now, "piston")
    bench.press("F5")
    assert bench.now.currentIndex().row() == bench.place(bench.now, "dowel")


def test_a_task_is_shown_on_its_own_card(bench):
    made = cluster(bench.store, bench.built)
    bench.page.build.enter()
    bench.rest()
    bench.now.setFocus()
    bench.now.go_to(bench.place(bench.now, "cluster"))
    bench.rest()
    assert bench.page.right.currentWidget() is bench.page.side.task_card
    assert bench.page.side.step == made
    bench.press("Down")
    assert bench.page.right.currentWidget() is bench.page.card
    assert bench.page.side.step == bench.ref("fork R")


def test_a_bench_build_has_its_pieces_below_it(bench):
    cluster(bench.store, bench.built)
    bench.page.build.enter()
    bench.rest()
    at = bench.place(bench.now, "cluster")
    nested = bench.now.lines.lines[at : at + 4]
    assert [(line.step.name, line.depth) for line in nested] == [
        ("gear cluster", 0), ("fork R", 1), ("fork L", 1), ("drum", 1),
    ]  # fmt: skip
    assert nested[0].word == "0 of 3 pieces in"
    bench.act(services.signing.sign, bench.ref("fork R"), SignForm(reason="trial"))
    at = bench.place(bench.now, "cluster")
    assert bench.now.lines.lines[at].word == "1 of 3 pieces in"
    assert bench.now.lines.lines[at + 1].step.name == "fork L"


def test_a_scanned_part_that_waits_is_unfolded_and_chosen(bench):
    code = services.views.card(bench.store, bench.ref("head").id).code
    bench.now.setFocus()
    scan(bench.window.windowHandle(), code)
    bench.rest()
    assert bench.page.card_id == bench.ref("head").id
    assert bench.now.currentIndex().row() == bench.place(bench.now, "head")


def test_a_scan_presses_nothing(bench):
    """A code's letters and its Enter, while a fold has the keys."""
    before = words(bench.now)
    bench.now.setFocus()
    bench.now.go_to(bench.now.lines.place_of(("fold", bench.built.areas["top end"])))
    code = services.views.card(bench.store, bench.ref("dowel").id).code
    scan(bench.window.windowHandle(), code)
    bench.rest()
    assert words(bench.now) == before
    assert bench.window.field.text == ""


def test_letters_go_into_the_one_field(bench):
    bench.now.setFocus()
    QTest.keyClicks(bench.now, "d")
    QTest.keyClicks(QApplication.focusWidget(), "rum")
    assert bench.window.field.text == "drum"


def test_nothing_to_build_and_nothing_left_say_so(bench, store, settle):
    board = services.board.board(store, bench.built.job_id)
    for step in board.steps:
        services.signing.sign(store, step.ref, SignForm(reason="because"), who="Ada")
    bench.page.build.enter()
    bench.rest()
    (said,) = lines_of(bench.now, Said)
    assert "Close" in said.text
    empty = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    bench.desk.choose_job(empty)
    bench.rest()
    (said,) = lines_of(bench.now, Said)
    assert "Strip" in said.text


def test_where_nothing_can_go_in_it_says_so(bench, store):
    ids = [ref.id for name, ref in bench.built.steps.items() if name != "barrel"]
    services.fates.send_away(store, ids, shop="plater", who="Ada")
    bench.page.build.enter()
    bench.rest()
    assert "Nothing can go in now." in words(bench.now)
    assert bench.names(bench.now) == ["dowel", "fork R", "fork L", "drum"], (
        "the card's part is seen"
    )


def test_another_job_shows_nothing_of_the_one_before(bench, store):
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    (seal,) = log(store, other, "seal")
    bench.desk.choose_job(other)
    bench.rest()
    assert bench.names(bench.now) == ["seal"]
    assert bench.page.card_id == seal


def test_what_is_chosen_is_outlined_and_ready_is_said_in_a_word(bench):
    bench.now.setFocus()
    bench.rest()
    place = bench.place(bench.now, "dowel")
    bench.now.go_to(place)
    bench.rest()
    box = bench.now.visualRect(bench.now.lines.index(place))
    picture = bench.now.grab().toImage()
    assert picture.pixelColor(200, box.top() + 5) == current().accent
    assert spoken(bench.now.here).endswith(Standing.NEXT.value)


def test_every_control_has_a_name(bench):
    assert nameless(bench.left) == []
    assert bench.now.accessibleName()
    assert part(bench.page.card_id) == bench.page.side.step
