"""The QR symbol: what the standard says of it, and a second writer's opinion."""

import numpy as np
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from qrcode.constants import ERROR_CORRECT_H
from qrcode.main import QRCode
from qrcode.util import MODE_ALPHA_NUM, QRData

from bagtag.domain import codes
from bagtag.paper import qr

any_code = st.builds(lambda seed: codes.draw(seed.choice), st.randoms(use_true_random=False))


def test_a_code_fits_version_one_at_level_h(published):
    """Version 1 has 21 modules and at level H takes ten alphanumeric characters."""
    row = published("QR alphanumeric capacity")["version 1"]
    assert row["inputs"]["modules"] == qr.SIZE
    assert row["expected"]["H"] >= codes.LENGTH
    assert published("QR")["quiet zone modules"]["expected"] == qr.QUIET


@given(any_code)
@settings(max_examples=40)
def test_a_second_reader_sees_version_level_mask_and_payload(code):
    """zxing-cpp reads the bare matrix, black on white, four pixels a module."""
    modules = np.pad(np.array(qr.matrix(code)), qr.QUIET)
    picture = np.where(np.kron(modules, np.ones((4, 4), bool)), 0, 255).astype(np.uint8)
    (found,) = zxingcpp.read_barcodes(picture)
    assert found.text == code
    assert found.ec_level == "H"
    assert found.symbology_identifier == "]Q1"


@given(any_code.filter(lambda code: not code.isdigit()))
@settings(max_examples=40)
def test_a_second_writer_draws_the_same_data(code):
    """zxing-cpp's writer picks its own mask: taking both masks off leaves the same modules.

    It writes a code of digits alone in numeric mode, so those are left out here.
    """
    written = zxingcpp.create_barcode(code, zxingcpp.BarcodeFormat.QRCode, ec_level="H")
    theirs = np.array(written.to_image(scale=1, add_quiet_zones=False)) == 0
    ours = np.array(qr.matrix(code))
    assert theirs.shape == ours.shape == (qr.SIZE, qr.SIZE)
    assert np.array_equal(_unmasked(theirs), _unmasked(ours))


@given(any_code)
@settings(max_examples=100)
def test_the_sum_over_bits_is_what_the_library_draws(code):
    """Every module, drawn by qrcode itself for the whole code, without our short cut."""
    symbol = QRCode(version=1, error_correction=ERROR_CORRECT_H, mask_pattern=3)
    symbol.add_data(QRData(code, mode=MODE_ALPHA_NUM))
    symbol.make(fit=False)
    assert [list(row) for row in qr.matrix(code)] == symbol.modules


# ISO/IEC 18004, table 10: the conditions of masks 0 to 7 on row i and column j (from memory).
MASKS = [
    lambda i, j: (i + j) % 2 == 0,
    lambda i, j: i % 2 == 0,
    lambda i, j: j % 3 == 0,
    lambda i, j: (i + j) % 3 == 0,
    lambda i, j: (i // 2 + j // 3) % 2 == 0,
    lambda i, j: (i * j) % 2 + (i * j) % 3 == 0,
    lambda i, j: ((i * j) % 2 + (i * j) % 3) % 2 == 0,
    lambda i, j: ((i + j) % 2 + (i * j) % 3) % 2 == 0,
]


def _mask(modules):
    """The mask in the format bits beside the top left finder: bits 12 to 10, XORed with 101."""
    return (modules[8, 2] << 2 | modules[8, 3] << 1 | modules[8, 4]) ^ 0b101


def _unmasked(modules):
    """The 208 data modules of version 1 with their mask taken off; all others white."""
    i, j = np.indices(modules.shape)
    finders = (i < 9) & (j < 9) | (i < 9) & (j > 12) | (i > 12) & (j < 9)
    data = ~(finders | (i == 6) | (j == 6))
    return np.where(data, modules ^ MASKS[_mask(modules.astype(int))](i, j), False)


@given(any_code)
@settings(max_examples=40)
def test_every_code_wears_the_one_fixed_mask(code):
    assert _mask(np.array(qr.matrix(code)).astype(int)) == qr.MASK


def test_a_code_of_digits_alone_is_written_like_every_other():
    """Numeric mode would give it a pattern that matching does not expect."""
    code = next(c for c in _digit_codes() if codes.is_valid(c))
    modules = np.pad(np.array(qr.matrix(code)), qr.QUIET)
    picture = np.where(np.kron(modules, np.ones((4, 4), bool)), 0, 255).astype(np.uint8)
    assert zxingcpp.read_barcode(picture).text == code
    # The mode stands in the last four modules of the lower right corner: 0010 is alphanumeric.
    corner = [(20, 20), (20, 19), (19, 20), (19, 19)]
    assert [bool(_unmasked(np.array(qr.matrix(code)))[at]) for at in corner] == [0, 0, 1, 0]


def _digit_codes():
    return (f"{payload}{codes.check_character(str(payload))}" for payload in range(22222, 99999))


@given(any_code)
@settings(max_examples=40)
def test_the_runs_paint_every_black_module_once(code):
    painted = np.zeros((qr.SIZE, qr.SIZE), int)
    for x, y, length in qr.runs(qr.matrix(code)):
        painted[y, x : x + length] += 1
    assert np.array_equal(painted, np.array(qr.matrix(code)).astype(int))


@given(st.sampled_from([203, 300, 600]), st.floats(3.7, 200))
def test_a_module_is_whole_dots_and_the_largest_that_fits(dpi, room):
    module = qr.module_mm(dpi, room)
    dots = module * dpi / 25.4
    assert dots == pytest.approx(round(dots))
    assert module * 21 <= 20.0001
    assert module * 29 <= room + 0.0001
    larger = (round(dots) + 1) * 25.4 / dpi
    assert larger * 21 > 20 or larger * 29 > room


def test_module_sizes_agree_with_the_inventors_page(published):
    """Its worked example at 400 dpi, and its table of 4, 5 and 6 dots a module.

    The table takes 300 dpi for 12 dots a millimetre and so rounds down: hence 3 percent.
    """
    example = published("QR")["area worked example"]["expected"]
    assert example["module_mm"] == pytest.approx(4 * qr.INCH_MM / 400)
    assert (29 + 2 * qr.QUIET) * example["module_mm"] == pytest.approx(example["with_margin_mm"])
    table = published("QR")["module mm by printer"]["expected"]
    for dots, wanted in zip((4, 5, 6), table["300"], strict=True):
        room = (dots + 0.5) * qr.INCH_MM / 300 * 29
        assert qr.module_mm(300, room) == pytest.approx(wanted, rel=0.03)


def test_twenty_millimetres_is_reached_where_the_label_allows():
    sizes = {dpi: round(21 * qr.module_mm(dpi, 29), 2) for dpi in (203, 300, 600)}
    assert sizes == {203: 18.39, 300: 19.56, 600: 19.56}
