"""The which-way picture on paper, as a PDF renderer sees it."""

import io

import numpy as np
import pypdfium2
import pytest
from reportlab.pdfgen.canvas import Canvas

from bagtag.domain import lettering
from bagtag.domain.datum import Datum, Side
from bagtag.domain.picture import Arrow, Box, Circle, Ink, Line, Picture, Text, draw
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    Seat,
    SeatKind,
)
from bagtag.paper import fonts
from bagtag.paper.picture import paint

MM = 72 / 25.4
DATUM = Datum("", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"})
CASES = {
    "fork": [Hand("R", stamped=True), Faces("C", Side.RIGHT), Place(2, 3, Side.LEFT)],
    "retainer": [Faces("OUT", Outness.OUTWARD)],
    "bearing": [Faces("sealed side", Outness.OUTWARD), Seat(SeatKind.BELOW, 1.2)],
    "ring": [Clocking("gap", 4.5, seen_from=Side.RIGHT)],
    "detent": [Faces("detent", Side.REAR)],
    "collar": [Faces("collar", OtherPart("gear")), MatchMark("two punch dots", "drum")],
    "hole": [Place(14, 20, Side.RIGHT, "hole")],
}


def page(picture, *, black=True, box=(0, 0, 22 * MM, 15 * MM), sheet=(22 * MM, 15 * MM), dpi=300):
    """The page in grey levels, rows from the top: 0 is black, 255 the bare paper."""
    data = io.BytesIO()
    canvas = Canvas(data, pagesize=sheet, pageCompression=0)
    paint(canvas, picture, *box, black=black)
    canvas.showPage()
    canvas.save()
    rendered = pypdfium2.PdfDocument(data.getvalue())[0].render(scale=dpi / 72)
    return rendered.to_numpy()[:, :, :3], data.getvalue()


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("facts", CASES.values(), ids=CASES)
def test_a_label_is_black_and_nothing_else(facts, wide):
    """A thermal head has no grey: every colour in the page is 0 0 0 or, reversed out, 1 1 1."""
    _, data = page(draw(facts, DATUM, wide=wide))
    colours = {
        line.rsplit(b" ", 1)[0]
        for line in data.replace(b"\r", b"\n").split(b"\n")
        if line.endswith((b" rg", b" RG"))
    }
    assert colours <= {b"0 0 0", b"1 1 1"}
    assert b"0 0 0" in colours


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("facts", CASES.values(), ids=CASES)
def test_nothing_is_painted_outside_the_box(facts, wide):
    picture = draw(facts, DATUM, wide=wide)
    box = (20.0, 30.0, 100.0, 60.0)
    pixels, _ = page(picture, box=box, sheet=(160, 120), dpi=144)
    ys, xs = np.nonzero(pixels.min(axis=2) < 250)
    assert xs.min() >= 2 * 20 - 1
    assert xs.max() <= 2 * 120
    assert ys.min() >= 2 * (120 - 90) - 1
    assert ys.max() <= 2 * (120 - 30)


@pytest.mark.parametrize("facts", CASES.values(), ids=CASES)
def test_the_ink_is_where_the_display_list_says(facts):
    """Each stroke's middle is black on the page, at a scale and a place of its own."""
    picture = draw(facts, DATUM)
    high = 40 * MM
    pixels, _ = page(picture, box=(0, 0, high * picture.aspect, high),
                     sheet=(high * picture.aspect, high), dpi=300)  # fmt: skip
    scale = pixels.shape[0]
    for item in picture.items:
        if isinstance(item, Line):
            x, y = (item.x1 + item.x2) / 2, (item.y1 + item.y2) / 2
        elif isinstance(item, Arrow):
            x, y = item.x1 * 0.3 + item.x2 * 0.7, item.y1 * 0.3 + item.y2 * 0.7
        elif isinstance(item, Circle):
            x, y = item.x + (0 if item.filled else item.radius), item.y
        else:
            continue
        if isinstance(item, Circle) and any(t.ink is Ink.PAPER for t in texts(picture)):
            continue
        assert pixels[int(y * scale), min(int(x * scale), pixels.shape[1] - 1)].max() < 60, item


def texts(picture):
    return [item for item in picture.items if isinstance(item, Text)]


def test_the_picture_is_centred_in_a_box_of_another_shape():
    picture = draw([Hand("R", stamped=True)], DATUM)
    pixels, _ = page(picture, box=(0, 0, 200, 60), sheet=(200, 60), dpi=144)
    ys, xs = np.nonzero(pixels.min(axis=2) < 128)
    assert xs.min() + xs.max() == pytest.approx(400, abs=4)
    assert ys.min() + ys.max() == pytest.approx(120, abs=4)


def test_a_stamped_letter_is_white_on_black():
    for stamped in (True, False):
        picture = draw([Hand("R", stamped)], DATUM)
        pixels, _ = page(picture)
        (box,) = (item for item in picture.items if isinstance(item, Box))
        scale = pixels.shape[0]
        over_the_letter = int((box.y + box.height * 0.13) * scale)
        assert pixels[over_the_letter, pixels.shape[1] // 2].max() == (0 if stamped else 255)


def test_in_colour_the_arrow_is_not_grey():
    pixels, _ = page(draw(CASES["retainer"], DATUM), black=False)
    red, green = pixels[:, :, 2].astype(int), pixels[:, :, 1].astype(int)
    blue = pixels[:, :, 0].astype(int)
    assert (np.abs(red - green) > 60).any() or (np.abs(blue - green) > 60).any()


def test_no_items_leave_the_page_bare():
    pixels, _ = page(Picture())
    assert pixels.min() == 255


LETTERS = (
    "0123456789 ABCDEFGHIJKLMNOPQRSTUVWXYZ abcdefghijklmnopqrstuvwxyz !\"#$%&'()*+,-./:;<=>?@[]_~"
    "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞßàáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿĄąĆćČčĎďĘęĚěŁłŃńŇňŒœŘřŚśŠšŤťŮůŹźŻżŽž"
    "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯабвгдеёжзийклмнопрстуфхцчшщъыьэюяЄІЇЉЊЋЂЏєіїљњћђџ"
    "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρστυφχψωςάέήίόύώΆΈΉΊΌΎΏ…–—°½×"
)


@pytest.mark.parametrize("font", [fonts.REGULAR, fonts.BOLD])
def test_lettering_is_never_wider_than_the_layout_takes_it_to_be(font):
    """Roboto's own advance widths, Regular and Bold, from the files of the package font-roboto."""
    short = [c for c in LETTERS if lettering.width(c) < fonts.width(c, font, 1) - 1e-9]
    assert short == []


def test_capitals_are_as_high_as_the_font_says():
    assert pytest.approx(fonts.CAP, abs=0.001) == lettering.CAP
