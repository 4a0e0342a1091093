"""The hole map of a part: holes put, each with its fastener, kept and found again."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from bagtag import services
from bagtag.domain.hardware import OVERRIDE
from bagtag.ui.holes.hole_dialog import NO_HOLES
from tests.ui.add_kit import ESC, is_open, walked
from tests.ui.hole_kit import (
    LINES,
    QUIET,
    click,
    cover,
    kept,
    key,
    letter,
    marks,
    near,
    open_map,
    photo,
    places,
)
from tests.ui.shell_kit import scan
from tests.ui.stages_job import dies, nameless, sentence_of

CONTROL = Qt.KeyboardModifier.ControlModifier
ENTER = Qt.Key.Key_Return


@pytest.fixture
def part(store, job_id):
    return cover(store, job_id)


@pytest.fixture
def dialog(qtbot, desk, settle, part):
    return open_map(qtbot, desk, settle, part)


def four(dialog) -> None:
    """Four holes at the corners of a cover of 160 by 110 mm."""
    for x, y in ((30, 30), (190, 30), (190, 140), (30, 140)):
        click(dialog, x, y)


def test_holes_are_put_by_click_and_kept(dialog, store, desk, settle, part) -> None:
    four(dialog)
    dialog.keep.click()
    settle(desk)
    found = kept(store, part)
    assert places(found)[1] == near((30, 30))
    assert places(found)[3] == near((190, 140))
    assert set(marks(found).values()) == {"A"}  # the first line is in hand on an empty map
    assert not is_open(dialog)


def test_a_letter_says_what_goes_into_the_chosen_hole(qtbot, dialog) -> None:
    four(dialog)
    click(dialog, 190, 140)
    assert dialog.draft.chosen == (3,)
    letter(qtbot, dialog, "b")
    assert marks(dialog.draft.map) == {1: "A", 2: "A", 3: "B", 4: "A"}
    assert dialog.panel.big.text() == "Hole 3: B"
    assert dialog.panel.head.text() == "bolt M8x50"


def test_which_bolt_was_in_this_hole_both_ways(qtbot, dialog) -> None:
    four(dialog)
    click(dialog, 190, 140)
    letter(qtbot, dialog, "b")
    click(dialog, 30, 30)
    assert dialog.panel.big.text() == "Hole 1: A"
    assert dialog.panel.head.text() == "bolt M8x35, 22 N·m"
    assert dialog.panel.more.text() == "Also in 2, 4."
    QTest.keyClick(dialog.sheet, ESC)
    letter(qtbot, dialog, "a")
    assert dialog.draft.ringed == {1, 2, 4}
    assert dialog.panel.big.text() == "A: holes 1, 2, 4"


def test_holes_are_counted_against_bolts_in_words(qtbot, dialog) -> None:
    four(dialog)
    assert "3 bolts M8x35 and 4 holes" in dialog.panel.count.text()
    assert dialog.panel.count.text().startswith("Look: ")  # not by colour alone
    click(dialog, 30, 140)
    letter(qtbot, dialog, "b")
    assert dialog.panel.count.text() == "4 holes, and a fastener for each."


def test_everything_by_keys(qtbot, dialog, store, desk, settle, part) -> None:
    """A hole, another one to its right, its fastener, moved, and kept: no mouse."""
    middle = dialog.draft.map.width / 2, dialog.draft.map.height / 2
    key(dialog, ENTER)
    key(dialog, Qt.Key.Key_Right, times=8)
    key(dialog, ENTER)
    step = 80 / dialog.sheet.view.scale
    assert places(dialog.draft.map) == {
        1: near(middle, 0.6),
        2: near((middle[0] + step, middle[1]), 0.6),
    }
    key(dialog, ENTER)  # the cross is on hole 2: it is chosen
    assert dialog.draft.chosen == (2,)
    letter(qtbot, dialog, "b")
    key(dialog, Qt.Key.Key_Down, CONTROL, times=3)
    down = 30 / dialog.sheet.view.scale
    assert places(dialog.draft.map)[2] == near((middle[0] + step, middle[1] + down), 0.6)
    key(dialog, Qt.Key.Key_PageUp)
    assert dialog.draft.chosen == (1,)
    key(dialog, ENTER, CONTROL)
    settle(desk)
    assert marks(kept(store, part)) == {1: "A", 2: "B"}


def test_undo_and_redo_in_the_map(dialog) -> None:
    four(dialog)
    click(dialog, 30, 30)
    key(dialog, Qt.Key.Key_Right, CONTROL, times=5)  # one step of undo, however often
    moved = dialog.draft.map
    key(dialog, Qt.Key.Key_Z, CONTROL)
    assert places(dialog.draft.map)[1] == near((30, 30))
    key(dialog, Qt.Key.Key_Z, CONTROL)
    assert len(dialog.draft.map.holes) == 3
    dialog.again.click()
    dialog.again.click()
    assert dialog.draft.map == moved
    assert not dialog.again.isEnabled()


def test_delete_takes_the_chosen_holes_out(dialog) -> None:
    four(dialog)
    click(dialog, 30, 30)
    click(dialog, 190, 30, CONTROL)
    key(dialog, Qt.Key.Key_Delete)
    assert list(places(dialog.draft.map)) == [3, 4]
    dialog.holes.anew.click()  # nothing is chosen: the gaps close
    assert places(dialog.draft.map) == {1: near((190, 140)), 2: near((30, 140))}


def test_numbers_go_round_from_the_chosen_hole(dialog) -> None:
    four(dialog)
    click(dialog, 190, 140)
    dialog.holes.anew.click()
    assert places(dialog.draft.map)[1] == near((190, 140))
    assert places(dialog.draft.map)[2] == near((30, 140))  # clockwise, as one looks at it
    assert places(dialog.draft.map)[4] == near((190, 30))


def test_a_group_is_given_to_the_chosen_holes(dialog) -> None:
    four(dialog)
    click(dialog, 30, 30)
    click(dialog, 30, 140, CONTROL)
    dialog.holes.group.setFocus()
    QTest.keyClicks(dialog.holes.group, "left")
    QTest.keyClick(dialog.holes.group, ENTER)
    groups = {hole.number: hole.group for hole in dialog.draft.map.holes}
    assert groups == {1: "left", 2: "", 3: "", 4: "left"}


def test_two_holes_in_one_place_are_said(dialog) -> None:
    four(dialog)
    before = dialog.draft.map
    dialog.draft.move(1, *places(before)[2])
    assert "in one place" in dialog.wrong.text()
    assert dialog.draft.map == before


def test_a_scan_names_no_fastener_and_puts_no_hole(qtbot, dialog) -> None:
    """A scanner types letters too: neither they nor its end key are the person's."""
    four(dialog)
    click(dialog, 30, 30)
    before = dialog.draft.map
    scan(dialog.windowHandle(), "BAB2BA")
    qtbot.wait(QUIET)
    assert dialog.draft.map == before
    assert dialog.draft.chosen == (1,)
    QTest.keyClick(dialog.sheet, ESC)  # now its end key would put a hole in the middle
    scan(dialog.windowHandle(), "BAB2BA", start=9000)
    qtbot.wait(QUIET)
    assert dialog.draft.map == before
    assert dialog.draft.line == "A"


