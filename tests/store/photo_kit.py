"""What the tests of the photos are made of: pictures in every kind of file."""

from io import BytesIO
from pathlib import Path

import numpy as np
from PIL import Image
from pillow_heif import register_heif_opener

register_heif_opener()


def encoded(image: Image.Image, form: str = "JPEG", exif: Image.Exif | None = None, **how) -> bytes:
    out = BytesIO()
    if exif is not None:
        how["exif"] = exif.tobytes()
    image.save(out, form, **how)
    return out.getvalue()


def exif_of(*, orientation: int | None = None, taken: str = "", offset: str = "") -> Image.Exif:
    exif = Image.Exif()
    if orientation is not None:
        exif[274] = orientation
    if taken:
        exif.get_ifd(0x8769)[0x9003] = taken
    if offset:
        exif.get_ifd(0x8769)[0x9011] = offset
    return exif


def grainy(width: int = 320, height: int = 240) -> Image.Image:
    chance = np.random.default_rng(5)
    return Image.fromarray(chance.integers(0, 255, (height, width, 3), dtype=np.uint8))


def files_in(root: Path) -> set[str]:
    return {str(path.relative_to(root)) for path in root.rglob("*") if path.is_file()}
