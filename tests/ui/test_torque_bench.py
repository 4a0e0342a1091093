"""The torque bench: units together, what is asked, what the wrench is set to, both ways."""

import weakref
from datetime import date, timedelta

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import Adapter, HeldBy, Length, Torque, TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.ui.torque.torque_dialog import TorqueDialog, open_torque
from bagtag.ui.torque.torque_rig import BEST, NONE
from bagtag.ui.torque.torque_setting import TO_GET, TO_SET
from tests.ui.forms_kit import ENTER, ESC, press, show, write

LINES = (
    HeldBy(2, "circlip"),
    HeldBy(
        6, "bolt", "M8", 35.0, torque=Torque(25.0), grade="8.8", lubrication="dry", mark="A",
        adapter=Adapter(Length(50.0), 30.0), drag=Torque(2.0),
    ),
    HeldBy(1, "bolt", "3/8-16", 2.0, "in", torque=Torque(31.0, TorqueUnit.POUND_FOOT), mark="B"),
)  # fmt: skip
FINE = Wrench("fine", 8, 40, step=0.5, length=Length(280.0), calibrated_on=date.today())
LONG = Wrench("long", 40, 200, step=1, length=Length(450.0))


def keep(store, *wrenches: Wrench) -> None:
    for one in wrenches:
        services.wrenches.add_wrench(store, one, who="Ada")


@pytest.fixture
def part(store, job_id) -> int:
    return services.strip.log_removal(
        store, job_id, Entry("cover", held_by=LINES), who="Ada"
    ).new_id


@pytest.fixture
def bench(qtbot, desk, settle):
    def opened(removal_id: int | None = None) -> TorqueDialog:
        made = TorqueDialog(desk, None, removal_id)
        show(qtbot, made, 1080, 740)
        settle(desk)
        return made

    return opened


def test_a_torque_is_shown_in_all_its_units(bench):
    made = bench()
    write("40 lbf·ft")
    assert made.given.unit.value is TorqueUnit.POUND_FOOT
    assert made.given.units.texts == (
        "40 lbf·ft", "54.2 N·m", "480 lbf·in", "5.53 kgf·m", "553 kgf·cm", "7680 ozf·in",
    )  # fmt: skip


def test_a_bare_figure_is_in_the_unit_that_is_chosen(bench):
    made = bench()
    write("40")
    assert made.given.units.texts[0] == "40 N·m"
    made.given.unit.choose(TorqueUnit.POUND_INCH)
    assert made.given.units.texts[:2] == ("40 lbf·in", "4.52 N·m")


@pytest.mark.parametrize("typed", ["0", "-40 N·m", "tight", "40 miles"])
def test_what_is_no_torque_is_said_below_it_and_stays(bench, typed):
    made = bench()
    write(typed)
    assert "above zero" in made.given.torque_field.wrong.text()
    assert made.given.torque.text() == typed
    assert made.given.units.texts == ()
    assert made.setting.large.text() == ""


def test_it_opens_with_the_lines_of_its_part(bench, part):
    made = bench(part)
    assert "cover" in made.head.text()
    titles = [choice.option.title for choice in made.lines.choices._choices]
    assert titles == ["2 circlips", "A: 6 bolts M8x35", "B: 1 bolt 3/8-16 x 2 in"]
    assert made.lines.choices.value == 1, "the first with a torque"
    assert made.given.units.texts[0] == "25 N·m"
    assert made.setting.rig_form.adapter.text() == "50 mm"
    made.lines.choices.choose(2)
    assert made.given.units.texts[0] == "31 lbf·ft"
    assert made.given.thread_of.text() == "3/8-16"
    assert made.setting.rig_form.adapter.text() == ""
    made.lines.choices.choose(0)
    assert made.given.units.texts == ()


def test_sense_and_question_follow_what_is_typed(bench):
    made = bench()
    write("10")
    made.given.thread_of.setText("M6")
    made.given.grade.setText("8.8")
    assert "proof load" in made.given.told.sense.text()
    assert made.given.told.asked.sentences == ()
    made.given.torque.setText("90")
    (asked,) = made.given.told.asked.sentences
    assert "lbf·in" in asked
    assert made.given.told.asked.isVisible()


def test_an_adapter_both_ways(bench):
    """TM 9-2350-261-20-1, p. 2-29: 40 lbf·ft on 12 in with an adapter of 4 in is set to 30."""
    made = bench()
    write("40 lbf·ft")
    rig = made.setting.rig_form
    rig.adapter.setText("4 in")
    assert "length of the wrench" in made.setting.below.text()
    rig.grip.setText("1 ft")
    assert made.setting.large.text() == "30 lbf·ft"
    assert made.setting.picture.isVisible()
    made.setting.way.choose(TO_GET)
    made.setting.shows.setText("30 lbf·ft")
    assert made.setting.large.text() == "40 lbf·ft"
    assert "54.2 N·m" in made.setting.below.text()
    made.setting.way.choose(TO_SET)
    assert made.setting.large.text() == "30 lbf·ft"


def test_drag_is_added_and_what_it_takes_is_said_on_the_way_back(bench):
    """AC 43.13-1B, para 7-40: 100 lbf·in and a drag of 12 make 112."""
    made = bench()
    write("100 lbf·in")
    made.setting.rig_form.drag.setText("12")
    assert made.setting.large.text() == "112 lbf·in"
    made.setting.way.choose(TO_GET)
    made.setting.shows.setText("112")
    assert made.setting.large.text() == "112 lbf·in"
    assert "100 lbf·in are left" in made.setting.below.text()
    made.setting.shows.setText("10")
    assert "nothing is left" in made.setting.below.text()


