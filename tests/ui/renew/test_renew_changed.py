"""Renew: lines changed, added, taken off and shown; what a person typed stays as it is."""

from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from bagtag import services
from bagtag.domain import codes
from bagtag.domain.model import Fate, Replacement
from bagtag.domain.new_part import NewPart
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.renew.renew_acts import Do, acts_for
from bagtag.ui.renew.renew_stage import RenewStage
from tests.ui.forms_kit import CONTROL, ENTER, ESC, TAB, press, show, write
from tests.ui.renew.renew_kit import HOUSE, headings, kept, retype
from tests.ui.stages_job import dies, nameless, sentence_of


def test_a_line_is_changed_field_by_field(stage, at, letter, desk, settle, store, job) -> None:
    at("main shaft bearing")
    letter(Qt.Key.Key_E)
    form = stage.side.line_form
    assert not form.what.isEnabled()
    for editor, text in ((form.its_size, "6204 C3"), (form.price, "9,35"), (form.count, "2")):
        editor.setFocus()
        retype(text)
    press(ENTER)
    settle(desk)
    part = kept(store, job, "main shaft bearing")
    assert (part.size, part.price, part.currency) == ("6204 C3", Decimal("9.35"), "EUR")
    assert part.count == 2
    assert part.supplier == HOUSE


def test_a_price_that_is_none_is_said_and_nothing_typed_is_lost(stage, at, letter, store, job):
    at("circlip")
    letter(Qt.Key.Key_E)
    form = stage.side.line_form
    form.note.setText("the thick ones")
    form.price.setFocus()
    retype("cheap")
    press(ENTER)
    assert "is no price" in form.fields["price"].wrong.text()
    assert form.price.hasFocus()
    assert (form.price.text(), form.note.text()) == ("cheap", "the thick ones")
    assert kept(store, job, "circlip").price == Decimal("0.45")


def test_a_change_that_comes_from_elsewhere_leaves_an_open_form(stage, at, letter, desk, settle):
    at("circlip")
    letter(Qt.Key.Key_E)
    stage.side.line_form.note.setText("the thick ones")
    line = stage.lines[0]
    desk.act(services.renewals.save, line.new_part)
    settle(desk)
    assert stage.side.pages.currentWidget() is stage.side.edit
    assert stage.side.line_form.note.text() == "the thick ones"


def test_something_else_is_added_and_taken_off_again(stage, desk, settle, store, job, at):
    press(Qt.Key.Key_N, CONTROL)
    form = stage.side.line_form
    assert form.what.hasFocus()
    press(ENTER)
    settle(desk)
    assert "Say what is bought" in form.fields["what"].wrong.text()
    write("split pins, mixed")
    press(TAB)
    retype("20")
    press(ENTER)
    settle(desk)
    part = kept(store, job, "split pins, mixed")
    assert (part.removal_id, part.count) == (None, 20)
    at("split pins, mixed")
    press(Qt.Key.Key_Delete)
    settle(desk)
    assert all(line.new_part.what != "split pins, mixed" for line in stage.lines)


def test_the_line_of_a_part_is_not_taken_off(stage, at, desk, settle, store, job) -> None:
    line = at("circlip")
    assert Do.REMOVE not in acts_for(line)
    press(Qt.Key.Key_Delete)
    settle(desk)
    assert kept(store, job, "circlip").supplier == HOUSE


def test_escape_leaves_a_form_as_it_was(stage, at, letter, desk, settle, store, job) -> None:
    at("circlip")
    letter(Qt.Key.Key_E)
    retype("another counter")
    press(ESC)
    settle(desk)
    assert not stage.side.is_open
    assert stage.list.hasFocus()
    assert kept(store, job, "circlip").supplier == HOUSE


def test_a_suggestion_is_taken(stage, at, letter, desk, settle, store, job) -> None:
    line = at("oil seal, main shaft")
    assert acts_for(line)[0] is Do.ACCEPT
    letter(Qt.Key.Key_R)
    seal = services.strip.get_removal(store, job.parts["oil seal, main shaft"])
    assert seal.fate is Fate.RENEW
    assert "To think about" not in [title for title, _ in headings(stage)]


def test_a_scan_that_types_does_nothing(stage, at, qtbot, desk, settle, store, job) -> None:
    before = services.renewals.lines(store, job.id)
    for letters in (codes.draw(max), "OHWECRS"):
        at("gasket, cover")
        QTest.keyClicks(stage.list, letters)
        QTest.keyClick(stage.list, ENTER)
        qtbot.wait(QUIET + 30)
        settle(desk)
        assert not stage.side.is_open
    assert services.renewals.lines(store, job.id) == before


def test_the_part_of_a_line_can_be_shown(stage, at, letter, qtbot, desk, job) -> None:
    at("circlip")
    with qtbot.waitSignal(desk.show_removal) as heard:
        press(Qt.Key.Key_S)
    assert heard.args == [job.parts["circlip"]]


def test_what_a_person_typed_is_shown_as_it_is(stage, at, desk, settle, store, job) -> None:
    odd = "<b>seal & ring</b>"
    part = NewPart(0, "", job.id, what=odd, supplier="Ring & <i>Sons</i>", note="= 1 & 2")
    desk.act(services.renewals.save, part)
    settle(desk)
    at(odd)
    assert stage.side.about.name.text() == odd
    assert "Ring & <i>Sons</i>" in sentence_of(stage.side)
    assert ("Ring & <i>Sons</i>", "1 to order") in headings(stage)
    press(ENTER)
    assert stage.side.order.head.text() == "Order from Ring & <i>Sons</i>"


def test_undo_brings_the_row_back(stage, at, desk, settle, store, job) -> None:
    at("circlip")
    press(ENTER)
    press(ENTER)
    settle(desk)
    assert kept(store, job, "circlip").state is Replacement.ORDERED
    desk.act(services.history.undo, job.id)
    settle(desk)
    assert kept(store, job, "circlip").state is Replacement.WANTED
    assert stage.list.here.new_part.what == "circlip"


def test_nothing_to_renew_says_what_comes_next(qtbot, desk, job_id, settle) -> None:
    desk.choose_job(job_id)
    made = RenewStage(desk)
    show(qtbot, made)
    made.enter()
    settle(desk)
    assert "Nothing is to be renewed" in sentence_of(made)
    assert "Measure" in sentence_of(made)
    press(Qt.Key.Key_N, CONTROL)
    assert made.side.line_form.what.hasFocus()
    press(ESC)
    assert "Nothing is to be renewed" in sentence_of(made)


def test_names_and_leaks(stage, at, letter, qtbot, desk, settle) -> None:
    assert nameless(stage) == []
    at("circlip")
    letter(Qt.Key.Key_E)
    assert nameless(stage) == []

    def make() -> RenewStage:
        made = RenewStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
