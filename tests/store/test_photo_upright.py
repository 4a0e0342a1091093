"""A whole photo upright, pixel for pixel as Pillow turns it (TIFF 6.0, tag 274)."""

import numpy as np
import pytest
from PIL import Image, ImageOps

from bagtag.domain.errors import BadInput
from bagtag.store import pictures
from tests.store.photo_kit import encoded, exif_of, grainy


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_is_turned_as_pillow_turns_it(orientation) -> None:
    image = grainy(32, 24)
    exif = exif_of(orientation=orientation)
    found = pictures.upright(encoded(image, "PNG", exif), "photo.png")
    told = image.copy()
    told.getexif()[274] = orientation
    wanted = ImageOps.exif_transpose(told)
    assert (found.width, found.height) == wanted.size
    pixels = np.frombuffer(found.rgb, np.uint8).reshape(found.height, found.width, 3)
    assert np.array_equal(pixels, np.asarray(wanted))


def test_a_heic_has_its_size_and_its_colours() -> None:
    image = Image.new("RGB", (64, 48), (180, 40, 40))
    found = pictures.upright(encoded(image, "HEIF"), "phone.heic")
    assert (found.width, found.height) == (64, 48)
    assert len(found.rgb) == 64 * 48 * 3
    assert abs(found.rgb[0] - 180) < 12


def test_a_cut_file_is_said() -> None:
    whole = encoded(grainy())
    with pytest.raises(BadInput, match=r"cut off|damaged"):
        pictures.upright(whole[: len(whole) // 2], "photo.jpg")
