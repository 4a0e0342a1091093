"""Close: off = back + renewed + scrapped, piece by piece, or what does not add up."""

import pytest

from bagtag import services
from bagtag.ui.stages.close_stage import CloseStage
from tests.ui.stages_job import dies, gearbox, nameless, send_shaft, sentence_of


@pytest.fixture
def job(desk, store):
    made = gearbox(store)
    desk.choose_job(made.id)
    return made


@pytest.fixture
def stage(qtbot, desk, job, settle):
    made = CloseStage(desk)
    qtbot.addWidget(made)
    desk.changed.connect(made.hear)
    made.resize(900, 640)
    made.show()
    made.enter()
    settle(desk)
    return made


def test_pieces_are_counted_not_lines(stage) -> None:
    """Ten lines of the log: eight single parts, four oil jets and two split pins, 14 pieces."""
    assert stage.sum.text() == "14 off ≠ 0 back + 0 renewed + 2 scrapped"
    assert stage.verdict.text() == "12 pieces still to account for"


def test_what_does_not_add_up_is_listed_with_its_reason(stage, job) -> None:
    said = [press.text() for press in stage.left]
    assert len(said) == 9
    assert any("shift fork R" in text and "not decided" in text for text in said)
    assert any("oil jets" in text and "renewal not fitted" in text for text in said)
    assert not any("split pins" in text for text in said)


def test_pressing_one_shows_it(stage, qtbot, desk) -> None:
    with qtbot.waitSignal(desk.show_removal) as heard:
        stage.left[2].click()
    assert heard.args == [stage.left[2].removal_id]


def test_away_parts_are_told(stage, desk, settle, store, job) -> None:
    send_shaft(store, job)
    stage.enter()
    settle(desk)
    assert "1 of them is away" in stage.under.text()


def test_it_adds_up_when_all_is_in(stage, desk, settle, store, job) -> None:
    for step in services.board.board(store, job.id).steps:
        desk.act(services.board.sign, step.removal_id, out_of_order="because")
    settle(desk)
    assert stage.verdict.text() == "Nothing is left on the bench"
    assert stage.sum.text() == "14 off = 6 back + 6 renewed + 2 scrapped"
    assert stage.sum.accessibleName() == stage.sum.text()
    assert stage.left == []
    assert not stage.build.isVisible()


def test_the_build_is_one_press_away(stage, qtbot, desk) -> None:
    with qtbot.waitSignal(desk.show_stage) as heard:
        stage.build.click()
    assert heard.args == ["Build"]


def test_a_job_without_a_log_says_so(qtbot, desk, job_id, settle) -> None:
    stage = CloseStage(desk)
    qtbot.addWidget(stage)
    stage.enter()
    settle(desk)
    assert stage.verdict.text() == "Nothing has come off yet"
    assert "Strip" in sentence_of(stage)


def test_the_sum_is_painted_in_any_width(stage, qtbot) -> None:
    for width in (420, 900, 2400):
        stage.resize(width, 640)
        shot = stage.sum.grab().toImage()
        colours = {shot.pixel(x, 60) for x in range(0, shot.width(), 2)}
        assert len(colours) > 2
        assert stage.sum.width() <= width


def test_names_and_leaks(stage, qtbot, desk, settle) -> None:
    assert nameless(stage) == []

    def make() -> CloseStage:
        made = CloseStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
