"""The map on the screen: closer and away, pushed about, holes dragged, the photo upright."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, QPointF, QSizeF, Qt
from PySide6.QtGui import QColor, QImage, QWheelEvent
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.holes import Hole, HoleMap
from bagtag.ui.holes.hole_ground import LEAST, levels, read_levels
from bagtag.ui.holes.hole_ink import WAYS, opposite, way_from
from bagtag.ui.holes.hole_paint import radius_at
from bagtag.ui.holes.hole_view import View, fitted
from tests.ui.hole_kit import click, cover, drag, key, letter, near, open_map, photo, places

ORIENTATION = 274
"""The EXIF tag of the orientation: TIFF 6.0, tag 274; 6 is a quarter turn to be made clockwise."""


@pytest.fixture
def part(store, job_id):
    return cover(store, job_id)


def on_photo(qtbot, desk, settle, store, part, path):
    services.photos.add(store, part, [path], who="Ada")
    return open_map(qtbot, desk, settle, part)


spans = st.floats(1, 5000)
spots = st.floats(-3000, 3000)


@given(st.floats(0.01, 50), spots, spots, st.floats(0.2, 5), spots, spots)
def test_what_one_looks_at_stays_there_as_it_comes_closer(scale, left, top, factor, x, y) -> None:
    view, at = View(scale, left, top), QPointF(x, y)
    before, after = view.on_map(at), view.zoomed(factor, at).on_map(at)
    assert after == pytest.approx(before, rel=1e-6, abs=1e-6 * (1 + abs(x) + abs(left)) / scale)


@given(spans, spans, st.floats(100, 3000), st.floats(100, 3000))
def test_all_of_a_map_is_in_sight_when_it_is_fitted(wide, high, across, down) -> None:
    room = QSizeF(across, down)
    view = fitted(QSizeF(wide, high), room)
    for spot in (view.on_screen(0, 0), view.on_screen(wide, high)):
        assert -0.01 <= spot.x() <= across + 0.01
        assert -0.01 <= spot.y() <= down + 0.01


@given(st.floats(0.1, 20), spots, spots, spans, spans)
def test_a_map_is_never_pushed_out_of_sight(scale, left, top, wide, high) -> None:
    view = View(scale, left * 10, top * 10).held(QSizeF(wide, high), QSizeF(800, 600))
    assert view.left < 800
    assert view.left + wide * scale > 0
    assert view.top < 600
    assert view.top + high * scale > 0


@given(st.floats(-100, 100), st.floats(-100, 100))
def test_number_and_turn_stand_on_two_sides_of_a_hole(x, y) -> None:
    way = way_from(x, y)
    assert 0 <= way < WAYS
    assert (opposite(way) - way) % WAYS == WAYS // 2


@given(st.floats(0.01, 20), st.floats(1, 500))
def test_holes_leave_each_other_room(scale, nearest) -> None:
    """Twice the radius is less than the distance, as long as that leaves anything to see."""
    apart = nearest * scale
    assert 2 * radius_at(scale, nearest) < apart or apart < 14


def test_a_hole_is_dragged(qtbot, desk, settle, part) -> None:
    dialog = open_map(qtbot, desk, settle, part)
    click(dialog, 60, 60)
    drag(dialog, (60, 60), (120, 80))
    assert places(dialog.draft.map) == {1: near((120, 80))}
    assert dialog.draft.chosen == (1,)


def test_a_hole_stays_on_the_map_however_far_it_is_dragged(qtbot, desk, settle, part) -> None:
    dialog = open_map(qtbot, desk, settle, part)
    click(dialog, 60, 60)
    drag(dialog, (60, 60), (-500, 60))
    assert places(dialog.draft.map) == {1: near((0, 60))}


def test_the_map_is_pushed_where_no_hole_is(qtbot, desk, settle, part) -> None:
    dialog = open_map(qtbot, desk, settle, part)
    key(dialog, Qt.Key.Key_Plus, times=6)
    before = dialog.sheet.view
    drag(dialog, (100, 80), (90, 85))
    moved = dialog.sheet.view
    assert moved.left == pytest.approx(before.left - 10 * before.scale, abs=1.5)
    assert moved.top == pytest.approx(before.top + 5 * before.scale, abs=1.5)
    assert dialog.draft.map.holes == ()


def test_plus_minus_and_nought(qtbot, desk, settle, part) -> None:
    dialog = open_map(qtbot, desk, settle, part)
    whole = dialog.sheet.view
    key(dialog, Qt.Key.Key_Plus)
    assert dialog.sheet.view.scale == pytest.approx(whole.scale * 1.25)
    key(dialog, Qt.Key.Key_Minus)
    key(dialog, Qt.Key.Key_Minus)
    assert dialog.sheet.view.scale < whole.scale
    letter(qtbot, dialog, "0")
    assert dialog.sheet.view == whole


def test_the_holes_of_a_line_come_into_sight(qtbot, desk, settle, part) -> None:
    dialog = open_map(qtbot, desk, settle, part)
    holes = (Hole(1, 10, 10, "A"), Hole(2, 200, 150, "B"))
    dialog.draft.begin(HoleMap(holes, width=220, height=170), dialog.draft.held_by)
    whole = dialog.sheet.view
    dialog.draft.take_line("A")
    dialog.sheet.zoom(8.0, dialog.sheet.view.on_screen(10, 10))
    close = dialog.sheet.view
    dialog.draft.take_line("A")
    assert dialog.sheet.view == close  # some of it is in sight
    dialog.draft.take_line("B")
    assert dialog.sheet.view == whole


def test_the_wheel_comes_closer_where_it_points(qtbot, desk, settle, part) -> None:
    dialog = open_map(qtbot, desk, settle, part)
    sheet, at = dialog.sheet, QPointF(200, 150)
    before = sheet.view.on_map(at)
    where, none = QPointF(sheet.mapToGlobal(at)), Qt.MouseButton.NoButton
    held, phase = Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase
    for _ in range(5):
        turn = QWheelEvent(at, where, QPoint(), QPoint(0, 120), none, held, phase, False)
        QApplication.sendEvent(sheet, turn)
    assert sheet.view.on_map(at) == near(before, 0.01)
    assert sheet.view.scale > 2.9 * fitted(QSizeF(220, 170), QSizeF(sheet.size())).scale


def test_a_photo_lies_as_it_is_seen(qtbot, desk, settle, store, part, tmp_path) -> None:
    """A phone held upright writes the picture lying and says so in its EXIF block."""
    from PIL import Image

    exif = Image.Exif()
    exif[ORIENTATION] = 6
    turned = photo(tmp_path / "turned.jpg", (800, 600), exif=exif)
    dialog = on_photo(qtbot, desk, settle, store, part, turned)
    assert (dialog.draft.map.width, dialog.draft.map.height) == (600, 800)
    image = dialog.sheet.images[0]
    assert (image.width(), image.height()) == (600, 800)
    assert QColor(image.pixel(570, 20)).red() > 150  # the corner, turned clockwise: upper right
    assert QColor(image.pixel(20, 20)).red() < 150
    click(dialog, 570, 20)
    assert places(dialog.draft.map)[1] == near((570, 20), 3)


def test_a_phones_heic_is_read_by_the_store(qtbot, desk, settle, store, part, tmp_path) -> None:
    from pillow_heif import register_heif_opener

    register_heif_opener()
    path = photo(tmp_path / "phone.heic", (640, 480))
    dialog = on_photo(qtbot, desk, settle, store, part, path)
    image = dialog.sheet.images[0]
    assert (image.width(), image.height()) == (640, 480)
    assert QColor(image.pixel(20, 20)).red() > 150
    assert QColor(image.pixel(600, 400)).red() < 150


def test_a_photo_file_that_is_gone_is_said(qtbot, desk, settle, store, part, tmp_path) -> None:
    services.photos.add(store, part, [photo(tmp_path / "cover.jpg")], who="Ada")
    found = services.photos.photos_of(store, part)[0]
    services.photos.original(store, found).unlink()
    assert read_levels(store, found) == (found.hash, [])
    dialog = open_map(qtbot, desk, settle, part)
    assert "missing" in dialog.wrong.text()
    click(dialog, 100, 100)  # the holes can be put all the same
    assert len(dialog.draft.map.holes) == 1


def test_halves_of_a_photo_down_to_what_a_screen_shows(qapp) -> None:
    made = levels(QImage(4000, 3000, QImage.Format.Format_RGB32))
    assert [one.width() for one in made] == [4000, 2000, 1000]
    assert made[-1].width() >= LEAST


def test_many_holes_are_painted_with_the_chosen_line_ringed(qtbot, desk, settle, part) -> None:
    """The picture of a ringed map differs from the plain one at the holes of that line alone."""
    dialog = open_map(qtbot, desk, settle, part)
    holes = (Hole(1, 60, 60, "A"), Hole(2, 160, 60, "B"))
    dialog.draft.begin(HoleMap(holes, width=220, height=170), dialog.draft.held_by)
    plain = dialog.sheet.grab().toImage()
    dialog.draft.take_line("B")
    ringed = dialog.sheet.grab().toImage()
    assert _around(plain, dialog, 60, 60) == _around(ringed, dialog, 60, 60)
    assert _around(plain, dialog, 160, 60) != _around(ringed, dialog, 160, 60)


def _around(image: QImage, dialog, x: float, y: float) -> QImage:
    spot = dialog.sheet.view.on_screen(x, y).toPoint()
    return image.copy(spot.x() - 40, spot.y() - 40, 80, 80)
