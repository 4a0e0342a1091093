"""The traveller: what goes with a batch to its shop, on pages that hold together."""

import io
from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal

import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from bagtag.domain.cautions import MANUAL
from bagtag.domain.codes import show
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.model import Away, Removal
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import Item
from bagtag.paper import block_set
from bagtag.paper.block_marks import Frame
from bagtag.paper.block_pages import Block
from bagtag.paper.checklist_page import FOOT, TOP
from bagtag.paper.rendering import render as render_png
from bagtag.paper.traveller_page import traveller_pdf
from bagtag.paper.traveller_part import blocks
from bagtag.paper.traveller_text import CAUTIONS, Traveller, TravellerPart, counted
from tests.paper.checklist_kit import joined

WORK = "bore and hone to the oversize piston that is sent with it"
ASKS = (Asked("bore to", "mm", 76.5, 76.52), Asked("taper", "mm", high=0.01), Asked("finish"))


def batch(code):
    return SendOut(
        1,
        "u",
        1,
        2,
        "Mill Lane Engineering",
        date(2026, 11, 18),
        date(2026, 12, 2),
        "Mr Birch at the counter",
        "wash everything",
        Decimal("180.50"),
        "EUR",
        "Ring first if a liner is loose.",
        made_by="Ada",
        code=code,
    )


def item(number, name, quantity=1, **away):
    by, off = away.pop("by", None), away.pop("off", ())
    code = away.pop("code", "")
    time = Away(number, number, "Mill Lane", away.pop("work", ""), datetime(2026, 11, 18), **away)
    removal = Removal(number, "u", 1, str(number), number, name, quantity)
    return Item(time, removal, code, "", off, by)


@pytest.fixture
def sheet(draw_codes):
    whole, barrel_code = draw_codes(2)
    barrel = item(12, "cylinder barrel", work=WORK, asks=ASKS, off=("9 stud",), code=barrel_code)
    pieces = (item(31, "oil jet", 3, by=12), item(32, "oilway plug", by=12))
    parts = (TravellerPart(barrel, pieces=pieces), TravellerPart(item(14, "valve guide", 2)))
    return Traveller(
        batch(whole), "Walking tractor, engine smokes", date(2026, 11, 25), "J. Example", parts
    )


def printed(sheet):
    into = io.BytesIO()
    return traveller_pdf(into, sheet), into.getvalue()


def test_all_that_the_shop_needs_is_on_it(sheet, words):
    count, pdf = printed(sheet)
    said = joined(" ".join(words(pdf)))
    assert count == len(words(pdf))
    for wanted in (
        "Send-out 2",
        "to Mill Lane Engineering",
        "Mr Birch at the counter",
        "J. Example",
        "2026-11-18",
        "2026-12-02",
        "Wash everything",
        "Ring first if a liner is loose.",
        "180.50 EUR",
        "12 cylinder barrel",
        WORK[1:],
        f"tag {show(sheet.parts[0].item.code)}",
        "76.5 to 76.52 mm",
        "at most 0.01 mm",
        "to be measured",
        "Taken off already, and not with it: 9 stud.",
        "31 oil jet, 3 pieces",
        "handed back",
        "14 valve guide, 2 pieces",
        "Work as for the whole send-out.",
        "signature",
        "Packed by Ada.",
        MANUAL,
        *CAUTIONS,
    ):
        assert wanted in said, wanted


def test_the_code_of_the_batch_is_read_off_the_page(sheet):
    """By an independent reader, at the dots of an office printer."""
    page = Image.open(io.BytesIO(render_png(printed(sheet)[1], dpi=200)[0]))
    read = zxingcpp.read_barcodes(page)
    assert [one.text for one in read] == [sheet.send_out.code]


def test_the_count_is_of_pieces_and_not_of_lines(sheet, words):
    assert counted(sheet) == "3 pieces go out. The shop takes 4 off them: 7 come back."
    pdf = printed(sheet)[1]
    assert counted(sheet) in joined(words(pdf)[0])
    assert "(7 to come back)" in joined(" ".join(words(pdf)))
    one = replace(sheet, parts=(TravellerPart(item(12, "barrel")),))
    assert counted(one) == "1 piece goes out, and 1 comes back."


def test_each_piece_the_shop_takes_off_has_three_boxes(sheet):
    (block,) = blocks(sheet.parts[0], sheet.send_out)
    boxes = [mark for mark in block.marks if isinstance(mark, Frame) and mark.width < 12]
    assert len(boxes) == 3 * len(sheet.parts[0].pieces)


