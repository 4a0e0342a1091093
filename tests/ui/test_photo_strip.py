"""Photos: chosen, dropped, pasted, watched; refused ones named; opened large; taken out."""

import shutil
import weakref
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QImage
from PySide6.QtWidgets import QFileDialog

from bagtag import services
from bagtag.domain.model import PhotoRole
from bagtag.ui.photos.photo_sources import read_scaled
from bagtag.ui.photos.photo_strip import EMPTY, PhotoStrip
from bagtag.ui.photos.photo_view import PhotoView
from tests.ui.forms_kit import CONTROL, ENTER, ESC, furnish, picture, press, settings, show

COPY = Qt.DropAction.CopyAction
LEFT = Qt.MouseButton.LeftButton
NONE = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def drum(store, job_id) -> int:
    return furnish(store, job_id)["shift drum"]


@pytest.fixture
def strip(qtbot, desk, drum, settle, tmp_path):
    made = PhotoStrip(desk, settings=settings(tmp_path))
    show(qtbot, made)
    made.open(drum)
    settle(desk)
    return made


def photos(store, removal_id: int):
    return services.views.card(store, removal_id).photos


def drop(strip, mime: QMimeData) -> bool:
    enter = QDragEnterEvent(strip.rect().center(), COPY, mime, LEFT, NONE)
    strip.dragEnterEvent(enter)
    if not enter.isAccepted():
        return False
    event = QDropEvent(QPointF(strip.rect().center()), COPY, mime, LEFT, NONE)
    strip.dropEvent(event)
    return event.isAccepted()


def files(*paths: Path) -> QMimeData:
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    return mime


def pixels(colour: Qt.GlobalColor = Qt.GlobalColor.darkCyan) -> QImage:
    image = QImage(320, 240, QImage.Format.Format_RGB32)
    image.fill(colour)
    return image


def test_files_dropped_are_taken_in(strip, desk, settle, store, drum, tmp_path):
    assert drop(strip, files(picture(tmp_path / "a.jpg"), picture(tmp_path / "b.png", (9, 9, 9))))
    settle(desk)
    assert [photo.name for photo in photos(store, drum)] == ["a.jpg", "b.png"]
    assert strip.count == 2
    assert all(tile.has_picture for tile in strip.tiles)
    assert not strip.empty.isVisible()


def test_pixels_dropped_are_taken_in(strip, desk, settle, store, drum):
    mime = QMimeData()
    mime.setImageData(pixels())
    assert drop(strip, mime)
    settle(desk)
    (photo,) = photos(store, drum)
    assert (photo.width, photo.height, photo.ext) == (320, 240, "png")


def test_text_dropped_is_not_ours(strip):
    mime = QMimeData()
    mime.setText("shift fork R")
    assert not drop(strip, mime)


def test_a_pasted_picture(strip, desk, settle, store, drum):
    QGuiApplication.clipboard().setImage(pixels(Qt.GlobalColor.red))
    strip.acts.choose.setFocus()
    press(Qt.Key.Key_V, CONTROL)
    settle(desk)
    (photo,) = photos(store, drum)
    assert photo.name.startswith("pasted ")


def test_pasted_files(strip, desk, settle, store, drum, tmp_path):
    QGuiApplication.clipboard().setMimeData(files(picture(tmp_path / "a.jpg")))
    strip.acts.choose.setFocus()
    press(Qt.Key.Key_V, CONTROL)
    settle(desk)
    assert [photo.name for photo in photos(store, drum)] == ["a.jpg"]


def test_chosen_files(qtbot, strip, desk, settle, store, drum, tmp_path):
    strip.acts.choose.click()
    (dialog,) = strip.findChildren(QFileDialog)
    dialog.filesSelected.emit([str(picture(tmp_path / "a.jpg"))])
    dialog.reject()
    settle(desk)
    assert len(photos(store, drum)) == 1


def test_what_cannot_be_read_is_named_and_the_rest_taken(
    strip, desk, settle, store, drum, tmp_path
):
    bad = tmp_path / "notes.jpg"
    bad.write_text("no picture at all")
    cut = tmp_path / "cut.jpg"
    cut.write_bytes(picture(tmp_path / "whole.jpg").read_bytes()[:900])
    strip.add([bad, picture(tmp_path / "good.jpg", (1, 2, 3)), cut, tmp_path / "gone.jpg"])
    settle(desk)
    assert [photo.name for photo in photos(store, drum)] == ["good.jpg"]
    said = strip.refused.text().splitlines()
    assert len(said) == 3
    for name, sentence in zip(("notes.jpg", "cut.jpg", "gone.jpg"), said, strict=True):
        assert name in sentence
    assert strip.refused.isVisible()


def test_one_picture_twice_is_kept_once(strip, desk, settle, store, drum, tmp_path):
    one = picture(tmp_path / "a.jpg")
    strip.add([one, one])
    settle(desk)
    strip.add([one])
    settle(desk)
    assert len(photos(store, drum)) == 1
    assert strip.count == 1


def test_delete_takes_a_photo_out(strip, desk, settle, store, drum, tmp_path):
    strip.add([picture(tmp_path / "a.jpg"), picture(tmp_path / "b.jpg", (1, 2, 3))])
    settle(desk)
    strip.tiles[0].setFocus()
    press(Qt.Key.Key_Delete)
    settle(desk)
    assert [photo.name for photo in photos(store, drum)] == ["b.jpg"]
    assert strip.count == 1


