"""What is in a picture file: its kind by content, its upright size, when it was taken, a thumbnail.

Orientation is tag 274 of TIFF 6.0, as EXIF 2.3 uses it; the time is DateTimeOriginal with
OffsetTimeOriginal. A HEIC picture carries its own rotation, which the reader applies.
"""

from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING, Any

from bagtag.domain.errors import BadInput

if TYPE_CHECKING:
    from PIL.Image import Exif, Image

MOST_PIXELS = 120_000_000
THUMB_SIDE = 504  # an eighth of a 12-megapixel picture's 4032: the JPEG decoder scales for nothing
HEAD = 32  # bytes that are enough to tell the kind

_ORIENTATION, _EXIF_IFD, _TAKEN, _TAKEN_OFFSET = 274, 0x8769, 0x9003, 0x9011
_FORMATS = {
    "jpg": "JPEG",
    "png": "PNG",
    "webp": "WEBP",
    "heic": "HEIF",
    "tif": "TIFF",
    "bmp": "BMP",
    "gif": "GIF",
}
_STARTS = (
    (b"\xff\xd8\xff", "jpg"),
    (b"\x89PNG\r\n\x1a\n", "png"),
    (b"II*\0", "tif"),
    (b"MM\0*", "tif"),
    (b"GIF87a", "gif"),
    (b"GIF89a", "gif"),
)
_HEIF_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs"} | {
    b"mif1",
    b"msf1",
}
_BMP_HEADERS = {12, 40, 52, 56, 64, 108, 124}


@dataclass(frozen=True, slots=True)
class Picture:
    """`width` and `height` in pixels, upright; `thumb` is an upright JPEG of at most THUMB_SIDE."""

    ext: str
    width: int
    height: int
    taken_at: datetime | None
    thumb: bytes


@dataclass(frozen=True, slots=True)
class Pixels:
    """A whole picture upright: red, green and blue of each pixel, a byte each, row by row."""

    width: int
    height: int
    rgb: bytes


def kind(head: bytes, name: str) -> str:
    """jpg, png, webp, heic, tif, bmp or gif from the first HEAD bytes, or BadInput."""
    if not head:
        raise BadInput(f"{name} is empty. Copy it again from the camera or phone.")
    for start, ext in _STARTS:
        if head.startswith(start):
            return ext
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "webp"
    if head[4:8] == b"ftyp" and head[8:12] in _HEIF_BRANDS:
        return "heic"
    if head[:2] == b"BM" and int.from_bytes(head[14:18], "little") in _BMP_HEADERS:
        return "bmp"
    raise BadInput(
        f"{name} is not a picture that can be read, whatever its name says. "
        "Take JPEG, PNG, HEIC, WebP, TIFF, BMP or GIF."
    )


def read(data: bytes, name: str) -> Picture:
    """The whole of `data` decoded once, so that a cut or damaged file is noticed, or BadInput.

    `name` is what the sentences call it. More than MOST_PIXELS is refused before decoding.
    """
    ext = kind(data[:HEAD], name)
    try:
        image = _opened(data, ext)
    except Exception as error:  # a decoder may raise anything over a damaged file
        raise _damaged(data, ext, name, error) from error
    _check_size(image.size, name)
    try:
        return _looked_at(image, data, ext)
    except Exception as error:
        raise _damaged(data, ext, name, error) from error


def upright(data: bytes, name: str) -> Pixels:
    """A picture at its full size, turned as it is seen, or BadInput."""
    ext = kind(data[:HEAD], name)
    try:
        image = _opened(data, ext)
        turn = _turns().get(_told(image)[0])
        seen = _on_white(_plain(image)).convert("RGB")
    except Exception as error:  # a decoder may raise anything over a damaged file
        raise _damaged(data, ext, name, error) from error
    seen = seen.transpose(turn) if turn is not None else seen
    return Pixels(seen.width, seen.height, seen.tobytes())


def _opened(data: bytes, ext: str) -> "Image":
    from PIL import Image

    # The size is checked here, in words; the library's own guard is a warning to nobody.
    Image.MAX_IMAGE_PIXELS = None
    if ext == "heic":
        from pillow_heif import register_heif_opener

        register_heif_opener()
    return Image.open(BytesIO(data), formats=(_FORMATS[ext],))


def _check_size(size: tuple[int, int], name: str) -> None:
    pixels = size[0] * size[1]
    if pixels > MOST_PIXELS:
        raise BadInput(
            f"{name} has {pixels / 1e6:.0f} megapixels ({size[0]} × {size[1]}), and "
            f"{MOST_PIXELS / 1e6:.0f} is the most that is taken. Save it smaller and add that."
        )


