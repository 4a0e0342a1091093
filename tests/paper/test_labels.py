"""Labels as PDF: read back by two readers, dot by dot, and what each one says."""

import random
import re

import cv2
import numpy as np
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag.domain.codes import draw, show
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Fate, TagRole
from bagtag.paper import qr
from bagtag.paper import stock as label_stock
from bagtag.paper.fonts import BOLD, CAP, missing_glyphs, width
from bagtag.paper.labels import LabelText, layout
from tests.paper.label_kit import (
    DATUM,
    FACTS,
    HELD_BY,
    JOB,
    NAMES,
    STOCKS,
    a_label,
    crops,
    printed,
    some_labels,
)


@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize("stock", STOCKS)
def test_every_label_is_read_by_two_readers(render, stock, dpi):
    """zxing-cpp and OpenCV's QRCodeDetector, each on the label alone, payload equal."""
    labels = some_labels(12, seed=dpi)
    pages = render(printed(labels, stock, dpi=dpi)[0], dpi)
    detector = cv2.QRCodeDetector()
    for label, crop in zip(labels, crops(pages, stock, 12, dpi), strict=True):
        picture = np.pad(crop, 8, constant_values=255)
        found = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
        assert [one.text for one in found] == [label.code]
        assert found[0].ec_level == "H"
        assert detector.detectAndDecode(picture)[0] == label.code


@pytest.mark.parametrize("dpi", [203, 300, 600])
@pytest.mark.parametrize("stock", ["roll-62x29", "roll-50x25", "a4-3x7", "letter-3x10", "tie-on"])
def test_each_module_is_whole_printer_dots_all_black_or_all_white(render, stock, dpi):
    """Symbol and quiet zone, dot by dot, wherever on the page the label lies."""
    labels = some_labels(5, seed=3)
    kind = label_stock.find(stock)
    pages = render(printed(labels, stock, dpi=dpi, nudge=(0.37, 0.0))[0], dpi)
    cells = label_stock.cells(kind, 5, nudge=(0.37, 0.0))
    for label, cell in zip(labels, cells, strict=True):
        laid = layout(label, kind, dpi)
        left = round(cell.x / 25.4 * dpi) + laid.qr_x - 4 * laid.module
        top = round(cell.y / 25.4 * dpi) + laid.qr_y - 4 * laid.module
        modules = np.where(np.pad(np.array(qr.matrix(label.code)), 4), 0, 255)
        dots = np.kron(modules, np.ones((laid.module, laid.module), int))
        seen = pages[cell.page][top : top + len(dots), left : left + len(dots)]
        assert np.abs(seen.astype(int) - dots).max() <= 1  # pdfium reckons in single precision


@pytest.mark.parametrize("dpi", [203, 300, 600])
@pytest.mark.parametrize("stock", STOCKS)
def test_the_symbol_is_at_most_twenty_millimetres_and_has_its_quiet_zone(stock, dpi):
    kind = label_stock.find(stock)
    laid = layout(a_label(), kind, dpi)
    dot = 25.4 / dpi
    assert 21 * laid.module * dot <= 20
    assert min(laid.qr_x, laid.qr_y) >= 4 * laid.module
    assert (laid.qr_y + 25 * laid.module) * dot <= kind.label_height + dot
    larger = (laid.module + 1) * dot
    room = min(kind.label_width, kind.label_height)
    assert 21 * larger > 20 or 29 * larger > room


any_text = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), max_size=500)
any_label = st.builds(
    LabelText,
    code=st.builds(lambda seed: draw(random.Random(seed).choice), st.integers(0, 10**6)),
    role=st.sampled_from(TagRole),
    number=st.from_regex(r"\A[1-9][0-9]{0,3}[a-d]?\Z") | st.just(""),
    name=st.sampled_from(NAMES) | any_text,
    quantity=st.integers(1, 5000),
    job=st.just(JOB) | any_text,
    area=st.sampled_from(["", "gearbox", "engine > lower case > gearbox"]) | any_text,
    facts=st.sampled_from(FACTS),
    datum=st.just(DATUM),
    fate=st.sampled_from(Fate),
    held_by=st.sampled_from([(), HELD_BY, HELD_BY * 4]),
    twin_code=st.sampled_from(["", "K8RPRA"]),
    lines=st.lists(st.sampled_from(NAMES), max_size=9).map(tuple),
)


def _boxes(laid):
    """Left, top, right, bottom of everything but bars, in mm; capitals for lines of text."""
    dot = 25.4 / laid.dpi
    side, quiet = 21 * laid.module * dot, 4 * laid.module * dot
    x, y = laid.qr_x * dot, laid.qr_y * dot
    yield (x - quiet, y - quiet, x + side + quiet, y + side + quiet)
    for p in laid.pictures:
        yield (p.x, p.y, p.x + p.width, p.y + p.height)
    for w in laid.words:
        yield (w.x, w.y - w.size * CAP, w.x + width(w.text, w.font, w.size), w.y)


