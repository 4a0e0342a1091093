"""Label pages: ink, edges, copies and the nudge on every stock, and what is refused."""

import re
import zlib

import numpy as np
import pytest
import zxingcpp

from bagtag.domain.errors import BadInput
from bagtag.domain.model import Fate
from bagtag.paper import stock as label_stock
from bagtag.paper.labels import label_pdf, layout
from bagtag.paper.stock import Stock
from tests.paper.label_kit import (
    DATUM,
    FACTS,
    HELD_BY,
    JOB,
    STOCKS,
    a_label,
    crops,
    printed,
    some_labels,
)


@pytest.mark.parametrize("stock", ["a4-3x7", "a4-3x8", "letter-3x10"])
def test_no_ink_outside_the_label(render, stock):
    """The worst label alone in the middle of a sheet: everything around it stays white."""
    worst = a_label(
        name="Schaltgabel mit Überlänge " * 20,
        area="Ölpumpe " * 60,
        job=JOB * 12,
        facts=FACTS[1],
        datum=DATUM,
        fate=Fate.DECIDE,
        held_by=HELD_BY * 9,
        lines=("note " * 90,) * 5,
    )
    kind = label_stock.find(stock)
    (page,) = render(printed([worst], stock, start=8)[0], 300)
    (cell,) = label_stock.cells(kind, 1, start=8)
    x, y = round(cell.x / 25.4 * 300), round(cell.y / 25.4 * 300)
    wide, high = round(kind.label_width / 25.4 * 300), round(kind.label_height / 25.4 * 300)
    assert page[y : y + high, x : x + wide].min() == 0
    page[y : y + high, x : x + wide] = 255
    assert page.min() == 255


@pytest.mark.parametrize("stock", [name for name in STOCKS if label_stock.find(name).roll])
def test_a_roll_label_keeps_its_edge_white(render, stock):
    labels = some_labels(8, seed=5)
    for page in render(printed(labels, stock)[0], 300):
        middle = page[12:-12, 12:-12].copy()
        page[12:-12, 12:-12] = 255
        assert page.min() == 255
        assert middle.min() == 0


def test_the_hole_of_a_tie_on_tag_stays_free(render):
    (page,) = render(printed([a_label()], "tie-on")[0], 300)
    hole = label_stock.find("tie-on").hole
    x, y, radius = (round(mm / 25.4 * 300) for mm in (hole.x, hole.y, hole.diameter / 2))
    inside = page[y - radius // 2 : y + radius // 2, x - radius // 2 : x + radius // 2]
    assert inside.min() == 255
    assert page[y, : x - radius + 3].min() < 128  # the ring that shows where to punch
    assert page[:, : x + radius + 12][y + radius + 4 :].min() == 255


def test_thermal_labels_are_pure_black_and_white():
    """No colour operator of any page has anything between black and white."""
    pdf, _ = printed(some_labels(20, seed=8), "roll-100x50")
    streams = re.findall(rb"stream\r?\n(.*?)endstream", pdf, re.DOTALL)
    drawn = b"\n".join(zlib.decompress(s) for s in streams if s[:1] == b"x")
    shades = re.findall(rb"((?:[\d.]+ )+)(?:rg|RG|g|G)\b", drawn)
    values = {float(value) for shade in shades for value in shade.split()}
    assert values == {0.0, 1.0}


def test_a_part_used_sheet_is_started_where_it_is_free(render):
    pdf, report = printed(some_labels(3, seed=2), "a4-3x7", start=20)
    first, second = render(pdf, 150)
    assert (report.pages, report.labels) == (2, 3)
    used = round((15.15 + 6 * 38.1) / 25.4 * 150)
    assert first[:used].min() == 255
    assert first[used:].min() == 0
    assert second[: round(53 / 25.4 * 150)].min() == 0


def test_copies_lie_side_by_side(render):
    labels = some_labels(2, seed=4)
    pdf, report = printed(labels, "a4-3x8", copies=3)
    (page,) = render(pdf, 300)
    read = [
        zxingcpp.read_barcode(np.pad(crop, 8, constant_values=255)).text
        for crop in crops([page], "a4-3x8", 6, 300)
    ]
    assert read == [labels[0].code] * 3 + [labels[1].code] * 3
    assert (report.pages, report.labels) == (1, 6)


def test_a_nudge_moves_the_print_by_so_many_dots(render, draw_codes):
    labels = [a_label(code=code, quantity=4, fate=Fate.RENEW) for code in draw_codes(5)]
    (plain,) = render(printed(labels, "a4-3x7")[0], 300)
    (moved,) = render(printed(labels, "a4-3x7", nudge=(2.54, 1.27))[0], 300)
    difference = np.abs(moved[15:, 30:].astype(int) - plain[:-15, :-30])
    assert difference.max() <= 10  # pdfium's smoothing of letters
    assert plain.min() == 0


def test_a_page_is_the_stock_to_the_nearest_dot(render):
    for name, stock in label_stock.stocks().items():
        for dpi in (203, 300):
            height, width = render(printed([a_label()], name, dpi=dpi)[0], dpi)[0].shape
            assert width == round(stock.page_width / 25.4 * dpi)
            assert height == round(stock.page_height / 25.4 * dpi)


SMALL = Stock("own", "Own, 2 × 2 mm", True, 2, 2, 1, 1, 2, 2, 0, 0, 0, 0, None, "")


@pytest.mark.parametrize(
    ("labels", "stock", "how", "sentence"),
    [
        ([], "a4-3x7", {}, "There is no label to print"),
        ([a_label()], "a4-3x7", {"copies": 0}, "0 copies of a label cannot be printed"),
        ([a_label()], "a4-3x7", {"start": 22}, "no position 22"),
        ([a_label()], "a4-3x7", {"dpi": 10}, "10 dots an inch has no room for the code"),
        ([a_label(code="")], "a4-3x7", {}, "Shift fork has no tag code to print"),
        ([a_label(code="MF324H")], "a4-3x7", {}, "Shift fork has no tag code to print"),
    ],
)
def test_what_cannot_be_printed_is_refused_in_a_sentence(labels, stock, how, sentence):
    with pytest.raises(BadInput, match=sentence):
        printed(labels, stock, **how)


def test_a_stock_too_small_for_the_symbol_is_refused():
    with pytest.raises(BadInput, match="Own, 2 × 2 mm at 300 dots an inch has no room"):
        layout(a_label(), SMALL, 300)


def test_a_file_is_written_whole_or_not_at_all(tmp_path):
    file = tmp_path / "labels.pdf"
    label_pdf(file, [a_label()], label_stock.find("roll-62x29"))
    assert file.read_bytes().startswith(b"%PDF")
    assert [path.name for path in tmp_path.iterdir()] == ["labels.pdf"]
    with pytest.raises(BadInput, match=r"cannot be written \(.*\)\. Choose another folder"):
        label_pdf(tmp_path / "no" / "labels.pdf", [a_label()], label_stock.find("roll-62x29"))