def _looked_at(image: "Image", data: bytes, ext: str) -> Picture:
    width, height = image.size
    if ext == "jpg":
        if data[-1] == 0 and not _has_end(data):  # a copy that broke off, filled up with zeros
            raise OSError("truncated")
        _decode_scaled(image)
    image.load()
    orientation, taken_at = _told(image)
    if orientation > 4:
        width, height = height, width
    return Picture(ext, width, height, taken_at, _thumb(image, orientation))


def _has_end(jpeg: bytes) -> bool:
    """Whether an end mark follows the start of the scan (EOI and SOS of ITU-T T.81)."""
    place = 2
    while jpeg[place : place + 1] == b"\xff" and jpeg[place + 1 : place + 2] != b"\xda":
        place += 2 + int.from_bytes(jpeg[place + 2 : place + 4], "big")
    return jpeg.find(b"\xff\xd9", place) >= 0


def _decode_scaled(image: "Image") -> None:
    """Let the JPEG decoder shrink as far as the thumbnail allows; it still reads every bit."""
    longest = max(image.size)
    scale = next((s for s in (8, 4, 2) if longest // s >= THUMB_SIDE * 0.95), 1)
    if scale > 1:
        image.draft(None, (max(1, image.width // scale), max(1, image.height // scale)))


def _told(image: "Image") -> tuple[int, datetime | None]:
    """Orientation 1 to 8 and the time; a broken EXIF block never keeps a photo out."""
    try:
        exif = image.getexif()
        orientation = exif.get(_ORIENTATION, 1)
        taken_at = _taken_at(exif)
    except Exception:  # the EXIF reader raises whatever a damaged block leads it to
        return 1, None
    return (int(orientation) if orientation in range(1, 9) else 1), taken_at


def _taken_at(exif: "Exif") -> datetime | None:
    details: dict[int, Any] = exif.get_ifd(_EXIF_IFD)
    stamp = str(details.get(_TAKEN, ""))
    stamp = stamp[:10].replace(":", "-") + stamp[10:19]
    for offset in (str(details.get(_TAKEN_OFFSET, "")).strip("\0 "), ""):
        try:
            return datetime.fromisoformat(stamp + offset)
        except ValueError:
            continue
    return None


def _thumb(image: "Image", orientation: int) -> bytes:
    small = _on_white(_shrunk(_plain(image)))
    turn = _turns().get(orientation)
    if turn is not None:
        small = small.transpose(turn)
    out = BytesIO()
    small.save(out, "JPEG", quality=85)
    return out.getvalue()


def _plain(image: "Image") -> "Image":
    """A mode that can be resized: no palette, eight bits."""
    if image.mode in ("RGB", "L", "RGBA", "LA"):
        return image
    if image.mode.startswith("I;16"):
        return image.convert("I").point(lambda grey: grey * (1 / 256)).convert("L")
    if image.mode == "1":
        return image.convert("L")
    return image.convert("RGBA" if image.has_transparency_data else "RGB")


def _shrunk(image: "Image") -> "Image":
    from PIL import Image

    scale = THUMB_SIDE / max(image.size)
    if scale >= 1:
        return image
    size = (max(1, round(image.width * scale)), max(1, round(image.height * scale)))
    return image.resize(size, Image.Resampling.BICUBIC, reducing_gap=2.0)


def _on_white(image: "Image") -> "Image":
    from PIL import Image

    if image.mode in ("RGB", "L"):
        return image
    clear = image.convert("RGBA")
    white = Image.new("RGB", image.size, "white")
    white.paste(clear, mask=clear.getchannel("A"))
    return white


def _turns() -> dict[int, Any]:
    """What makes a picture of each orientation upright (TIFF 6.0, tag 274)."""
    from PIL.Image import Transpose as T  # noqa: N817  (a table of eight reads better short)

    return {
        2: T.FLIP_LEFT_RIGHT,
        3: T.ROTATE_180,
        4: T.FLIP_TOP_BOTTOM,
        5: T.TRANSPOSE,
        6: T.ROTATE_270,
        7: T.TRANSVERSE,
        8: T.ROTATE_90,
    }


def _damaged(data: bytes, ext: str, name: str, error: Exception) -> BadInput:
    cut = "truncated" in str(error) or (ext == "jpg" and not _has_end(data))
    what = "is cut off: the file ends before the picture does" if cut else "is damaged"
    return BadInput(f"{name} {what}. Copy it again from the camera or phone.")