@given(any_label, st.sampled_from(STOCKS), st.sampled_from([203, 300]))
@settings(max_examples=150, deadline=None)
def test_nothing_overflows_overlaps_or_gets_too_small(label, stock, dpi):
    kind = label_stock.find(stock)
    laid = layout(label, kind, dpi)
    boxes = list(_boxes(laid))
    for left, top, right, bottom in boxes[1:]:
        assert 1 <= left <= right <= kind.label_width - 1
        assert 1 <= top <= bottom <= kind.label_height - 1
    for i, (a, b, c, d) in enumerate(boxes):
        for left, top, right, bottom in boxes[i + 1 :]:
            apart = c <= left + 0.01 or right <= a + 0.01 or d <= top + 0.01 or bottom <= b + 0.01
            assert apart
    for bar in laid.bars:
        assert 1 <= bar.x <= bar.x + bar.width <= kind.label_width - 1
        assert 1 <= bar.y <= bar.y + bar.height <= kind.label_height - 1
    assert all(word.size * CAP >= 1.799 or word.white for word in laid.words)
    (code,) = [w for w in laid.words if w.text == show(label.code) and w.font == BOLD]
    assert code.size * CAP >= 2.97


WITHOUT_TORQUE = {
    "The torque did not fit.",
    "Of the hardware only number and size did fit.",
    "The hardware did not fit.",
}


@given(any_label, st.sampled_from(STOCKS))
@settings(max_examples=150, deadline=None)
def test_a_torque_is_never_printed_without_the_makers_manual(label, stock):
    laid = layout(label, label_stock.find(stock), 300)
    said = " ".join(word.text for word in laid.words).replace("\u00a0", " ")
    if "10 N·m" in said:
        assert OVERRIDE in said
    if label.held_by and label.role is not TagRole.BLANK and "10 N·m" not in said:
        assert WITHOUT_TORQUE & set(laid.left_out)


def test_the_words_are_printed_as_typed(words):
    name = "Вал <b>&amp; Άξονας & 50 % é"
    (page,) = words(printed([a_label(name=name, facts=())], "roll-4x6in")[0])
    assert name in " ".join(page.split())
    assert "MF3-24G" in page
    assert JOB in page


def test_letters_typed_in_two_signs_print_as_one(words):
    (page,) = words(printed([a_label(name="e\u0301crou")], "roll-4x6in")[0])
    assert "écrou" in page


def test_letters_roboto_lacks_are_named(words):
    assert missing_glyphs("Nut ☐ and ✓☐") == "☐✓"
    _, report = printed([a_label(), a_label(name="Nut ☐")], "roll-100x50")
    assert report.warnings == ("Label 2: Roboto has no ☐; an empty box is printed.",)


@pytest.mark.parametrize("stock", STOCKS)
def test_a_name_of_500_characters_is_cut_at_a_word_and_said_to_be(words, stock):
    name = ("Schaltgabel " * 42)[:500]
    pdf, report = printed([a_label(), a_label(name=name)], stock)
    said = " ".join(words(pdf)[-1].split())
    if "Label 2: the name was cut." in report.warnings:
        assert re.search(r"Schaltgabel…", said) or re.search(r"Scha\w*…", said)
    else:
        assert said.count("Schaltgabel ") == 41  # a 4 by 6 inch label has room for all of it
        assert "Schaltga Walking" in said
    assert not any(w.startswith("Label 1: the name") for w in report.warnings)


def test_what_did_not_fit_is_told_once_for_all_labels_alike():
    labels = [a_label(area="gearbox", facts=FACTS[1], datum=DATUM)] * 4 + [a_label(job="")]
    _, report = printed(labels, "roll-62x29")
    assert "Labels 1 to 4: the area did not fit." in report.warnings
    assert not any("5" in warning for warning in report.warnings)


def test_a_full_label_says_everything(words):
    label = a_label(
        area="gearbox",
        facts=FACTS[2],
        datum=DATUM,
        fate=Fate.RENEW,
        quantity=2,
        held_by=HELD_BY,
        lines=("in bag 12",),
    )
    pdf, report = printed([label], "roll-4x6in")
    said = " ".join(words(pdf)[0].split())
    assert report.warnings == ()
    for part in ("MF3-24G", "28", "Shift fork × 2", "RENEW", "OUT faces outward.", "gearbox"):
        assert part in said
    for part in (JOB, "4 screws M6x12, T30, 10 N·m, threadlocker medium", OVERRIDE, "in bag 12"):
        assert part in said


@pytest.mark.parametrize("fate", [Fate.RENEW, Fate.DECIDE, Fate.SCRAP])
@pytest.mark.parametrize("stock", STOCKS)
def test_a_part_that_is_not_refitted_says_so(stock, fate):
    for facts in FACTS:
        laid = layout(a_label(fate=fate, facts=facts, datum=DATUM), label_stock.find(stock), 300)
        said = " ".join(word.text for word in laid.words)
        assert fate.value.upper() in said


@pytest.mark.parametrize("stock", STOCKS)
@pytest.mark.parametrize(
    ("role", "where"), [(TagRole.TWIN_PART, "ON THE PART"), (TagRole.TWIN_PLACE, "ON ITS PLACE")]
)
def test_a_twin_names_its_side_and_the_other_code(words, stock, role, where):
    pdf, _ = printed([a_label(role=role, twin_code="K8RPRA", name="Fuel hose")], stock)
    said = " ".join(words(pdf)[0].split())
    assert where in said
    assert "twin K8R-PRA" in said


@pytest.mark.parametrize("stock", STOCKS)
def test_a_blank_tag_has_a_code_and_a_line_to_write_on(stock):
    laid = layout(LabelText("MF324G", role=TagRole.BLANK), label_stock.find(stock), 300)
    assert {word.text for word in laid.words} <= {"MF3-24G", "part", "from", "which way", "note"}
    assert all(bar.width >= 20 and bar.height < 0.5 for bar in laid.bars)
    assert laid.bars
    assert laid.left_out == ()