def test_a_figure_that_was_measured_stands_in_its_cell(sheet, words):
    away = replace(
        sheet.parts[0].item.away,
        figures=(Figure("bore to", 76.515, "mm"),),
        back_at=datetime(2026, 12, 1),
        back_by="Ada",
    )
    back = TravellerPart(replace(sheet.parts[0].item, away=away))
    said = joined(" ".join(words(printed(replace(sheet, parts=(back,)))[1])))
    assert "76.515 mm" in said
    assert "Back since 2026-12-01, checked by Ada." in said


@pytest.mark.parametrize("figure", [100.0125, 1234.56789, 0.0005, 76.0])
def test_no_digit_of_a_figure_is_rounded_away(figure, sheet, words):
    away = replace(sheet.parts[0].item.away, asks=(Asked("bore to", "mm", high=figure),))
    part = TravellerPart(replace(sheet.parts[0].item, away=away))
    said = joined(" ".join(words(printed(replace(sheet, parts=(part,)))[1])))
    assert float(said.split("at most ")[1].split(" mm")[0]) == figure


def test_a_batch_with_nothing_said_of_it_is_printed_too(words, draw_codes):
    (code,) = draw_codes(1)
    bare = SendOut(1, "u", 1, 1, "Mill Lane", date(2026, 11, 25), code=code)
    said = joined(words(printed(Traveller(bare, "Tractor", date(2026, 11, 25)))[1])[0])
    assert "no day named" in said
    assert "not named" in said
    assert "Nothing is packed in this send-out yet." in said


@given(st.lists(st.tuples(st.integers(0, 8), st.integers(0, 40)), max_size=12))
@settings(max_examples=40)
def test_no_page_overflows_and_no_part_is_torn_from_its_picture(sizes):
    whole = batch("")
    parts = [
        TravellerPart(
            item(n, "barrel " * 30, work="bore " * 300, asks=ASKS * asks),
            pieces=tuple(item(100 + k, "jet " * 40, by=n) for k in range(pieces)),
        )
        for n, (asks, pieces) in enumerate(sizes, 1)
    ]
    found = [block for part in parts for block in blocks(part, whole)]
    pages = list(block_set.pages([Block(200)], found))
    assert [block for page in pages for block in page][1:] == found
    assert all(sum(one.height for one in page) <= TOP - FOOT + 1e-6 for page in pages)


def test_nothing_that_the_shop_goes_by_is_cut_and_each_page_says_which_batch(words, draw_codes):
    whole, code = draw_codes(2)
    long = "oilway plug, taper thread 1/8, behind the cover at the back of the water jacket"
    asks = tuple(Asked(f"bore {n}, measured across and along", "mm", 1, 2) for n in range(12))
    barrel = item(12, "cylinder barrel", work="bore " * 60, asks=asks, code=code)
    pieces = tuple(item(30 + n, f"{long} {n}", 2, by=12) for n in range(12))
    title, parts = "Walking tractor " * 9, (TravellerPart(barrel, pieces=pieces),)
    pdf = printed(Traveller(batch(whole), title, date(2026, 11, 25), parts=parts))[1]
    pages = [joined(page) for page in words(pdf)]
    said = " ".join(pages)
    assert len(pages) > 1
    assert all(f"Send-out 2, {show(whole)}" in page for page in pages)
    assert all(f"{long} {n}, 2 pieces" in said for n in range(12))
    assert all(one.name in said for one in asks)
    assert "the shop takes off 12 cylinder barrel" in said
    assert "180.50 EUR" in said
    assert title.strip() in said


def test_wild_text_is_text_and_keeps_to_the_page(sheet, render):
    wild = "<b>& Zylinder " * 40
    part = replace(sheet.parts[0].item, removal=Removal(1, "u", 1, "1", 1, wild), off=(wild,))
    much = replace(
        sheet,
        send_out=replace(sheet.send_out, shop=wild, work=wild, contact=wild, note=wild),
        job=wild,
        owner=wild,
        parts=(TravellerPart(part, pieces=(part,) * 3),),
    )
    for page in render(printed(much)[1], 100):
        margin = round(11 / 25.4 * 100)
        assert page[:, :margin].min() == page[:, -margin:].min() == 255


def test_a_photo_that_cannot_be_read_says_so(sheet, words, tmp_path):
    broken = tmp_path / "photo.jpg"
    broken.write_bytes(b"no picture")
    part = replace(sheet.parts[0], photo=broken)
    said = joined(words(printed(replace(sheet, parts=(part,)))[1])[0])
    assert "photo not readable" in said


def test_a_page_that_cannot_be_written_is_one_sentence(sheet, tmp_path):
    with pytest.raises(BadInput, match="cannot be written"):
        traveller_pdf(tmp_path / "no" / "traveller.pdf", sheet)
