"""The areas: added, renamed, put inside one another, opened, taken out, all by keyboard."""

import weakref

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.ui.job.area_tree import AreaTree
from bagtag.ui.job.job_stage import look_up
from tests.ui.forms_kit import ALT, ENTER, ESC, TAB, press, show, write


@pytest.fixture
def tree(qtbot, desk, ids, settle):
    made = FreshTree(desk)
    show(qtbot, made)
    made.refresh()
    settle(desk)
    return made


class FreshTree(AreaTree):
    """A tree that asks again after every change, as its stage does for it."""

    def __init__(self, desk) -> None:
        super().__init__(desk)
        desk.changed.connect(self.refresh)

    def refresh(self, _=None) -> None:
        self.desk.ask(look_up, self.desk.job_id, then=self.shown)

    def shown(self, found) -> None:
        self.set_areas(found.job.id, found.areas, found.openers)


def outline(tree) -> list[tuple[int, str]]:
    return [(slip.level, slip.text()) for slip in tree.slips]


def test_the_tree_as_it_is(tree):
    assert outline(tree) == [(0, "lower case"), (1, "gearbox")]
    assert [slip.detail for slip in tree.slips] == ["nothing opens it yet"] * 2


def test_add_at_the_top_and_inside(tree, desk, settle):
    tree.new.setFocus()
    write("engine")
    press(ENTER)
    settle(desk)
    assert outline(tree)[-1] == (0, "engine")
    assert tree.new.text() == ""
    tree.go_to(tree.slips[-1].area.id)
    press(Qt.Key.Key_Insert)
    assert "inside engine" in tree.new_field.caption.text()
    write("crankcase")
    press(ENTER)
    settle(desk)
    assert outline(tree)[-2:] == [(0, "engine"), (1, "crankcase")]


def test_escape_goes_back_to_the_top(tree, desk, settle):
    tree.go_to(tree.slips[0].area.id)
    press(Qt.Key.Key_Insert)
    press(ESC)
    write("handlebars")
    press(ENTER)
    settle(desk)
    assert outline(tree)[-1] == (0, "handlebars")


def test_an_area_without_a_name_is_said(tree, desk, settle):
    tree.new.setFocus()
    press(ENTER)
    settle(desk)
    assert "name" in tree.new_field.wrong.text()
    assert len(tree.slips) == 2


def test_up_and_down(tree):
    tree.go_to(tree.slips[0].area.id)
    press(Qt.Key.Key_Down)
    assert QApplication.focusWidget() is tree.slips[1]
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Up)
    assert QApplication.focusWidget() is tree.slips[0]


def test_rename(tree, desk, settle):
    tree.go_to(tree.slips[1].area.id)
    press(Qt.Key.Key_F2)
    write("change box")
    press(ENTER)
    settle(desk)
    assert outline(tree) == [(0, "lower case"), (1, "change box")]
    assert QApplication.focusWidget() is tree.slips[1]


def test_put_inside_another_by_its_name(tree, desk, settle, store, job_id):
    services.jobs.add_area(store, job_id, "clutch")
    tree.refresh()
    settle(desk)
    tree.go_to(tree.slips[2].area.id)
    press(ENTER)
    press(TAB)
    write("gearb")
    press(Qt.Key.Key_Down)
    press(ENTER)
    settle(desk)
    assert outline(tree) == [(0, "lower case"), (1, "gearbox"), (2, "clutch")]


def test_an_area_that_is_not_there_is_said(tree, desk, settle):
    tree.edit(tree.slips[1].area.id)
    tree.form.inside.setText("attic")
    press(ENTER)
    settle(desk)
    assert "attic" in tree.form.fields["parent"].wrong.text()
    assert tree.form.isVisible()
    assert tree.form.inside.text() == "attic"


def test_an_area_is_not_offered_to_lie_inside_itself(tree):
    tree.edit(tree.slips[0].area.id)
    assert tree.form.inside.words == ()


