"""The card's acts: signing, taking back, sending away, photos and tags, by mouse and by key."""

from datetime import date

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent

from bagtag import services
from bagtag.domain.model import PhotoRole
from bagtag.domain.standing import Standing
from bagtag.ui.card.card_asks import day_of
from bagtag.ui.desk import Desk
from bagtag.ui.sheets.label_dialog import LabelDialog
from tests.ui.stages_job import send_shaft, sentence_of


def test_fitted_signs_with_the_name_at_the_desk(put, desk, settle, store, job) -> None:
    card = put("main shaft bearing")
    desk.act(
        services.fates.set_replacement,
        [job.parts["main shaft bearing"], job.parts["oil jets"]],
        services.fates.Replacement.HERE,
    )
    for name in ("oil jets", "main shaft"):
        desk.act(services.board.sign, job.parts[name])
    settle(desk)
    assert card.card.standing is Standing.NEXT
    card.acts.fitted.click()
    settle(desk)
    fresh = services.views.card(store, job.parts["main shaft bearing"])
    assert fresh.standing is Standing.IN
    assert fresh.sign_off.who == "Ada"
    assert "Ada" in sentence_of(card)
    assert card.acts.take_back.isVisible()
    assert not card.acts.fitted.isVisible()


def test_what_waits_asks_for_its_reason_in_the_card(put, desk, settle, store, job) -> None:
    card = put("shift fork L")
    card.acts.fitted.click()
    assert card.reason.isVisible()
    assert "waits" in card.reason.head.text()
    card.reason.yes.click()
    assert "Say in a few words" in card.reason.field.wrong.text()
    assert services.views.card(store, job.parts["shift fork L"]).sign_off is None
    card.reason.reason.setText("trial fit")
    card.reason.yes.click()
    settle(desk)
    signed = services.views.card(store, job.parts["shift fork L"]).sign_off
    assert signed.note == "trial fit"
    assert not card.reason.isVisible()


def test_a_part_that_began_to_wait_meanwhile_asks_too(put, desk, settle, store, job) -> None:
    """The card may be older than the job: the service's word brings the question up."""
    card = put("oil jets")
    part = [job.parts["oil jets"]]
    services.fates.set_replacement(store, part, services.fates.Replacement.HERE, who="Ben")
    card.show_removal(part[0])
    settle(desk)
    services.fates.set_replacement(store, part, services.fates.Replacement.WANTED, who="Ben")
    card.acts.fitted.click()
    settle(desk)
    assert card.reason.isVisible()
    assert "waits" in card.reason.field.wrong.text()


def test_leaving_the_reason_leaves_the_part_off(put, qtbot, store, job) -> None:
    card = put("shift fork L")
    card.acts.fitted.click()
    card.reason.reason.setText("because")
    qtbot.keyClick(card.reason.reason, Qt.Key.Key_Escape)
    assert not card.reason.isVisible()
    assert card.acts.isVisible()
    assert services.views.card(store, job.parts["shift fork L"]).sign_off is None


def test_take_back(put, desk, settle, store, job) -> None:
    services.board.sign(store, job.parts["main shaft"], who="MK", out_of_order="trial fit")
    card = put("main shaft")
    card.acts.take_back.click()
    settle(desk)
    assert services.views.card(store, job.parts["main shaft"]).sign_off is None
    assert card.acts.fitted.isVisible()


def test_every_act_has_its_key(put, qtbot, desk, settle) -> None:
    card = put("shift fork L")
    heard = []
    card.correct.connect(heard.append)
    desk.show_removal.connect(heard.append)
    card.activateWindow()
    qtbot.waitUntil(card.isActiveWindow)
    qtbot.keyClick(card, Qt.Key.Key_F8)
    qtbot.keyClick(card, Qt.Key.Key_F9)
    assert heard == [card.removal_id, card.removal_id]
    qtbot.keyClick(card, Qt.Key.Key_F6)
    assert card.reason.isVisible()
    assert "F6" in card.acts.fitted.text()


def test_the_key_of_an_act_that_makes_no_sense_does_nothing(put, qtbot, desk, settle) -> None:
    card = put("split pins")
    assert card.card.standing is Standing.SCRAPPED
    assert not card.acts.fitted.isEnabled()
    card.activateWindow()
    qtbot.waitUntil(card.isActiveWindow)
    qtbot.keyClick(card, Qt.Key.Key_F6)
    settle(desk)
    assert not card.reason.isVisible()


def test_a_narrow_card_folds_acts_away_and_their_keys_still_work(put, qtbot, desk) -> None:
    card = put("shift fork L")
    card.resize(560, 500)
    qtbot.waitUntil(lambda: not card.acts.in_strip.isVisible())
    heard = []
    desk.show_removal.connect(heard.append)
    card.activateWindow()
    qtbot.waitUntil(card.isActiveWindow)
    qtbot.keyClick(card, Qt.Key.Key_F9)
    assert heard == [card.removal_id]
    card.acts.more.click()
    assert card.acts.in_strip.isVisible()


