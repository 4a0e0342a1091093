"""The camera: frames are read and let go; without one, a sentence and the other ways."""

import gc
from io import BytesIO
from threading import Event

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage

from bagtag import services
from bagtag.domain.codes import show
from bagtag.ui.scanning import camera_dialog
from bagtag.ui.scanning.camera_dialog import NO_CAMERA, NOT_INSTALLED, OTHER_WAYS, CameraDialog
from bagtag.ui.scanning.camera_frames import EVERY, Frames, packed
from bagtag.ui.scanning.scan_picture import PictureScan
from tests.ui.stages_job import dies, nameless, sentence_of

multimedia = pytest.importorskip(
    "PySide6.QtMultimedia",
    reason="QtMultimedia comes in an optional wheel and needs the system's sound library",
    exc_type=ImportError,
)

# What the multimedia library says of this machine's graphics drivers, which tests do without.
pytestmark = pytest.mark.qt_log_ignore(
    r"(va(-x11|-drm|\(in plugin\))?|pipewire-0\.3) (library|symbols)", "RHI"
)


@pytest.fixture
def tag(store, job) -> tuple[str, bytes]:
    """A printed label of one part, as a picture, and its code."""
    part = job.parts["shift fork R"]
    order = services.labels.LabelOrder(job.id, (part,), stock="roll-62x29", dpi=300)
    (png,) = services.labels.printed_pages(store, order)
    return services.views.card(store, part).code, png


@pytest.fixture
def dialog(qtbot, desk):
    made = CameraDialog(desk)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)  # qtbot closes it once more
    qtbot.addWidget(made)
    made.show()
    return made


def frame(png: bytes):
    image = QImage.fromData(png).convertToFormat(QImage.Format.Format_RGB32)
    return multimedia.QVideoFrame(image)


def blank():
    image = QImage(320, 240, QImage.Format.Format_RGB32)
    image.fill(0xFF888888)
    return multimedia.QVideoFrame(image)


def test_no_camera_says_so_and_what_else_there_is(dialog) -> None:
    """The offscreen platform has no camera."""
    said = sentence_of(dialog)
    assert NO_CAMERA in said
    assert OTHER_WAYS in said
    assert not dialog.finder.isVisible()
    assert dialog.photo.isVisible()


def test_not_installed_says_so(qtbot, desk, monkeypatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "PySide6.QtMultimedia", None)
    import PySide6

    monkeypatch.delattr(PySide6, "QtMultimedia", raising=False)
    dialog = CameraDialog(desk)
    qtbot.addWidget(dialog)
    assert camera_dialog.multimedia() is None
    assert dialog.said.text() == NOT_INSTALLED
    assert dialog.sink is None


def test_a_camera_that_refuses_is_said_in_its_words(dialog) -> None:
    dialog._refused(None, "Permission denied.")
    assert "Permission denied" in dialog.said.text()
    assert OTHER_WAYS in sentence_of(dialog)


def test_a_tag_before_the_camera_is_read_once(dialog, qtbot, desk, settle, tag) -> None:
    code, png = tag
    heard = []
    dialog.read.connect(heard.append)
    for _ in range(4 * EVERY):
        dialog.sink.setVideoFrame(frame(png))
        settle(desk)
    assert heard == [code]
    assert dialog.said.text() == f"Read {show(code)}"


def test_the_same_tag_is_told_again_once_it_had_gone(dialog, desk, settle, tag) -> None:
    code, png = tag
    heard = []
    dialog.read.connect(heard.append)
    for tagged in (True, False, True):
        for _ in range(EVERY):
            dialog.sink.setVideoFrame(frame(png) if tagged else blank())
            settle(desk)
    assert heard == [code, code]


def test_only_some_frames_are_looked_through_and_none_while_busy(desk, settle, tag) -> None:
    gate = Event()
    for _ in range(2):
        desk.draw(gate.wait)  # both threads of the pool are taken until the gate opens
    frames = Frames(desk, desk)
    for _ in range(10 * EVERY):
        frames.take(frame(tag[1]))
    assert frames.count == 10 * EVERY
    assert frames.looked_through == 1
    gate.set()
    settle(desk)
    for _ in range(EVERY):
        frames.take(blank())
    assert frames.looked_through == 2
    settle(desk)


def test_no_frame_is_held(desk, settle, tag) -> None:
    frames = Frames(desk, desk)
    frames.take(frame(tag[1]))
    settle(desk)
    held = [thing for thing in gc.get_referents(frames.__dict__) if "VideoFrame" in repr(thing)]
    assert held == []


def test_an_empty_frame_is_passed_over(desk) -> None:
    frames = Frames(desk, desk)
    frames.take(multimedia.QVideoFrame())
    assert frames.count == 0


@pytest.mark.parametrize("width", [4, 5, 6, 7, 33])
def test_rows_are_packed_without_padding(width: int) -> None:
    image = QImage(width, 3, QImage.Format.Format_Grayscale8)
    for y in range(3):
        for x in range(width):
            image.setPixel(x, y, 0xFF000000 | (0x010101 * (x + 40 * y)))
    assert packed(image) == bytes(x + 40 * y for y in range(3) for x in range(width))


def test_a_photo_is_read_instead(dialog, qtbot, desk, settle, tag, tmp_path) -> None:
    path = tmp_path / "tag.png"
    path.write_bytes(tag[1])
    scan = PictureScan(desk, dialog)
    heard = []
    scan.read.connect(heard.append)
    scan.read_file(path)
    settle(desk)
    assert heard == [tag[0]]
    with qtbot.waitSignal(dialog.photo_wanted):
        dialog.photo.click()


def test_a_photo_without_a_tag_is_said(dialog, desk, settle, tmp_path) -> None:
    from PIL import Image

    said = []
    desk.said.connect(lambda sentence, trouble: said.append((sentence, trouble)))
    scan = PictureScan(desk, dialog)
    plain = BytesIO()
    Image.new("RGB", (200, 200), "white").save(plain, "PNG")
    path = tmp_path / "wall.png"
    path.write_bytes(plain.getvalue())
    scan.read_file(path)
    settle(desk)
    ((sentence, trouble),) = said
    assert "wall.png shows no tag" in sentence
    assert trouble


def test_names_and_leaks(dialog, qtbot, desk) -> None:
    assert nameless(dialog) == []
    assert dies(qtbot, lambda: CameraDialog(desk))