def test_in_and_out_with_alt_and_the_arrows(tree, desk, settle, store, job_id):
    services.jobs.add_area(store, job_id, "clutch")
    tree.refresh()
    settle(desk)
    tree.go_to(tree.slips[2].area.id)
    press(Qt.Key.Key_Right, ALT)
    settle(desk)
    assert outline(tree) == [(0, "lower case"), (1, "gearbox"), (1, "clutch")]
    press(Qt.Key.Key_Right, ALT)
    settle(desk)
    assert outline(tree)[-1] == (2, "clutch")
    press(Qt.Key.Key_Left, ALT)
    settle(desk)
    press(Qt.Key.Key_Left, ALT)
    settle(desk)
    assert outline(tree)[-1] == (0, "clutch")
    assert QApplication.focusWidget() is tree.slips[2]


@pytest.mark.parametrize("typed", ["1", "clutch", "cover"])
def test_what_opens_it_by_number_or_name(tree, desk, settle, ids, typed):
    tree.edit(ids["gearbox"])
    tree.form.opener.line.setFocus()
    write(typed)
    settle(desk)
    press(ENTER)
    press(ENTER)
    settle(desk)
    assert tree.slips[1].detail == "opened by 1 cover, clutch side"
    assert not tree.form.isVisible()


def test_nothing_opens_it_again(tree, desk, settle, store, ids):
    services.jobs.set_opener(store, ids["gearbox"], ids["cover, clutch side"])
    tree.refresh()
    settle(desk)
    tree.edit(ids["gearbox"])
    tree.form.opener.line.setFocus()
    tree.form.opener.line.selectAll()
    press(Qt.Key.Key_Delete)
    press(ENTER)
    settle(desk)
    assert tree.slips[1].detail == "nothing opens it yet"


def test_an_opener_inside_what_it_opens_is_said_beside_it(tree, desk, settle, ids):
    tree.edit(ids["gearbox"])
    tree.form.opener.line.setFocus()
    write("drum")
    settle(desk)
    press(ENTER)
    press(ENTER)
    settle(desk)
    assert "cannot lie inside" in tree.form.opener.field.wrong.text()
    assert tree.form.isVisible()


def test_an_opener_typed_and_not_chosen_is_said(tree, desk, settle, ids):
    tree.edit(ids["gearbox"])
    tree.form.opener.line.setFocus()
    write("drum")
    tree.form.keep.click()
    settle(desk)
    assert "Choose one" in tree.form.opener.field.wrong.text()


def test_delete(tree, desk, settle, store, job_id, ids):
    tree.go_to(ids["lower case"])
    press(Qt.Key.Key_Delete)
    settle(desk)
    assert outline(tree) == [(0, "gearbox")]
    tree.go_to(ids["gearbox"])
    press(ENTER)
    tree.form.take_out.click()
    settle(desk)
    assert outline(tree) == []
    assert tree.empty.isVisible()
    assert services.strip.get_removal(store, ids["shift drum"]).area_id is None


def test_escape_leaves_an_area_as_it_was(tree, desk, settle):
    tree.edit(tree.slips[1].area.id)
    write("other")
    press(ESC)
    settle(desk)
    assert outline(tree)[1] == (1, "gearbox")
    assert QApplication.focusWidget() is tree.slips[1]


def test_the_tree_is_one_stop_for_tab(tree):
    tree.go_to(tree.slips[0].area.id)
    press(TAB)
    assert QApplication.focusWidget() is tree.new


def test_it_can_be_let_go(qtbot, desk, settle, ids):
    made = AreaTree(desk)
    made.set_areas(desk.job_id, services.jobs.areas_of(desk.store, desk.job_id), {})
    made.edit(ids["gearbox"])
    seen = weakref.ref(made)
    made.deleteLater()
    qtbot.wait(1)
    del made
    assert seen() is None


def test_an_area_that_nothing_covers(tree, desk, settle):
    tree.go_to(tree.slips[0].area.id)
    press(ENTER)
    assert tree.form.cover.text() == "Nothing covers it"
    tree.form.cover.click()
    settle(desk)
    assert tree.slips[0].detail == "nothing covers it"
    tree.go_to(tree.slips[0].area.id)
    press(ENTER)
    assert not tree.form.opener.isVisible()
    tree.form.cover.click()
    settle(desk)
    assert tree.slips[0].detail == "nothing opens it yet"
