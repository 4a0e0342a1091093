"""One send-out: what is said of it, changed on it, its papers and photos, its traveller."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDesktopServices, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QFileDialog, QPushButton

from bagtag import services
from bagtag.domain.model import Origin, PhotoRole
from bagtag.domain.sending import Back, ShopPart
from bagtag.ui.order.add_part import PartDialog
from bagtag.ui.sheets.traveller_dialog import TravellerDialog
from tests.ui.add_kit import opened
from tests.ui.away.away_kit import batch, days, send_drum, sent_before
from tests.ui.forms_kit import ENTER, ESC, picture, press, write
from tests.ui.stages_job import sentence_of

COPY, LEFT = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
NONE = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def stage(sent, stage):
    stage.show_batch(sent)
    return stage


def act(stage, part: str, word: str):
    """Press this word on the piece of tape of a part."""
    tape = next(one for one in stage.one.items if one.item.removal.name == part)
    press_it = next(b for b in tape.findChildren(QPushButton) if b.text() == word)
    press_it.click()
    return tape


def paper(folder: Path, name: str = "quote & drawing.pdf") -> Path:
    made = folder / name
    made.write_bytes(b"%PDF-1.4 a quote")
    return made


def test_everything_that_was_said_of_it_is_in_sight(stage) -> None:
    said = sentence_of(stage)
    for words in (
        "promised for",
        "4 days late",
        "the foreman",
        "180.00 EUR",
        "1  cover, clutch side",
        "skim the joint face",
        "flatness: at most 0.05 mm",
        "taken off it first: 2 gasket, cover",
        "the shop takes off: 2 × dowels",
        "grind the seal land",
    ):
        assert words in said
    assert [one.item.removal.name for one in stage.one.items] == [
        "cover, clutch side",
        "main shaft",
    ]


# What is changed


def test_the_batch_is_changed(stage, desk, settle, store, sent) -> None:
    stage.one.change.click()
    dialog = stage.one.dialog
    dialog.form.promised.setText("2 weeks")
    dialog.form.more.price.setText("199,50")
    dialog.save()
    settle(desk)
    whole = batch(store, sent).send_out
    assert whole.promised == days(14)
    assert str(whole.price) == "199.50"
    assert whole.contact == "the foreman"
    assert "late" not in stage.one.when.text()
    assert stage.one.when.property("tone") == "muted"


def test_a_batch_that_is_only_looked_at_stays_as_it_is(stage, desk, settle, store, sent) -> None:
    before = batch(store, sent).send_out
    stage.one.change.click()
    stage.one.dialog.save()
    settle(desk)
    assert batch(store, sent).send_out == before


def test_a_promised_day_before_it_went_is_said_on_the_form(stage, desk, settle, store, sent):
    stage.one.change.click()
    dialog = stage.one.dialog
    dialog.form.promised.setText(date(2020, 1, 1).isoformat())
    dialog.save()
    settle(desk)
    assert dialog.isVisible()
    assert "before it goes out" in dialog.form.fields["promised"].wrong.text()
    assert batch(store, sent).send_out.promised == days(-4)


def test_what_is_wanted_of_a_part_is_changed(stage, desk, settle, store, job, sent) -> None:
    act(stage, "cover, clutch side", "Change what is wanted")
    settle(desk)
    form = stage.one.parts.dialog.form
    assert form.work.text() == "skim the joint face"
    assert form.off.ids == [job.parts["gasket, cover"]]
    assert form.takes.parts == [ShopPart("dowels", 2)]
    form.work.setText("skim and lap")
    form.figures.rows[0].high.setText("0,02")
    form.takes.set_parts([ShopPart("dowels", 4), ShopPart("oil jet")])
    stage.one.parts.dialog.save()
    settle(desk)
    said = sentence_of(stage)
    assert "skim and lap" in said
    assert "at most 0.02 mm" in said
    assert "the shop takes off: 4 × dowels, oil jet" in said


def test_what_is_still_there_of_a_part_that_is_back_is_said(
    stage, desk, settle, store, sent
) -> None:
    assert "still there" not in sentence_of(stage)
    cover = next(one for one in batch(store, sent).items if one.by_shop_of is None)
    services.send_outs.back(store, [Back(cover.away.id, note="seen")], who="MK")
    stage.enter()
    settle(desk)
    assert "still there: 2 × dowels" in sentence_of(stage)


def test_the_shop_took_something_off_as_well(qtbot, stage, desk, settle, store, job, sent) -> None:
    act(stage, "main shaft", "The shop took a part off")
    stage.one.parts.dialog.activateWindow()  # no window manager does it here
    qtbot.waitUntil(stage.one.parts.dialog.isActiveWindow)
    assert stage.one.parts.dialog.line.hasFocus()
    write("3 oil jets")
    press(ENTER)
    settle(desk)
    made = batch(store, sent).items[-1]
    assert (made.removal.name, made.removal.quantity) == ("oil jets", 3)
    assert made.removal.origin is Origin.SHOP
    assert made.by_shop_of == job.parts["main shaft"]
    assert "the shop takes off: 3 × oil jets" in sentence_of(stage)


def test_what_the_shop_took_off_a_part_of_an_older_store_is_logged(
    stage, desk, settle, store, job
) -> None:
    sent_before(store, job)
    stage.show_all()
    stage.enter()
    settle(desk)
    stage.all.cards[-1].show_it.click()
    act(stage, "shift fork R", "The shop took a part off")
    settle(desk)
    (form,) = opened(PartDialog)
    form.line.setText("oil nozzle, renew")
    form.save()
    settle(desk)
    made = services.strip.get_removal(store, max(services.strip.log_ids(store, job.id)))
    assert (made.name, made.origin) == ("oil nozzle", Origin.SHOP)


def test_a_part_that_did_not_go_is_here_again_and_undo_sends_it(
    stage, desk, settle, store, job, sent
) -> None:
    act(stage, "cover, clutch side", "It did not go")
    settle(desk)
    assert [item.removal.name for item in batch(store, sent).items] == ["main shaft"]
    assert [one.item.removal.name for one in stage.one.items] == ["main shaft"]
    desk.act(services.history.undo, job.id)
    settle(desk)
    assert len(stage.one.items) == 2


def test_a_batch_that_did_not_go_leads_back_to_all(stage, desk, settle, store, job, sent) -> None:
    stage.one.gone.click()
    settle(desk)
    assert services.send_outs.batches(store, job.id) == ()
    assert stage.pages.currentWidget() is stage.all


def test_a_card_is_shown(stage, desk, job) -> None:
    shown: list[int] = []
    desk.show_removal.connect(shown.append)
    act(stage, "main shaft", "Show its card")
    assert shown == [job.parts["main shaft"]]


def test_the_traveller_is_opened_by_its_key(qtbot, stage, desk, settle) -> None:
    qtbot.keyClick(stage.one, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    settle(desk)
    (dialog,) = opened(TravellerDialog)
    dialog.reject()
    settle(desk)


# Papers


def test_papers_are_chosen_dropped_and_taken_off(
    qtbot, stage, desk, settle, store, sent, tmp_path
) -> None:
    papers = stage.one.papers
    papers.add.click()
    dialog = papers.findChild(QFileDialog)
    dialog.filesSelected.emit([str(paper(tmp_path))])
    dialog.close()
    settle(desk)
    assert papers.slips.slip(0).text() == "quote & drawing.pdf"
    second = tmp_path / "invoice.txt"
    second.write_text("180.00 EUR", encoding="utf-8")
    drop(papers, second)
    settle(desk)
    assert [one.name for one in batch(store, sent).documents] == [
        "quote & drawing.pdf",
        "invoice.txt",
    ]
    qtbot.keyClick(papers.slips.slip(0), Qt.Key.Key_Delete)
    settle(desk)
    assert [one.name for one in batch(store, sent).documents] == ["invoice.txt"]


def drop(papers, *files: Path) -> None:
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(one)) for one in files])
    enter = QDragEnterEvent(papers.rect().center(), COPY, mime, LEFT, NONE)
    papers.dragEnterEvent(enter)
    assert enter.isAccepted()
    papers.dropEvent(QDropEvent(QPointF(papers.rect().center()), COPY, mime, LEFT, NONE))


def test_a_paper_that_cannot_be_read_is_named_and_the_rest_taken(
    stage, desk, settle, store, sent, tmp_path
) -> None:
    stage.one.papers.take_in([tmp_path / "gone.pdf", paper(tmp_path)])
    settle(desk)
    assert "gone.pdf" in stage.one.papers.refused.text()
    assert len(batch(store, sent).documents) == 1


def test_a_paper_is_opened_and_one_whose_file_is_missing_is_said(
    stage, desk, settle, store, sent, tmp_path, monkeypatch
) -> None:
    shown: list[str] = []

    def show(url: QUrl) -> bool:
        shown.append(url.toLocalFile())
        return len(shown) == 1

    monkeypatch.setattr(QDesktopServices, "openUrl", show)
    stage.one.papers.take_in([paper(tmp_path)])
    settle(desk)
    stage.one.papers.slips.slip(0).click()
    settle(desk)
    assert Path(shown[0]).read_bytes() == b"%PDF-1.4 a quote"
    stage.one.papers.slips.slip(0).click()
    settle(desk)
    assert "No program opens" in stage.one.papers.refused.text()
    Path(shown[0]).unlink()
    stage.one.papers.slips.slip(0).click()
    settle(desk)
    assert "missing from the store" in stage.one.papers.refused.text()
    assert len(shown) == 2


# Photos


def test_a_photo_before_it_went_is_kept_and_its_piece_of_tape_stays_open(
    stage, desk, settle, store, job, tmp_path
) -> None:
    tape = act(stage, "main shaft", "Photos before it went")
    settle(desk)
    tape.photos.add([picture(tmp_path / "shaft.png")])
    settle(desk)
    (photo,) = services.photos.photos_of(store, job.parts["main shaft"])
    assert photo.role is PhotoRole.SENT
    assert stage.one.items[1] is tape
    assert tape.has_photos_open
    assert tape.photos.count == 1


def test_only_one_part_has_its_photos_open(stage, desk, settle) -> None:
    first = act(stage, "cover, clutch side", "Photos before it went")
    second = act(stage, "main shaft", "Photos before it went")
    settle(desk)
    assert not first.has_photos_open
    assert second.has_photos_open
    act(stage, "main shaft", "Photos before it went")
    assert not second.has_photos_open


def test_photos_of_what_is_back_are_of_how_it_came_back(
    stage, desk, settle, store, job, tmp_path
) -> None:
    other = send_drum(store, job)
    away_id = batch(store, other).items[0].away.id
    services.send_outs.back(store, [services.send_outs.Back(away_id)], who="MK")
    stage.enter()
    settle(desk)
    stage.show_batch(other)
    tape = act(stage, "shift drum", "Photos as it came back")
    tape.photos.add([picture(tmp_path / "drum.png")])
    settle(desk)
    (photo,) = services.photos.photos_of(store, job.parts["shift drum"])
    assert photo.role is PhotoRole.RETURNED


def test_escape_goes_back_to_all(stage) -> None:
    press(ESC)
    assert stage.pages.currentWidget() is stage.all