def test_esc_leaves_only_when_it_is_pressed_again(dialog, store, part) -> None:
    four(dialog)
    click(dialog, 30, 30)
    QTest.keyClick(dialog.sheet, ESC)  # lets go of the hole
    assert dialog.draft.chosen == ()
    QTest.keyClick(dialog.sheet, ESC)  # lets go of the line
    QTest.keyClick(dialog.sheet, ESC)
    assert "not kept" in dialog.wrong.text()
    assert is_open(dialog)
    QTest.keyClick(dialog.sheet, ESC)
    assert not is_open(dialog)
    assert kept(store, part) is None


def test_a_part_without_hardware_says_what_to_do(qtbot, desk, settle, store, job_id) -> None:
    bare = cover(store, job_id, lines=())
    dialog = open_map(qtbot, desk, settle, bare)
    click(dialog, 30, 30)
    assert "No hardware is logged" in dialog.holes.caption.text()
    assert "no hardware is logged" in dialog.panel.count.text()


def test_the_manual_overrides_is_said_where_a_torque_is(dialog) -> None:
    assert OVERRIDE in sentence_of(dialog)


def test_every_control_has_a_name_and_keys_reach_it(dialog) -> None:
    for title in dialog.panel.pages:
        dialog.bar.choose(title)
        assert nameless(dialog) == []


