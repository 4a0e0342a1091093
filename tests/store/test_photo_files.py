"""Photos: upright, byte for byte as they came, and once each."""

import hashlib
import json
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timedelta, timezone
from pathlib import Path
from threading import Barrier

import numpy as np
import pytest
from PIL import Image

from bagtag.domain.errors import StoreTrouble
from bagtag.store.photo_files import PhotoFiles
from tests.store.photo_kit import encoded, exif_of, files_in, grainy

CHECK_VALUES = Path(__file__).parents[1] / "check_values"
ROWS_AND_COLUMNS = json.loads((CHECK_VALUES / "exif_orientation.json").read_text())["values"][0]
CORNERS = {"top left": "red", "top right": "green", "bottom left": "blue", "bottom right": "white"}
COLOURS = {"red": (255, 0, 0), "green": (0, 128, 0), "blue": (0, 0, 255), "white": (255,) * 3}


def upright(width: int, height: int) -> np.ndarray:
    """Four quarters, each in its own colour."""
    picture = np.zeros((height, width, 3), dtype=np.uint8)
    halves = {"top": slice(0, height // 2), "bottom": slice(height // 2, None)}
    sides = {"left": slice(0, width // 2), "right": slice(width // 2, None)}
    for corner, colour in CORNERS.items():
        half, side = corner.split()
        picture[halves[half], sides[side]] = COLOURS[colour]
    return picture


def as_stored(picture: np.ndarray, orientation: int) -> Image.Image:
    """The rows and columns that a camera writes, by the words of the standard."""
    row_side, column_side = ROWS_AND_COLUMNS["expected"][str(orientation)]
    if row_side in ("left", "right"):
        picture = picture.transpose(1, 0, 2)
    if row_side in ("bottom", "right"):
        picture = picture[::-1]
    if column_side in ("bottom", "right"):
        picture = picture[:, ::-1]
    return Image.fromarray(np.ascontiguousarray(picture))


def quarters(thumb: Image.Image) -> dict[str, str]:
    """The colour nearest to the middle of each quarter."""
    seen = {}
    for corner in CORNERS:
        half, side = corner.split()
        place = (
            thumb.width * (1 + 2 * (side == "right")) // 4,
            thumb.height * (1 + 2 * (half == "bottom")) // 4,
        )
        pixel = np.array(thumb.convert("RGB").getpixel(place), dtype=int)
        seen[corner] = min(COLOURS, key=lambda name: abs(pixel - COLOURS[name]).sum())
    return seen


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF", "HEIF"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_is_shown_upright(photos, form, orientation):
    image = as_stored(upright(400, 300), orientation)
    how = {"exif": exif_of(orientation=orientation)}
    taken = photos.take(encoded(image, form, **how), "gearbox.x")
    with Image.open(photos.thumb(taken.hash)) as thumb:
        assert quarters(thumb) == CORNERS
        assert thumb.size == (400, 300)
        assert 274 not in thumb.getexif()
    assert (taken.width, taken.height) == (400, 300)


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize(("width", "height"), [(4032, 3024), (1300, 700), (1008, 757)])
def test_a_large_jpeg_is_upright_after_the_scaled_decoding(photos, orientation, width, height):
    image = as_stored(upright(width, height), orientation)
    taken = photos.take(encoded(image, exif=exif_of(orientation=orientation)), "case half.jpg")
    with Image.open(photos.thumb(taken.hash)) as thumb:
        assert quarters(thumb) == CORNERS
        assert 504 * 0.94 < thumb.width <= 504
        assert thumb.height == pytest.approx(thumb.width * height / width, abs=1)
    assert (taken.width, taken.height) == (width, height)


@pytest.mark.parametrize("orientation", [0, 9, 4711])
def test_an_orientation_outside_the_standard_is_as_stored(photos, orientation):
    taken = photos.take(
        encoded(Image.fromarray(upright(400, 300)), exif=exif_of(orientation=orientation)), "a.jpg"
    )
    with Image.open(photos.thumb(taken.hash)) as thumb:
        assert quarters(thumb) == CORNERS


@pytest.mark.parametrize(
    ("form", "ext"),
    [
        ("JPEG", "jpg"),
        ("PNG", "png"),
        ("WEBP", "webp"),
        ("HEIF", "heic"),
        ("TIFF", "tif"),
        ("BMP", "bmp"),
        ("GIF", "gif"),
    ],
)
def test_the_kind_is_told_by_content_and_the_bytes_stay(photos, tmp_path, form, ext):
    data = encoded(grainy(), form)
    source = tmp_path / "clutch.txt"
    source.write_bytes(data)
    taken = photos.take(source, source.name)
    assert (taken.ext, taken.name) == (ext, "clutch.txt")
    assert taken.hash == hashlib.sha256(data).hexdigest()
    assert photos.path(taken.hash, ext).read_bytes() == data
    assert photos.verify(taken.hash, ext)
    assert photos.path(taken.hash, ext) == photos.root / taken.hash[:2] / f"{taken.hash}.{ext}"


@pytest.mark.parametrize(
    ("stamp", "offset", "at"),
    [
        ("2026:11:03 09:15:42", "", datetime(2026, 11, 3, 9, 15, 42)),
        (
            "2026:11:03 09:15:42",
            "+02:00",
            datetime(2026, 11, 3, 9, 15, 42, tzinfo=timezone(timedelta(hours=2))),
        ),
        ("2026:11:03 09:15:42", "   :  ", datetime(2026, 11, 3, 9, 15, 42)),
        ("    :  :     :  :  ", "", None),
        ("0000:00:00 00:00:00", "", None),
        ("last spring", "", None),
        ("", "", None),
    ],
)
@pytest.mark.parametrize("form", ["JPEG", "HEIF", "PNG"])
def test_the_time_is_the_cameras(photos, form, stamp, offset, at):
    data = encoded(grainy(), form, exif_of(taken=stamp, offset=offset))
    assert photos.take(data, "a").taken_at == at


# Pillow tells the log of it; filters are the whole process's, so they are left alone
@pytest.mark.filterwarnings("ignore:.*EXIF", "ignore:Tag data larger than file")
def test_a_broken_exif_block_keeps_no_photo_out(photos):
    data = encoded(grainy(), exif=exif_of(orientation=6, taken="2026:11:03 09:15:42"))
    block = data.index(b"Exif\0\0") + 6
    for broken in (b"\xff" * 12, b"II*\0\xff\xff\xff\x7f"):
        bad = data[:block] + broken + data[block + len(broken) :]
        taken = photos.take(bad, "a.jpg")
        assert taken.taken_at is None
        assert photos.thumb(taken.hash).exists()


def test_the_same_photo_is_stored_once(photos, tmp_path):
    data = encoded(grainy())
    (tmp_path / "IMG_1.jpg").write_bytes(data)
    first = photos.take(tmp_path / "IMG_1.jpg", "IMG_1.jpg")
    second = photos.take(data, "pasted")
    assert first.hash == second.hash
    assert files_in(photos.root) == {
        f"{first.hash[:2]}/{first.hash}.jpg",
        f"thumbs/{first.hash[:2]}/{first.hash}.jpg",
    }
    assert photos.all_hashes() == {first.hash: "jpg"}


def test_one_photo_from_four_sides_at_once(photos):
    data, start = encoded(grainy(900, 700)), Barrier(4)

    def take(_: int) -> str:
        start.wait()
        return photos.take(data, "IMG_2.jpg").hash

    for _ in range(5):
        with ThreadPoolExecutor(4) as pool:
            hashes = set(pool.map(take, range(4)))
        assert len(hashes) == 1
        assert photos.verify(hashes.pop(), "jpg")
        assert len(files_in(photos.root)) == 2
        for name in files_in(photos.root):
            (photos.root / name).unlink()


def test_a_stored_file_gone_bad_is_seen_and_mended(photos):
    data = encoded(grainy())
    taken = photos.take(data, "a.jpg")
    path = photos.path(taken.hash, "jpg")
    path.write_bytes(data[:100] + b"?" + data[101:])
    assert not photos.verify(taken.hash, "jpg")
    photos.take(data, "a.jpg")
    assert photos.verify(taken.hash, "jpg")
    path.unlink()
    assert not photos.verify(taken.hash, "jpg")


def test_a_missing_thumbnail_is_made_anew(photos):
    taken = photos.take(encoded(grainy(1200, 900)), "a.jpg")
    before = photos.thumb(taken.hash).read_bytes()
    photos.thumb(taken.hash).unlink()
    assert photos.remake_thumb(taken.hash, "jpg").read_bytes() == before
    photos.path(taken.hash, "jpg").unlink()
    with pytest.raises(StoreTrouble, match="backup"):
        photos.remake_thumb(taken.hash, "jpg")


def test_the_sweep_takes_what_is_older_and_nothing_else(photos):
    taken = photos.take(encoded(grainy()), "a.jpg")
    left = photos.root / "temp" / "left by a power cut"
    left.write_bytes(b"half")
    assert photos.sweep(datetime.fromtimestamp(left.stat().st_mtime - 1)) == 0
    assert left.exists()
    later = datetime.fromtimestamp(left.stat().st_mtime + 1).astimezone()
    assert photos.sweep(later) == 1
    assert not left.exists()
    assert photos.verify(taken.hash, "jpg")
    assert photos.thumb(taken.hash).exists()
    assert PhotoFiles(photos.root / "never used").sweep(later) == 0


@pytest.mark.parametrize(
    ("mode", "colour", "seen"),
    [
        ("L", 90, (90, 90, 90)),
        ("1", 1, (255, 255, 255)),
        ("I;16", 90 * 256, (90, 90, 90)),
        ("RGBA", (200, 0, 0, 0), (255, 255, 255)),
        ("RGBA", (200, 0, 0, 255), (200, 0, 0)),
        ("LA", (90, 0), (255, 255, 255)),
        ("P", 0, (0, 0, 0)),
    ],
)
def test_a_thumbnail_looks_like_its_picture_in_every_mode(photos, mode, colour, seen):
    taken = photos.take(encoded(Image.new(mode, (1000, 600), colour), "PNG"), "a.png")
    with Image.open(photos.thumb(taken.hash)) as thumb:
        assert thumb.size == (504, 302)
        assert thumb.convert("RGB").getpixel((250, 150)) == pytest.approx(seen, abs=3)


def test_a_printers_cmyk_jpeg_is_taken(photos):
    taken = photos.take(encoded(Image.new("CMYK", (800, 600), (0, 0, 0, 0))), "a.jpg")
    with Image.open(photos.thumb(taken.hash)) as thumb:
        assert thumb.convert("RGB").getpixel((100, 100)) == pytest.approx((255, 255, 255), abs=3)


def test_a_strip_of_a_picture_still_has_a_thumbnail(photos):
    taken = photos.take(encoded(Image.new("RGB", (5000, 2), "red")), "a.jpg")
    with Image.open(photos.thumb(taken.hash)) as thumb:
        assert thumb.size == (504, 1)


def test_100_megapixels_are_taken_without_a_warning(photos):
    taken = photos.take(encoded(Image.new("1", (12_500, 8_000)), "PNG"), "drawing.png")
    assert (taken.width, taken.height) == (12_500, 8_000)