def test_the_wrench_that_suits_best_is_taken_and_another_may_be(bench, store, part):
    keep(store, FINE, LONG)
    made = bench(part)
    assert made.setting.rig_form.wrench.currentData() == BEST
    assert made.setting.head.text() == "Set the fine to"
    # 27 N·m with the drag, times 280 / (280 + 50 cos 30°) is 23.38: to the nearest half, 23.5
    assert made.setting.large.text() == "23.5 N·m"
    assert made.setting.warnings.sentences == ()
    choose(made, "long")
    assert made.setting.large.text() == "25 N·m"
    assert any("below the scale" in sentence for sentence in made.setting.warnings.sentences)
    choose(made, NONE)
    assert "length of the wrench" in made.setting.below.text()
    made.setting.rig_form.grip.setText("280 mm")
    assert made.setting.large.text() == "23.4 N·m"
    assert "not rounded" in made.setting.below.text()


def choose(made: TorqueDialog, name: str) -> None:
    box = made.setting.rig_form.wrench
    place = next(n for n in range(box.count()) if box.itemText(n).startswith(name))
    box.setCurrentIndex(place)
    box.activated.emit(place)


def test_the_wheel_changes_no_wrench(bench, store):
    keep(store, FINE, LONG)
    made = bench()
    box = made.setting.rig_form.wrench
    spot, turn = QPointF(box.rect().center()), QPoint(0, -120)
    event = QWheelEvent(
        spot, box.mapToGlobal(spot), QPoint(), turn, Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(box, event)
    assert box.currentData() == BEST


def test_no_wrench_that_reaches_it_is_said(bench, store):
    keep(store, FINE)
    made = bench()
    write("300")
    assert made.setting.large.text() == "300 N·m"
    assert "No wrench of the list reaches" in made.setting.below.text()


def test_an_old_calibration_is_warned_of(bench, store):
    old = Wrench("old", 5, 60, step=1, calibrated_on=date.today() - timedelta(days=800))
    keep(store, old)
    made = bench()
    write("40")
    assert any("calibrated" in sentence for sentence in made.setting.warnings.sentences)


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("adapter", "nothing", "above zero"),
        ("adapter", "50 mm", ""),
        ("adapter", "500 mm", "longer than the wrench"),
        ("length", "-3", "above zero"),
        ("length", "20 ft", "cannot be"),
        ("angle", "200", "180"),
        ("drag", "0", "above zero"),
    ],
)
def test_a_length_that_cannot_be_is_said_below_it_and_stays(bench, name, typed, said):
    made = bench()
    write("40")
    rig = made.setting.rig_form
    rig.grip.setText("450 mm")
    rig.lines[name].setText(typed)
    assert said in rig.fields[name].wrong.text()
    assert bool(rig.fields[name].wrong.text()) == bool(said)
    assert rig.lines[name].text() == typed
    assert bool(made.setting.large.text()) == (not said)


def test_an_adapter_that_reaches_back_past_the_grip_is_said(bench):
    made = bench()
    write("40")
    rig = made.setting.rig_form
    for line, text in ((rig.grip, "300 mm"), (rig.adapter, "350 mm"), (rig.angle, "180")):
        line.setText(text)
    assert "pointing back" in rig.fields["adapter"].wrong.text()
    assert made.setting.large.text() == ""


def test_one_wrench_too_short_for_the_adapter_hides_no_other(bench, store):
    keep(store, Wrench("stub", 5, 60, step=1, length=Length(40.0)), LONG)
    made = bench()
    write("100")
    made.setting.rig_form.adapter.setText("60 mm")
    assert made.setting.head.text() == "Set the long to"


def test_the_list_is_heard_of_while_it_is_open(bench, store, desk, settle):
    made = bench()
    write("20")
    assert made.setting.rig_form.wrench.currentData() == NONE
    desk.act(services.wrenches.add_wrench, FINE)
    settle(desk)
    assert made.setting.head.text() == "Set the fine to"


def test_every_caution_stands_on_it(bench):
    from PySide6.QtWidgets import QLabel

    made = bench()
    said = " ".join(one.text() for one in made.findChildren(QLabel) if one.isVisible())
    assert all(caution in said for caution in TORQUE_CAUTIONS)


def test_enter_closes_nothing_and_escape_does(bench):
    made = bench()
    write("40")
    press(ENTER)
    assert made.isVisible()
    press(ESC)
    assert not made.isVisible()


def test_what_a_part_is_called_is_text(bench, store, job_id):
    name = "<b>cover</b>"
    entry = Entry(name, held_by=(HeldBy(1, thread="<i>M8</i>", torque=Torque(5.0)),))
    made = bench(services.strip.log_removal(store, job_id, entry, who="Ada").new_id)
    assert name in made.head.text()
    assert made.head.textFormat() == Qt.TextFormat.PlainText


def test_it_opens_over_its_window_and_goes_away(qtbot, desk, settle):
    made = open_torque(desk, None, None)
    settle(desk)
    seen = weakref.ref(made)
    made.close()
    qtbot.wait(1)
    del made
    assert seen() is None
