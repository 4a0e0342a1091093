"""Renew: what is bought new, by supplier, from the day it is wanted until it is compared."""

from datetime import timedelta
from decimal import Decimal

from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.model import Replacement
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewal_merge import merged, to_order
from bagtag.domain.renewals import RenewLine
from bagtag.ui.renew.renew_lines import sum_words
from bagtag.ui.renew.renew_signs import Stand, stand_of
from tests.ui.forms_kit import CONTROL, ENTER, ESC, picture, press, write
from tests.ui.renew.renew_kit import HOUSE, TODAY, headings, kept, line_of, retype
from tests.ui.stages_job import sentence_of


def test_the_sum_to_order_is_of_what_is_still_to_come_as_on_the_order_list() -> None:
    price = {"price": Decimal("2.50"), "currency": "EUR"}
    some = NewPart(0, "", 1, what="circlip", supplier=HOUSE, count=3, arrived=1, **price)
    line = RenewLine(some)
    assert sum_words([line]) == "1 to order, 5.00 EUR"
    (ordered,) = merged([to_order(line)])
    assert ordered.total == (("EUR", Decimal("5.00")),)


def test_lines_stand_below_their_suppliers_and_suggestions_apart(stage) -> None:
    assert headings(stage) == [
        ("agricultural parts counter", "all ordered"),
        ("bearing house", "2 to order, 9.80 EUR"),
        ("No supplier yet", "2 to order"),
        ("To think about", "nobody decided these yet"),
    ]
    assert stage.head.text() == "6 to renew: 4 to order, 1 late, 1 to compare"
    assert stage.list.hasFocus()


def test_each_line_says_in_words_where_it_stands(stage, store, job) -> None:
    stands = {line.new_part.what: stand_of(line) for line in services.renewals.lines(store, job.id)}
    assert stands == {
        "main shaft bearing": Stand.WANTED,
        "circlip": Stand.WANTED,
        "nut": Stand.WANTED,
        "sealant, flange": Stand.WANTED,
        "oil jets": Stand.LATE,
        "gasket, cover": Stand.COMPARE,
        "oil seal, main shaft": Stand.SUGGESTED,
    }
    spoken = [stage.list.rows.spoken(line) for line in stage.list.rows.lines]
    late = next(words for words in spoken if words.startswith("4 × oil jets"))
    assert "late" in late
    assert "3 days late" in late
    assert "4 409 117" in late


def test_the_panel_shows_where_the_old_one_lies(stage, at, desk, settle, store, job, tmp_path):
    at("gasket, cover")
    assert "with the old one on the bench" in sentence_of(stage.side)
    assert stage.side.about.photo.isHidden()
    services.photos.add(store, job.parts["gasket, cover"], [picture(tmp_path / "gasket.png")])
    stage.enter()
    at("oil jets")
    assert stage.side.about.photo.isHidden()
    at("gasket, cover")
    assert not stage.side.about.photo.isHidden()


def test_one_line_is_ordered_by_keyboard(stage, at, letter, desk, settle, store, job) -> None:
    at("main shaft bearing")
    letter(Qt.Key.Key_O)
    assert stage.side.order.head.text() == "Order from bearing house"
    stage.side.order_form.due.setFocus()
    write("2 weeks")
    press(ENTER)
    settle(desk)
    part = kept(store, job, "main shaft bearing")
    assert (part.ordered_on, part.due) == (TODAY, TODAY + timedelta(days=14))
    assert kept(store, job, "circlip").state is Replacement.WANTED
    removal = services.strip.get_removal(store, job.parts["main shaft bearing"])
    assert removal.replacement is Replacement.ORDERED
    assert stage.list.hasFocus()
    assert stage.list.here.new_part.what == "main shaft bearing"


def test_several_of_a_supplier_are_ordered_at_once(stage, at, desk, settle, store, job) -> None:
    at("circlip")
    press(ENTER)
    form = stage.side.order_form
    assert [part.what for part in form.lines.rows.lines] == ["circlip", "main shaft bearing"]
    assert [part.what for part in form.lines.chosen()] == ["circlip"]
    assert form.lines.hasFocus()
    press(Qt.Key.Key_A, CONTROL)
    assert form.total.text() == "2 lines, 9.80 EUR"
    press(ENTER)
    settle(desk)
    assert headings(stage)[1] == ("bearing house", "all ordered")
    assert kept(store, job, "circlip").ordered_on == TODAY