def test_tab_goes_from_the_map_through_the_open_page(dialog) -> None:
    """Also through what is made late: the lines of hardware, the photos."""
    four(dialog)
    assert walked(dialog.sheet)[1:5] == [
        "3 bolts M8x35, holes 1–4", "1 bolt M8x50, no hole yet", "No fastener said",
        "Close gaps: number the holes anew",
    ]  # fmt: skip
    dialog.bar.choose("Ground")
    assert walked(dialog.sheet)[1] == "What the holes lie on: A drawn rectangle"


def test_figures_open_the_pages(dialog) -> None:
    for at, title in enumerate(dialog.panel.pages, 1):
        key_of_page = getattr(Qt.Key, f"Key_{at}")
        QTest.keyClick(dialog, key_of_page, Qt.KeyboardModifier.AltModifier)
        assert dialog.panel.page.title == title
        assert dialog.panel.page.isVisible()


def test_it_is_gone_once_it_is_closed(qtbot, desk, settle, store, part, tmp_path) -> None:
    services.photos.add(store, part, [photo(tmp_path / "cover.jpg")], who="Ada")

    def make():
        from bagtag.ui.holes.hole_dialog import HoleMapDialog

        made = HoleMapDialog(desk, None, part)
        settle(desk)
        for title in made.panel.pages:
            made.bar.choose(title)
        return made

    assert dies(qtbot, make)


def test_a_part_that_is_gone_is_said(qtbot, desk, settle, store, part) -> None:
    from bagtag.ui.holes.hole_dialog import open_hole_map
    from tests.ui.add_kit import host

    services.strip.delete_removal(store, part, who="Ada")
    with qtbot.waitSignal(desk.said) as told:
        dialog = open_hole_map(desk, host(qtbot), part)
        settle(desk)
    assert told.args[1]
    assert not is_open(dialog)


def test_a_map_is_found_again_as_it_was_kept(qtbot, desk, settle, store, part, dialog) -> None:
    four(dialog)
    click(dialog, 190, 140)
    letter(qtbot, dialog, "b")
    before = dialog.draft.map
    dialog.keep.click()
    settle(desk)
    again = open_map(qtbot, desk, settle, part)
    assert again.draft.map == before
    assert not again.keep.isEnabled()
    assert [line.mark for line in again.draft.held_by] == ["A", "B"]
    assert len(again.draft.held_by) == len(LINES)


def test_a_map_without_holes_is_not_kept(dialog, store, desk, settle, part) -> None:
    dialog.draft.set_seen_from("above")
    dialog.keep.click()
    settle(desk)
    assert dialog.wrong.text() == NO_HOLES
    assert kept(store, part) is None


def test_a_map_whose_holes_are_taken_out_is_gone(qtbot, desk, settle, store, part, dialog) -> None:
    four(dialog)
    dialog.keep.click()
    settle(desk)
    again = open_map(qtbot, desk, settle, part)
    again.draft.point((1, 2, 3, 4))
    key(again, Qt.Key.Key_Delete)
    again.keep.click()
    settle(desk)
    assert kept(store, part) is None
    services.history.undo(store, desk.job_id, who="Ada")
    assert len(kept(store, part).holes) == 4


def test_enter_takes_the_line_that_has_the_keys(dialog) -> None:
    four(dialog)
    click(dialog, 190, 140)
    choice = dialog.holes.lines.choice("A")
    choice.setFocus()
    QTest.keyClick(choice, Qt.Key.Key_Down)
    QTest.keyClick(dialog.focusWidget(), ENTER)
    assert marks(dialog.draft.map)[3] == "B"
