"""Codes read back out of pictures, drawn by the label's own matrix and by two outside libraries."""

import random
from io import BytesIO

import numpy as np
import pytest
import qrcode
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageFilter
from pillow_heif import register_heif_opener

from bagtag.domain import codes
from bagtag.domain.errors import BadInput
from bagtag.paper import qr
from bagtag.scan.codes_in_pictures import Seen, read_codes, read_frame

register_heif_opener()

ADDRESS = "https://example.org/not-for-us"
# valid codes worked out with python-stdnum's iso7064.mod_37_2
CODES = ["P52SA9", "996S5S", "QSXK4Y", "MF324G", "89JN2J", "K8RPRA", "KF9GME", "AUW2TQ"]


def from_modules(modules, pixels: int) -> Image.Image:
    dark = np.pad(np.array(modules, dtype=bool), 4)
    grey = np.where(dark, np.uint8(20), np.uint8(235)).repeat(pixels, 0).repeat(pixels, 1)
    return Image.fromarray(grey)


def by_label(text: str, pixels: int = 8) -> Image.Image:
    return from_modules(qr.matrix(text), pixels)


def by_qrcode(text: str, pixels: int = 8) -> Image.Image:
    symbol = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_H, border=0)
    symbol.add_data(text)
    return from_modules(symbol.get_matrix(), pixels)


def by_zxing(text: str, pixels: int = 8) -> Image.Image:
    symbol = zxingcpp.create_barcode(text, zxingcpp.BarcodeFormat.QRCode, ec_level="H")
    drawn = np.asarray(symbol.to_image(scale=1, add_quiet_zones=False)) < 128
    return from_modules(drawn.reshape(drawn.shape[:2]), pixels)