def test_an_order_of_nothing_is_said_at_its_list(stage, at, desk, settle, store, job) -> None:
    at("circlip")
    press(ENTER)
    press(Qt.Key.Key_Space)
    press(ENTER)
    settle(desk)
    assert "Choose at least one line" in sentence_of(stage.side)
    assert kept(store, job, "circlip").state is Replacement.WANTED


def test_what_has_no_supplier_gets_one_when_it_is_ordered(stage, at, desk, settle, store, job):
    at("sealant, flange")
    press(ENTER)
    stage.side.order_form.supplier.line.setFocus()
    write(HOUSE)
    press(ENTER)
    settle(desk)
    part = kept(store, job, "sealant, flange")
    assert (part.supplier, part.ordered_on) == (HOUSE, TODAY)


def test_a_day_that_is_none_is_said_at_its_field(stage, at, desk, settle, store, job) -> None:
    at("circlip")
    press(ENTER)
    stage.side.order_form.due.setFocus()
    write("soon")
    press(ENTER)
    settle(desk)
    assert "soon is no day" in stage.side.order_form.fields["due"].wrong.text()
    assert stage.side.order_form.due.text() == "soon"
    retype((TODAY - timedelta(days=2)).isoformat())
    press(ENTER)
    settle(desk)
    assert "before it was ordered" in stage.side.order_form.fields["due"].wrong.text()
    assert kept(store, job, "circlip").state is Replacement.WANTED


def test_some_of_it_arrives(stage, at, letter, desk, settle, store, job) -> None:
    at("oil jets")
    letter(Qt.Key.Key_H)
    ask = stage.side.about.arrived
    assert ask.many.text() == "4"
    retype("9")
    press(ENTER)
    settle(desk)
    assert "Only 4 of 4" in ask.named["count"].wrong.text()
    retype("3")
    press(ENTER)
    settle(desk)
    part = kept(store, job, "oil jets")
    assert (part.arrived, part.state) == (3, Replacement.ORDERED)
    assert ask.isHidden()
    assert "3 of 4 here" in sentence_of(stage.side)


def test_what_was_counted_too_high_is_counted_anew(stage, at, letter, desk, settle, store, job):
    at("oil jets")
    letter(Qt.Key.Key_E)
    assert stage.side.line_form.fields["arrived"].isHidden()
    press(ESC)
    services.renewals.arrive(store, kept(store, job, "oil jets"), 4, TODAY)
    stage.enter()
    settle(desk)
    at("oil jets")
    letter(Qt.Key.Key_E)
    here = stage.side.line_form.fields["arrived"]
    assert not here.isHidden()
    here.editor.setFocus()
    for typed, said in (("some", "A whole number, 0 or more"), ("5", "from 0 to 4")):
        retype(typed)
        press(ENTER)
        settle(desk)
        assert said in here.wrong.text()
    retype("3")
    press(ENTER)
    settle(desk)
    part = kept(store, job, "oil jets")
    assert (part.arrived, part.arrived_on, part.state) == (3, TODAY, Replacement.ORDERED)
    assert "3 of 4 here" in sentence_of(stage.side)


def test_a_wrong_part_goes_back_and_is_wanted_again(stage, at, letter, desk, settle, store, job):
    at("gasket, cover")
    letter(Qt.Key.Key_W)
    press(ENTER)
    assert "the supplier will ask" in sentence_of(stage.side)
    write("two holes too few")
    press(ENTER)
    settle(desk)
    part = kept(store, job, "gasket, cover")
    assert (part.arrived, part.returned_on, part.returned_why) == (0, TODAY, "two holes too few")
    assert part.state is Replacement.WANTED
    assert "two holes too few" in sentence_of(stage.side)


def test_a_new_part_is_compared_with_the_old_one(stage, at, desk, settle, store, job) -> None:
    at("gasket, cover")
    press(ENTER)
    ask = stage.side.about.compare
    assert ask.head.text() == "Compare it with the old one on the bench."
    ask.differs.click()
    assert "Say what differs" in sentence_of(stage.side)
    write("every hole")
    press(ENTER)
    settle(desk)
    part = kept(store, job, "gasket, cover")
    assert (part.compared_by, part.compared_note) == ("Ada", "every hole")
    assert stand_of(line_of(store, job, "gasket, cover")) is Stand.HERE


def test_one_that_differs_goes_back(stage, at, desk, settle, store, job) -> None:
    at("gasket, cover")
    press(ENTER)
    write("a hole is missing")
    stage.side.about.compare.differs.click()
    settle(desk)
    part = kept(store, job, "gasket, cover")
    assert part.compared_at is None
    assert (part.state, part.returned_why) == (Replacement.WANTED, "a hole is missing")
