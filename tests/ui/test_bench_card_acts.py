"""The card's acts: signing, taking back, sending away, photos and tags, by mouse and by key."""

from PIL import Image
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent

from bagtag import services
from bagtag.domain.fitting import RuleKind, part
from bagtag.domain.model import PhotoRole
from bagtag.domain.standing import Standing
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Press
from bagtag.ui.sheets.label_dialog import LabelDialog
from tests.ui.away.away_kit import sent_before
from tests.ui.stages_job import send_shaft, sentence_of


def test_fitted_signs_with_the_name_at_the_desk(put, desk, settle, store, job) -> None:
    card = put("main shaft bearing")
    desk.act(
        services.fates.set_replacement,
        [job.parts["main shaft bearing"], job.parts["oil jets"]],
        services.fates.Replacement.HERE,
    )
    for name in ("oil jets", "main shaft"):
        desk.act(services.signing.sign, part(job.parts[name]))
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
    settle(desk)
    fields = card.signing.fields
    assert card.signing.isVisible()
    assert "must go in first" in fields.waits.text
    card.signing.sign.click()
    settle(desk)
    assert "say why it goes in now" in fields.reason.wrong.text()
    assert services.views.card(store, job.parts["shift fork L"]).sign_off is None
    fields.reason.line.setText("trial fit")
    card.signing.sign.click()
    settle(desk)
    signed = services.views.card(store, job.parts["shift fork L"]).sign_off
    assert signed.reason == "trial fit"
    assert not card.signing.isVisible()
    assert "Although: trial fit" in sentence_of(card)


def test_a_part_that_began_to_wait_meanwhile_asks_too(put, desk, settle, store, job) -> None:
    """The card may be older than the job: what is asked is read when it is signed."""
    card = put("oil jets")
    part = [job.parts["oil jets"]]
    services.fates.set_replacement(store, part, services.fates.Replacement.HERE, who="Ben")
    card.show_removal(part[0])
    settle(desk)
    assert card.card.standing is Standing.NEXT
    services.fates.set_replacement(store, part, services.fates.Replacement.WANTED, who="Ben")
    card.acts.fitted.click()
    settle(desk)
    assert "new part is not here yet" in card.signing.fields.waits.text


def test_leaving_the_reason_leaves_the_part_off(put, qtbot, desk, settle, store, job) -> None:
    card = put("shift fork L")
    card.acts.fitted.click()
    settle(desk)
    line = card.signing.fields.reason.line
    line.setText("because")
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    assert not card.signing.isVisible()
    assert card.acts.isVisible()
    assert card.view.isVisible()
    assert services.views.card(store, job.parts["shift fork L"]).sign_off is None


def test_take_back(put, desk, settle, store, job) -> None:
    services.signing.sign(
        store,
        part(job.parts["main shaft"]),
        services.signing.SignForm(reason="trial fit"),
        who="MK",
    )
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
    settle(desk)
    assert card.signing.isVisible()
    assert "F6" in card.acts.fitted.text()


def test_the_key_of_an_act_that_makes_no_sense_does_nothing(put, qtbot, desk, settle) -> None:
    card = put("split pins")
    assert card.card.standing is Standing.SCRAPPED
    assert not card.acts.fitted.isEnabled()
    card.activateWindow()
    qtbot.waitUntil(card.isActiveWindow)
    qtbot.keyClick(card, Qt.Key.Key_F6)
    settle(desk)
    assert not card.signing.isVisible()


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


def test_send_away_and_back(qtbot, put, desk, settle, store, job) -> None:
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
    with qtbot.waitSignal(desk.check_in) as asked:
        card.acts.came_back.click()
    assert asked.args == [away.send_out_id, removal.id]
    assert len(services.fates.away_list(store, job.id)) == 1
    services.fates.came_back(store, [removal.id])
    put("main shaft")
    assert card.acts.send_away.isEnabled()


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
    services.signing.sign(
        store,
        part(job.parts["main shaft"]),
        services.signing.SignForm(reason="trial fit"),
        who="MK",
    )
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


def test_a_part_that_an_older_store_sent_is_back_at_once(put, desk, settle, store, job) -> None:
    sent_before(store, job, "shift fork R")
    put("shift fork R").came_back()
    settle(desk)
    assert services.fates.away_list(store, job.id) == []


def test_what_is_added_to_a_part_is_asked_in_its_own_form(put, desk, settle, job) -> None:
    from bagtag.ui.order.asks_form import AsksDialog
    from bagtag.ui.order.later_form import LaterDialog

    card = put("cover, clutch side")
    for act, kind in ((card.acts.later, LaterDialog), (card.acts.asks, AsksDialog)):
        act.click()
        settle(desk)
        (dialog,) = card.findChildren(kind)
        dialog.close()
        settle(desk)
    card = put("gasket, cover")
    assert not card.acts.later.isEnabled()  # it has nothing to tighten
    assert card.acts.asks.isEnabled()


def test_why_here_is_told_in_place_and_a_rule_dropped(put, desk, settle, store, job, qtbot) -> None:
    fork, shaft = part(job.parts["shift fork L"]), part(job.parts["main shaft"])
    services.rules.add_rule(store, job.id, RuleKind.UNTIL, (shaft, fork), why="no room", who="Ada")
    card = put("main shaft")
    card.acts.why.click()
    settle(desk)
    assert "Held until 5 shift fork L, by your rule of" in card.why.said.text()
    assert "no room" in sentence_of(card.why)
    (drop,) = [one for one in card.why.findChildren(Press) if "Drop" in one.accessibleName()]
    drop.click()
    settle(desk)
    assert services.rules.rules_of(store, job.id) == []
    assert "the last off goes on first" in card.why.said.text()
    qtbot.keyClick(card.why.close_it, Qt.Key.Key_Escape)
    assert not card.why.isVisible()
