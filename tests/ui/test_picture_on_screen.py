"""The which-way picture on screen: the same drawing as on paper, in the window's inks."""

import io
import weakref

import numpy as np
import pypdfium2
import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QAccessible, QColor, QImage, QPainter
from reportlab.pdfgen.canvas import Canvas

from bagtag.domain.datum import Datum, Side
from bagtag.domain.picture import Box, Picture, draw
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)
from bagtag.paper.picture import paint as paint_on_paper
from bagtag.ui.picture import PictureWidget, paint

DATUM = Datum("", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"})
BLACK, WHITE = QColor(0, 0, 0), QColor(255, 255, 255)
CASES = {
    "fork": [Hand("R", stamped=True), Faces("C", Side.RIGHT), Place(2, 3, Side.LEFT)],
    "fork by position": [Hand("L"), Faces("C", Side.LEFT)],
    "retainer": [Faces("OUT", Outness.OUTWARD)],
    "bearing": [Faces("sealed side", Outness.OUTWARD), Seat(SeatKind.BELOW, 1.2)],
    "ring": [Clocking("gap", 4.5, seen_from=Side.RIGHT)],
    "tab": [Clocking("tab", target="in the notch")],
    "depth": [Faces("detent", Side.REAR), Faces("dot", Side.FRONT)],
    "collar": [Faces("collar", OtherPart("gear")), MatchMark("two punch dots", "drum")],
    "hole": [Place(14, 20, Side.RIGHT, "hole")],
    "shoulder": [Seat(SeatKind.SHOULDER), Faces("lip", Side.TOP)],
    "the other fork": [SameWay(OtherPart("shift fork L", "u", "12"), opposite=True)],
    "as another": [SameWay(OtherPart("gear 3"), facts=(Faces("dot", Side.LEFT),))],
    "either way": [Without(), Without("match mark")],
    "outward here": [
        Faces("OUT", Outness.OUTWARD, Side.LEFT),
        Faces("lip", Outness.INWARD, Side.TOP),
    ],
}


def on_screen(picture, wide, high, *, rect=None, inks=(BLACK, BLACK, BLACK), ground=WHITE):
    """The painted picture as rows of red, green and blue."""
    image = QImage(wide, high, QImage.Format.Format_RGB888)
    image.fill(ground)
    painter = QPainter(image)
    paint(painter, picture, rect or QRectF(0, 0, wide, high), *inks)
    painter.end()
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(high, image.bytesPerLine())
    return rows[:, : wide * 3].reshape(high, wide, 3).astype(int)


def on_paper(picture, wide, high):
    """The same from a PDF, at one dot to the pixel."""
    data = io.BytesIO()
    canvas = Canvas(data, pagesize=(wide, high))
    paint_on_paper(canvas, picture, 0, 0, wide, high)
    canvas.showPage()
    canvas.save()
    with pypdfium2.PdfDocument(data.getvalue()) as document:
        return document[0].render(scale=1).to_numpy()[:, :, :3].astype(int)


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("facts", CASES.values(), ids=CASES)
def test_screen_and_paper_draw_alike(qapp, facts, wide):
    """Where one has ink the other has it within three pixels; fonts and strokes are smoothed by two
    different renderers, and faint strokes are thinner in black."""
    picture = draw(facts, DATUM, wide=wide)
    across, high = round(300 * picture.aspect), 300
    screen = on_screen(picture, across, high).max(axis=2) < 100
    paper = on_paper(picture, across, high).max(axis=2) < 100
    assert (screen & ~thickened(paper, 3)).sum() <= 0.01 * screen.sum()
    assert (paper & ~thickened(screen, 3)).sum() <= 0.01 * paper.sum()


def thickened(ink, by):
    grown = ink.copy()
    for dy in range(-by, by + 1):
        for dx in range(-by, by + 1):
            grown |= np.roll(np.roll(ink, dy, axis=0), dx, axis=1)
    return grown


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("facts", CASES.values(), ids=CASES)
def test_nothing_is_painted_outside_the_rectangle(qapp, facts, wide):
    rect = QRectF(40, 30, 120, 60)
    pixels = on_screen(draw(facts, DATUM, wide=wide), 200, 120, rect=rect)
    ys, xs = np.nonzero(pixels.min(axis=2) < 250)
    assert xs.min() >= 39
    assert xs.max() <= 160
    assert ys.min() >= 29
    assert ys.max() <= 90


def test_the_picture_stands_in_the_middle(qapp):
    pixels = on_screen(draw([Hand("R", stamped=True)], DATUM), 300, 100)
    ys, xs = np.nonzero(pixels.min(axis=2) < 128)
    assert xs.min() + xs.max() == pytest.approx(299, abs=2)
    assert ys.min() + ys.max() == pytest.approx(99, abs=2)


@pytest.mark.parametrize(
    ("ink", "ground", "dark_letter"), [("#222222", "#ffffff", False), ("#eeeeee", "#202020", True)]
)
def test_a_stamped_letter_reads_on_light_and_on_dark(qapp, ink, ground, dark_letter):
    picture = draw([Hand("R", stamped=True)], DATUM)
    colour = QColor(ink)
    pixels = on_screen(picture, 147, 100, inks=(colour, colour, colour), ground=QColor(ground))
    (box,) = (item for item in picture.items if isinstance(item, Box))
    block = pixels[int(box.y * 100) + 2 : int((box.y + box.height) * 100) - 2,
                   int(box.x * 100) + 4 : int((box.x + box.width) * 100) - 4]  # fmt: skip
    assert block.max() - block.min() > 150
    middle = (block.max() + block.min()) / 2
    letter = (block < middle) if dark_letter else (block > middle)
    assert 0.1 < letter.mean() < 0.5


def test_the_three_inks_are_used_for_what_they_are_for(qapp):
    red, green, blue = QColor(255, 0, 0), QColor(0, 255, 0), QColor(0, 0, 255)
    pixels = on_screen(draw(CASES["fork"], DATUM, wide=True), 600, 220, inks=(red, green, blue))
    seen = {tuple(pixel) for pixel in pixels.reshape(-1, 3)}
    assert {(255, 0, 0), (0, 255, 0), (0, 0, 255)} <= seen


def test_no_items_leave_the_ground_bare(qapp):
    assert on_screen(Picture(), 40, 30).min() == 255


def test_the_painter_is_left_as_it_was(qapp):
    image = QImage(40, 30, QImage.Format.Format_RGB888)
    painter = QPainter(image)
    painter.setPen(QColor(1, 2, 3))
    before = painter.transform()
    paint(painter, draw(CASES["fork"], DATUM), QRectF(5, 5, 30, 20), BLACK, BLACK, BLACK)
    assert painter.pen().color() == QColor(1, 2, 3)
    assert painter.transform() == before
    assert not painter.testRenderHint(QPainter.RenderHint.Antialiasing)
    painter.end()


def test_the_widget_shows_its_picture_in_its_inks(qtbot):
    widget = PictureWidget()
    qtbot.addWidget(widget)
    widget.resize(300, 110)
    bare = widget.grab().toImage()
    widget.set_inks(BLACK, QColor(200, 0, 0), QColor(0, 0, 200))
    widget.set_picture(draw(CASES["retainer"], DATUM, wide=True))
    shown = widget.grab().toImage()
    colours = {
        shown.pixelColor(x, y).name() for x in range(shown.width()) for y in range(shown.height())
    }
    assert shown != bare
    assert "#c80000" in colours


def test_the_widget_says_its_sentence(qtbot):
    widget = PictureWidget()
    qtbot.addWidget(widget)
    widget.set_sentence("OUT faces outward.")
    spoken = QAccessible.queryAccessibleInterface(widget)
    assert spoken.text(QAccessible.Text.Name) == "Which way"
    assert spoken.text(QAccessible.Text.Description) == "OUT faces outward."


def test_the_widget_asks_for_the_picture_s_shape(qtbot):
    widget = PictureWidget()
    qtbot.addWidget(widget)
    widget.set_picture(draw(CASES["fork"], DATUM, wide=True))
    assert widget.sizeHint().width() / widget.sizeHint().height() == pytest.approx(600 / 220, 0.01)


def test_a_closed_widget_is_gone(qapp):
    widget = PictureWidget()
    widget.set_picture(draw(CASES["fork"], DATUM))
    widget.grab()
    gone = weakref.ref(widget)
    del widget
    assert gone() is None
