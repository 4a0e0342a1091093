"""What the card knows of a kind of part, and what follows from it: fate, side, size, hazards."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.kinds import NO_KIND, Kinds, PartKind, Renewal
from bagtag.domain.model import Fate, Hazard
from bagtag.domain.which_way import (
    OtherPart,
    Place,
    SameWay,
    Seat,
    SeatKind,
)
from bagtag.ui.entry.kind_line import knowledge
from bagtag.ui.entry.kind_picker import matching
from tests.ui.ask_kit import panel
from tests.ui.forms_kit import ENTER, press, removals, write


def test_the_fate_of_a_kind_that_is_always_renewed(asking):
    write("oil seal")
    assert asking.draft.fate is Fate.RENEW
    assert "always" in asking.fields.fate_why.text()
    assert asking.fields.fate_why.isVisibleTo(asking.fields)
    asking.head.name.setText("main shaft")
    assert asking.draft.fate is Fate.REFIT
    assert not asking.fields.fate_why.isVisibleTo(asking.fields)


def test_a_fate_that_a_person_chose_is_never_changed(asking, desk, settle, ids):
    asking.fields.fate.choose(Fate.REFIT)
    write("oil seal")
    assert asking.draft.fate is Fate.REFIT
    asking.open(ids["shift drum"])
    settle(desk)
    asking.start_new()
    settle(desk)
    assert asking.draft.fate is Fate.REFIT


def test_the_fate_of_an_entry_that_is_corrected_stays(asking, desk, settle, ids):
    asking.open(ids["shift drum"])
    settle(desk)
    asking.head.name.setText("oil seal")
    assert asking.draft.fate is Fate.REFIT


def test_a_fate_on_the_tape_line_is_chosen(asking, store, job_id):
    asking.take_tape(services.tape.reader(store, job_id).read("oil seal, refit"))
    assert asking.draft.fate is Fate.REFIT


def test_another_kind_is_chosen_by_typing(qtbot, asking, desk, settle, store, job_id):
    write("bung")
    asking.fields.asks.line.other.click()
    write("lip")
    press(ENTER)
    assert asking.draft.kind == "oil seal"
    assert QApplication.focusWidget() is panel(asking)
    write("11")
    press(ENTER)
    settle(desk)
    last = removals(store, job_id)[-1]
    assert (last.name, last.kind, last.fate) == ("bung", "oil seal", Fate.RENEW)


def test_no_kind_asks_nothing(asking):
    write("oil seal")
    asking.fields.asks.line.other.click()
    picker = asking.fields.asks.line.picker
    picker.slips[-1].click()
    assert asking.draft.kind == NO_KIND
    assert not panel(asking).isVisible()
    assert asking.draft.fate is Fate.REFIT


def test_kinds_are_found_by_any_of_their_names():
    seal = PartKind("oil seal", also=("lip seal", "shaft seal"))
    ring, shaft = PartKind("O-ring"), PartKind("shaft")
    known = Kinds([seal, ring, shaft])
    assert matching(known, "shaft") == [shaft, seal]
    assert matching(known, "ring") == [ring]
    assert matching(known, "") == [ring, seal, shaft]
    assert matching(known, "gasket") == []


def test_what_is_known_of_a_kind_is_said_in_full():
    kind = PartKind(
        "gear",
        renew=Renewal.ALWAYS,
        why="OUT wears.",
        goes_wrong="It howls.",
        together=("its mate",),
    )
    assert knowledge(kind) == "Always renewed: OUT wears.\nIt howls.\nStays with: its mate."


def test_the_knowledge_stands_under_the_name_and_is_never_cut(qtbot, asking):
    asking.head.name.setText("oil seal")
    line = asking.fields.asks.line
    assert line.title.text() == "Oil seal"
    assert line.knowledge.text().startswith("Always renewed: the lip has worn to its shaft.")
    text = line.knowledge
    qtbot.waitUntil(lambda: text.height() >= text.heightForWidth(text.width()))


def test_side_size_and_hazards_go_round(asking, desk, settle, store, job_id):
    more = asking.fields.more
    write("oil seal")
    assert more.size_line.placeholderText() == "shaft x housing x width, in mm"
    assert not more.fold.isVisibleTo(asking.fields)
    more.press.click()
    more.side.choose(Side.LEFT)
    more.size_line.setText("35 x 52 x 7")
    more.hazards.chips[2].click()
    asking.acts.log.click()
    settle(desk)
    last = removals(store, job_id)[-1]
    assert (last.side, last.size, last.hazards) == (Side.LEFT, "35 x 52 x 7", (Hazard.SHARP,))
    assert not more.fold.isVisibleTo(asking.fields)
    asking.open(last.id)
    settle(desk)
    assert more.fold.isVisibleTo(asking.fields)
    assert asking.draft.hazards == (Hazard.SHARP,)
    asking.fields.condition.set_text("hard")
    asking.acts.log.click()
    settle(desk)
    now = services.strip.get_removal(store, last.id)
    assert (now.side, now.size, now.hazards) == (last.side, last.size, last.hazards)


def test_too_long_a_size_is_said_beside_it(asking, desk, settle):
    write("shim")
    asking.fields.more.size_line.setText("x" * 600)
    asking.acts.log.click()
    settle(desk)
    assert "600" in asking.fields.more.fields["size"].wrong.text()
    assert asking.fields.more.fold.isVisibleTo(asking.fields)


def test_the_side_says_which_side_outward_is(asking):
    asking.fields.more.side.choose(Side.RIGHT)
    write("oil seal")
    details = [choice.option.detail for choice in panel(asking).choices._choices]
    assert details[:2] == ["the flywheel side", "the clutch side"]


def test_as_the_last_one_copies_nothing_of_the_one_part(asking, desk, settle, store, job_id):
    entry = Entry(
        "oil seal", which_way=(Seat(SeatKind.FLUSH),), size="35 x 52 x 7", side=Side.LEFT,
        hazards=(Hazard.SHARP,), unanswered=("faces lip",), kind="oil seal", goes_on="grease",
    )  # fmt: skip
    services.strip.log_removal(store, job_id, entry, who="Ada")
    asking.acts.again.click()
    settle(desk)
    now = asking.draft
    assert now.goes_on == "grease"
    assert (now.which_way, now.size, now.side) == ((), "", None)
    assert (now.hazards, now.unanswered, now.kind) == ((), (), "")


def test_what_it_says_against_another_entry_is_said_as_typed(qtbot, asking, desk, settle, store,
                                                              job_id):  # fmt: skip
    taken = Entry("washer", which_way=(Place(1, 3, Side.LEFT),))
    services.strip.log_removal(store, job_id, taken, who="Ada")
    write("washer")
    asking.fields.which_way.set_facts((Place(1, 3, Side.LEFT),))
    asking.fields.which_way.changed.emit()
    wrong = asking.fields.which_way.view.wrong
    qtbot.waitUntil(lambda: "1st of 3" in wrong.text())
    asking.start_new()
    asking.head.name.clear()
    asking.start_new()
    settle(desk)
    assert asking.fields.which_way.view.wrong.text() == ""


def test_the_other_part_is_told_by_its_number_and_name(qtbot, asking, desk, settle, store, ids):
    write("shift fork R")
    form = asking.fields.which_way
    form.setFocus()
    press(Qt.Key.Key_W)
    write("3")
    press(ENTER)  # the line of the log with that number, which is still being looked up
    settle(desk)
    press(ENTER)
    uid = services.strip.get_removal(store, ids["shift fork L"]).uid
    assert form.facts == (SameWay(OtherPart("shift fork L", uid)),)
    qtbot.waitUntil(lambda: "3" in form.view.words.text())
    form.edit(0)
    assert form.editor.other.line.text() == "3 shift fork L"
    form.editor.way.choose(True)
    assert form.facts == (SameWay(OtherPart("shift fork L", uid), True),)