def test_send_away_and_back(put, desk, settle, store, job) -> None:
    card = put("main shaft")
    card.acts.send_away.click()
    card.shop.yes.click()
    settle(desk)
    assert "which shop" in sentence_of(card.shop)
    card.shop.shop.setText("cylinder grinder")
    card.shop.due.setText("no such day")
    card.shop.yes.click()
    assert "is no day" in sentence_of(card.shop)
    assert card.shop.shop.text() == "cylinder grinder"
    card.shop.due.setText("2 weeks")
    card.shop.yes.click()
    settle(desk)
    ((removal, away),) = services.fates.away_list(store, job.id)
    assert (removal.id, away.shop) == (job.parts["main shaft"], "cylinder grinder")
    assert away.due is not None
    assert "Away at cylinder grinder" in sentence_of(card)
    card.acts.came_back.click()
    settle(desk)
    assert services.fates.away_list(store, job.id) == []
    assert card.acts.send_away.isEnabled()


TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("", None),
        ("10 days", date(2026, 12, 5)),
        ("in 2 weeks", date(2026, 12, 9)),
        ("3", date(2026, 11, 28)),
        ("25 November", TODAY),
        ("24 Nov", date(2027, 11, 24)),
        ("5.12.", date(2026, 12, 5)),
        ("5. 12. 2027", date(2027, 12, 5)),
        ("1 may 2028", date(2028, 5, 1)),
        ("2027-01-31", date(2027, 1, 31)),
    ],
)
def test_days_as_one_writes_them(typed: str, day: date | None) -> None:
    assert day_of(typed, TODAY) == day


@pytest.mark.parametrize("typed", ["31 feb", "5.13.", "soon", "2027-02-30", "12 Foo", "1/2"])
def test_what_is_no_day_is_said(typed: str) -> None:
    with pytest.raises(services.fates.BadInput, match="is no day") as caught:
        day_of(typed, TODAY)
    assert caught.value.field == "due"


def test_photos_are_shown_and_dropped_ones_taken(put, settle, store, job, tmp_path) -> None:
    card = put("shift fork R")
    desk = card.desk
    picture, broken = tmp_path / "fork.png", tmp_path / "no.png"
    Image.new("RGB", (64, 48), (90, 60, 30)).save(picture)
    broken.write_bytes(b"no picture")
    said = []
    desk.said.connect(lambda sentence, trouble: said.append((sentence, trouble)))
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(picture)), QUrl.fromLocalFile(str(broken))])
    drop = QDropEvent(
        QPointF(5, 5),
        Qt.DropAction.CopyAction,
        data,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    card.photos.fitted.dropEvent(drop)
    settle(desk)
    photos = services.views.card(store, job.parts["shift fork R"]).photos
    assert [photo.role for photo in photos] == [PhotoRole.FITTED]
    assert len(card.photos.fitted.photos) == 1
    assert any("no.png" in sentence and trouble for sentence, trouble in said)


def test_a_photo_as_fitted_is_asked_for_once_it_is_in(put, desk, settle, store, job) -> None:
    services.board.sign(store, job.parts["main shaft"], who="MK", out_of_order="trial fit")
    card = put("main shaft")
    assert card.acts.photo.isEnabled()
    card = put("shift fork L")
    assert not card.acts.photo.isEnabled()


def test_twin_tags_are_made_once_and_printed(put, desk, settle, store, job) -> None:
    card = put("shift fork R")
    card.acts.twins.click()
    settle(desk)
    tags = services.views.card(store, job.parts["shift fork R"]).tags
    twins = [tag.code for tag in tags if tag.pair]
    assert len(twins) == 2
    (dialog,) = card.findChildren(LabelDialog)
    assert list(dialog.order().codes) == twins
    dialog.close()
    settle(desk)
    card.acts.twins.click()
    settle(desk)
    tags = services.views.card(store, job.parts["shift fork R"]).tags
    assert len([tag for tag in tags if tag.pair]) == 2


def test_print_tag_opens_the_labels_of_this_part(put, desk, settle) -> None:
    card = put("shift fork R")
    card.acts.tag.click()
    settle(desk)
    (dialog,) = card.findChildren(LabelDialog)
    assert dialog.order().removal_ids == (card.removal_id,)
    dialog.close()


def test_away_part_waits_for_its_return(put, store, job) -> None:
    send_shaft(store, job)
    card = put("main shaft")
    assert card.acts.came_back.isEnabled()
    assert not card.acts.fitted.isEnabled()
    assert isinstance(card.desk, Desk)