def on_bench(*symbols: Image.Image, size: tuple[int, int] = (1280, 720)) -> Image.Image:
    """The symbols beside one another on a blotched bench top."""
    chance = np.random.default_rng(3)
    coarse = chance.integers(60, 190, (size[1] // 60, size[0] // 60), dtype=np.uint8)
    bench = Image.fromarray(coarse).resize(size, Image.Resampling.BICUBIC)
    for place, symbol in enumerate(symbols):
        bench.paste(symbol, (40 + place * 300, 60 + 90 * place))
    return bench


def encoded(image: Image.Image, form: str = "JPEG", **how) -> bytes:
    out = BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


@pytest.mark.parametrize("draw", [by_label, by_qrcode, by_zxing])
@pytest.mark.parametrize("form", ["PNG", "JPEG", "WEBP", "TIFF", "HEIF"])
def test_a_code_comes_back_from_every_kind_of_file(tmp_path, draw, form):
    for code in CODES:
        path = tmp_path / "label"
        path.write_bytes(encoded(draw(code).convert("RGB"), form))
        assert read_codes(path) == Seen((code,))


@settings(max_examples=40)
@given(
    chance=st.randoms(use_true_random=False),
    pixels=st.integers(3, 12),
    angle=st.integers(0, 359),
    dark=st.booleans(),
)
def test_any_code_at_any_angle(chance: random.Random, pixels, angle, dark):
    code = codes.draw(chance.choice)
    image = by_label(code, pixels).rotate(angle, Image.Resampling.BICUBIC, True, fillcolor=235)
    if dark:
        image = image.point([level // 5 for level in range(256)])
    assert read_codes(image) == Seen((code,))


@pytest.mark.parametrize("blur", [1, 2, 3, 4])
def test_a_blurred_code(blur):
    image = on_bench(by_label("P52SA9", 8)).filter(ImageFilter.GaussianBlur(blur))
    assert read_codes(encoded(image)) == Seen(("P52SA9",))


def test_light_on_dark():
    assert read_codes(by_label("P52SA9").point([255 - x for x in range(256)])) == Seen(("P52SA9",))


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_small_label_in_a_12_megapixel_photo(orientation):
    exif = Image.Exif()
    exif[274] = orientation
    photo = on_bench(by_label("K8RPRA", 4), size=(4032, 3024))
    assert read_codes(encoded(photo, exif=exif, quality=85)) == Seen(("K8RPRA",))


def test_a_photo_larger_than_helps():
    photo = on_bench(by_label("K8RPRA", 9), size=(8000, 6000))
    assert read_codes(encoded(photo, quality=60)) == Seen(("K8RPRA",))


def test_every_label_of_a_tray_once():
    tray = on_bench(by_label("P52SA9"), by_label("MF324G"), by_label("P52SA9"), by_label("89JN2J"))
    seen = read_codes(encoded(tray))
    assert sorted(seen.codes) == ["89JN2J", "MF324G", "P52SA9"]
    assert seen.others == ()


def test_what_a_foreign_symbol_says_is_only_handed_back():
    assert read_codes(encoded(on_bench(by_qrcode(ADDRESS, 6)))) == Seen((), (ADDRESS,))


def test_a_code_beside_a_foreign_symbol():
    both = on_bench(by_qrcode(ADDRESS, 5), by_label("QSXK4Y"))
    assert read_codes(both) == Seen(("QSXK4Y",), (ADDRESS,))


def faded(image: Image.Image, seed: int) -> np.ndarray:
    """A twentieth of the contrast and the camera's noise: a print that the sun has been at."""
    grey = 150 + (np.asarray(image, dtype=float) - 150) * 0.05
    return (grey + np.random.default_rng(seed).normal(0, 2, grey.shape)).astype(np.uint8)


def first_pass(grey: np.ndarray) -> list[str]:
    found = zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormat.QRCode)
    return [symbol.text for symbol in found]


def test_a_faded_code_beside_a_clear_foreign_symbol():
    """The first pass reads the foreign one alone; that must not end the search."""
    both = np.array(on_bench(by_qrcode(ADDRESS, 5), by_label("QSXK4Y", 6)))
    both[:, 330:] = faded(both[:, 330:], 2)
    assert first_pass(both) == [ADDRESS]
    assert read_codes(Image.fromarray(both)) == Seen(("QSXK4Y",), (ADDRESS,))


@pytest.mark.parametrize("wrong", ["P52SA8", "5P2SA9", "P52SA", "P52SA99", "BAG001"])
def test_six_characters_that_are_no_code_are_foreign(wrong):
    assert read_codes(by_qrcode(wrong)) == Seen((), (wrong,))


@pytest.mark.parametrize("text", ["p52-sa9", "P52 SA9", "p52sa9"])
def test_a_code_is_known_as_it_may_be_typed(text):
    assert read_codes(by_qrcode(text)) == Seen(("P52SA9",))


def test_no_code_at_all():
    assert read_codes(on_bench()) == Seen()
    assert read_codes(Image.new("L", (1, 1))) == Seen()
    assert read_codes(Image.new("RGB", (3, 900), "white")) == Seen()


@pytest.mark.parametrize("mode", ["1", "P", "RGB", "RGBA", "LA", "CMYK"])
def test_every_mode_of_a_picture(mode):
    assert read_codes(by_label("P52SA9").convert("RGB").convert(mode)) == Seen(("P52SA9",))


def test_a_clear_background_is_paper():
    ink = Image.new("LA", (29 * 8, 29 * 8), (0, 0))
    ink.putalpha(by_label("P52SA9").point([255 - x for x in range(256)]))
    assert read_codes(encoded(ink, "PNG")) == Seen(("P52SA9",))


def damaged(number: int) -> tuple[str, Image.Image]:
    """Shadow stripes, faded print or defocus, as a workshop has them; `number` is the seed."""
    chance = np.random.default_rng(number)
    code = CODES[number % len(CODES)]
    scene = on_bench(
        by_label(code, 5).rotate(number * 17, Image.Resampling.BICUBIC, True, fillcolor=235)
    )
    grey = np.asarray(scene, dtype=float)
    if number % 3 == 0:
        grey *= np.where(np.indices(grey.shape).sum(0) // 25 % 2, 1, chance.uniform(0.2, 0.5))
    elif number % 3 == 1:
        grey = 150 + (grey - 150) * 0.06 + chance.normal(0, 3, grey.shape)
    image = Image.fromarray(np.clip(grey, 0, 255).astype(np.uint8))
    return code, image.filter(ImageFilter.GaussianBlur(2.3)) if number % 3 == 2 else image


def test_the_passes_read_what_the_first_does_not():
    """Never one fewer, and a good part of what a single pass misses; no code that is not there."""
    once, later = set(), set()
    for number in range(45):
        code, image = damaged(number)
        found = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
        once |= {number for symbol in found if symbol.text == code}
        seen = read_codes(image).codes
        assert seen in ((), (code,))
        later |= {number} if seen else set()
    assert once < later
    assert len(later - once) >= (45 - len(once)) / 3


@pytest.mark.parametrize("padding", [0, 1, 3, 64])
def test_a_camera_frame_with_padded_rows(padding):
    grey = np.pad(np.asarray(on_bench(by_label("KF9GME"))), ((0, 0), (0, padding)))
    assert read_frame(1280, 720, grey.tobytes()) == Seen(("KF9GME",))


def test_a_camera_frame_with_something_else():
    frame = on_bench(by_qrcode(ADDRESS, 6))
    assert read_frame(1280, 720, frame.tobytes()) == Seen((), (ADDRESS,))
    assert read_frame(1280, 720, on_bench().tobytes()) == Seen()


def test_a_camera_frame_of_a_faded_label():
    """The fast passes read most of what the first pass alone hardly ever does."""
    frames = [faded(on_bench(by_label("KF9GME", 6)), seed) for seed in range(10)]
    seen = [read_frame(1280, 720, frame.tobytes()) for frame in frames]
    assert seen.count(Seen(("KF9GME",))) >= 8
    assert sum(bool(first_pass(frame)) for frame in frames) <= 4


def test_what_cannot_be_read_is_named(tmp_path):
    text = tmp_path / "jets.jpg"
    text.write_text("main jet 95")
    cut = tmp_path / "cut.jpg"
    cut.write_bytes(encoded(on_bench(by_label("P52SA9")))[:3000])
    for path in (text, cut, tmp_path / "gone.png", tmp_path):
        with pytest.raises(BadInput) as bad:
            read_codes(path)
        assert bad.value.sentence.startswith(f"{path.name} cannot be read as a picture")
    with pytest.raises(BadInput, match="The picture cannot be read"):
        read_codes(b"")


def test_200_megapixels_are_refused_by_their_size():
    with pytest.raises(BadInput, match="200 megapixels"):
        read_codes(encoded(Image.new("1", (20_000, 10_000)), "PNG"))