def test_pictures_of_a_new_entry_wait_for_it(strip, desk, settle, store, drum, tmp_path):
    strip.open("new")
    strip.add([picture(tmp_path / "a.jpg"), picture(tmp_path / "b.jpg", (1, 2, 3))])
    settle(desk)
    assert photos(store, drum) == ()
    assert strip.count == 2
    strip.tiles[0].setFocus()
    press(Qt.Key.Key_Delete)
    assert [one.name for one in strip.pending] == ["b.jpg"]
    strip.logged_as("new", drum)
    settle(desk)
    assert [photo.name for photo in photos(store, drum)] == ["b.jpg"]


def test_a_picture_still_being_read_when_its_entry_is_logged(
    strip, desk, settle, store, drum, tmp_path
):
    strip.open("new")
    strip.add([picture(tmp_path / "a.jpg")])
    strip.logged_as("new", drum)
    strip.open("next")  # the next entry is open before the picture has been read
    settle(desk)
    assert [photo.name for photo in photos(store, drum)] == ["a.jpg"]
    assert strip.count == 0


def test_a_picture_still_being_read_when_another_removal_is_opened(
    strip, desk, settle, store, drum, tmp_path
):
    strip.add([picture(tmp_path / "a.jpg")])
    assert strip.empty.text() == "Reading a picture…"
    strip.open("new")
    settle(desk)
    assert [photo.name for photo in photos(store, drum)] == ["a.jpg"]
    assert strip.count == 0
    assert strip.empty.text() == EMPTY


def test_a_picture_still_being_read_when_a_new_entry_is_put_aside(
    strip, desk, settle, drum, tmp_path
):
    strip.open("new")
    strip.add([picture(tmp_path / "a.jpg")])
    assert strip.has_waiting
    strip.open(drum)
    settle(desk)
    assert strip.count == 0
    strip.open("new")
    settle(desk)
    assert [one.name for one in strip.pending] == ["a.jpg"]


def test_a_disk_that_takes_nothing_is_said(strip, desk, settle, store, drum, tmp_path):
    root = store.photos.root
    shutil.rmtree(root, ignore_errors=True)
    root.write_text("a file where the folder should be")
    strip.add([picture(tmp_path / "a.jpg")])
    settle(desk)
    assert "was not stored" in strip.refused.text()
    assert strip.empty.text() == EMPTY
    assert photos(store, drum) == ()


def test_the_watched_folder_feeds_the_open_removal(
    qtbot, strip, desk, settle, store, drum, tmp_path
):
    phone = tmp_path / "phone"
    phone.mkdir()
    strip.acts.follow.click()
    (dialog,) = strip.findChildren(QFileDialog)
    dialog.fileSelected.emit(str(phone))
    dialog.reject()
    assert strip.acts.follow.text() == f"Watching: {phone}"
    picture(phone / "IMG_0001.jpg")
    qtbot.waitUntil(lambda: len(photos(store, drum)) == 1)
    strip.hide()
    assert not strip.watch.running
    strip.show()
    assert strip.watch.running
    strip.acts.unfollow.click()
    assert not strip.watch.running
    assert strip.acts.follow.text() == "Watch a folder…"
    settle(desk)


def test_a_photo_opens_large_and_turns_over(qtbot, strip, desk, settle, store, drum, tmp_path):
    strip.add([picture(tmp_path / "a.jpg"), picture(tmp_path / "b.jpg", (1, 2, 3))])
    settle(desk)
    strip.tiles[0].setFocus()
    press(ENTER)
    settle(desk)
    view = strip._view
    assert view.image.width() == 640
    assert "1 of 2. a.jpg" in view.detail.text()
    qtbot.keyClick(view, Qt.Key.Key_Right)
    settle(desk)
    assert view.photo.name == "b.jpg"
    assert not view.next.isEnabled()
    qtbot.keyClick(view, Qt.Key.Key_Right)
    assert view.photo.name == "b.jpg"
    qtbot.keyClick(view, Qt.Key.Key_Space)
    assert view.sheet.pixmap().width() == 640
    qtbot.keyClick(view, Qt.Key.Key_R)
    settle(desk)
    assert photos(store, drum)[1].role is PhotoRole.FITTED
    assert view.title.text() == "As fitted"
    qtbot.keyClick(view, ESC)
    qtbot.waitUntil(lambda: not strip.findChildren(PhotoView))


def test_a_phones_heic_is_shown_from_its_small_copy(qtbot, desk, settle, store, drum, tmp_path):
    import pillow_heif

    pillow_heif.register_heif_opener()
    services.photos.add(store, drum, [picture(tmp_path / "a.heic")], who="Ada")
    view = PhotoView(desk, photos(store, drum))
    qtbot.addWidget(view)
    settle(desk)
    assert not view.image.isNull()
    assert "small copy" in view.detail.text()


def test_a_turned_photo_is_shown_upright(tmp_path):
    """EXIF orientation 6: the camera was turned a quarter; shown, it stands (EXIF 2.3, tag 274)."""
    from PIL import Image

    exif = Image.Exif()
    exif[274] = 6
    path = tmp_path / "turned.jpg"
    Image.new("RGB", (640, 480)).save(path, exif=exif)
    from PySide6.QtCore import QSize

    _, image = read_scaled(path, QSize(), "")
    assert (image.width(), image.height()) == (480, 640)
    _, small = read_scaled(path, QSize(100, 100), "")
    assert max(small.width(), small.height()) <= 100


def test_it_can_be_let_go(qtbot, desk, settle, drum, tmp_path):
    made = PhotoStrip(desk, settings=settings(tmp_path))
    made.open(drum)
    made.add([picture(tmp_path / "a.jpg")])
    settle(desk)
    view = PhotoView(desk, services.views.card(desk.store, drum).photos)
    settle(desk)
    seen = weakref.ref(made), weakref.ref(view)
    made.deleteLater()
    view.close()
    qtbot.wait(1)
    del made, view
    assert [one() for one in seen] == [None, None]
