"""Tag codes read out of pictures: a photo with all passes, a camera frame with the fast ones.

QR alone, since no tag carries anything else and looking for every kind costs eleven times as
much. What another QR says is handed back as text; nothing here opens or follows it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

from bagtag.domain import codes
from bagtag.domain.errors import BadInput

if TYPE_CHECKING:
    from PIL.Image import Image

    Grey = Any  # a numpy array of rows of bytes, 0 black

MOST_PIXELS = 120_000_000
_LONGEST = 4000  # pixels a side at which a tag across a bench is still read
_LONGEST_LATER = 1300  # the later passes mend blur and light, for which that is enough


@dataclass(frozen=True, slots=True)
class Seen:
    """`codes` are valid tag codes, bare and each once; `others` the texts of foreign QR symbols."""

    codes: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


def read_codes(source: "Path | bytes | Image") -> Seen:
    """What a photo, a scan or a screenshot shows, however it is turned.

    Stops at the first pass that finds a tag code. BadInput when it is no whole picture.
    """
    from PIL import Image

    grey = _grey(source if isinstance(source, Image.Image) else _opened(source))
    return _first(_all_passes(grey))


def read_frame(width: int, height: int, grey: bytes) -> Seen:
    """What a live camera frame shows: one byte a pixel, rows padded alike or not at all."""
    import numpy as np
    from PIL import Image

    rows = np.frombuffer(grey, dtype=np.uint8).reshape(height, len(grey) // height)
    return _first(_fast_passes(Image.fromarray(rows[:, :width])))


def _first(passes: Iterable[tuple["Grey", str]]) -> Seen:
    others: dict[str, None] = {}
    for grey, binarizer in passes:
        texts = _texts(grey, binarizer)
        found = dict.fromkeys(code for text in texts if codes.is_valid(code := codes.bare(text)))
        others |= dict.fromkeys(text for text in texts if not codes.is_valid(codes.bare(text)))
        if found:
            return Seen(tuple(found), tuple(others))
    return Seen((), tuple(others))


def _texts(grey: "Grey", binarizer: str) -> list[str]:
    import zxingcpp

    found = zxingcpp.read_barcodes(
        grey,
        formats=zxingcpp.barcode_formats_from_str("QRCode"),
        binarizer=getattr(zxingcpp.Binarizer, binarizer),
    )
    return [symbol.text for symbol in found if symbol.text]


def _fast_passes(image: "Image") -> Iterator[tuple["Grey", str]]:
    """As it is; half the size and smoothed, against noise; black and white against shadows."""
    import numpy as np

    yield np.asarray(image), "LocalAverage"
    image = _reduced(image, _LONGEST_LATER)
    half = (max(1, image.width // 2), max(1, image.height // 2))
    yield _smoothed(image.resize(half, reducing_gap=2.0)), "LocalAverage"
    yield _black_and_white(image, 10), "FixedThreshold"


def _all_passes(image: "Image") -> Iterator[tuple["Grey", str]]:
    """Then even light and contrast; sharper, against defocus; twice the size, for small symbols."""
    import numpy as np
    from PIL import ImageFilter

    yield from _fast_passes(image)
    image = _reduced(image, _LONGEST_LATER)
    yield _normalised(image, 12), "LocalAverage"
    sharp = image.filter(ImageFilter.UnsharpMask(radius=6, percent=250, threshold=0))
    yield np.asarray(sharp), "LocalAverage"
    twice = image.resize((image.width * 2, image.height * 2))
    yield _black_and_white(twice, 12), "FixedThreshold"


def _smoothed(image: "Image") -> "Grey":
    import numpy as np
    from PIL import ImageFilter

    return np.asarray(image.filter(ImageFilter.GaussianBlur(1)))


def _black_and_white(image: "Image", radius: int) -> "Grey":
    """White where a pixel is lighter than the mean of the box around it."""
    import numpy as np
    from PIL import ImageFilter

    mean = np.asarray(image.filter(ImageFilter.BoxBlur(radius)))
    return np.where(_smoothed(image) > mean, np.uint8(255), np.uint8(0))


def _normalised(image: "Image", radius: int) -> "Grey":
    """Each pixel by the mean and the spread of the box around it, around a middle grey."""
    import numpy as np

    grey = np.asarray(image, dtype=np.float32)
    mean = _box_mean(grey, radius)
    spread = np.sqrt(np.maximum(_box_mean(grey * grey, radius) - mean * mean, 16))
    return np.clip(128 + 64 * (grey - mean) / spread, 0, 255).astype(np.uint8)


def _box_mean(grey: "Grey", radius: int) -> "Grey":
    import numpy as np

    side = 2 * radius + 1
    padded = np.pad(grey.astype(np.float64), ((radius + 1, radius), (radius + 1, radius)), "edge")
    sums = padded.cumsum(0).cumsum(1)
    box = sums[side:, side:] - sums[:-side, side:] - sums[side:, :-side] + sums[:-side, :-side]
    return box / (side * side)


def _opened(source: Path | bytes) -> "Image":
    """The picture, read to its end."""
    name = source.name if isinstance(source, Path) else "The picture"
    try:
        with BytesIO(source) if isinstance(source, bytes) else source.open("rb") as file:
            return _decoded(file, name)
    except BadInput:
        raise
    except Exception as error:  # a decoder may raise anything over a damaged file
        raise BadInput(
            f"{name} cannot be read as a picture. Take it again, or type the code in."
        ) from error


def _decoded(file: IO[bytes], name: str) -> "Image":
    """A JPEG comes in grey and no larger than it helps, which its decoder does for nothing."""
    from PIL import Image
    from pillow_heif import register_heif_opener

    Image.MAX_IMAGE_PIXELS = None  # the size is checked below, in words
    register_heif_opener()
    image = Image.open(file)
    _check_size(image.size, name)
    image.draft("L", _within(image.size, _LONGEST))
    image.load()
    return image


def _check_size(size: tuple[int, int], name: str) -> None:
    if size[0] * size[1] > MOST_PIXELS:
        raise BadInput(
            f"{name} has {size[0] * size[1] / 1e6:.0f} megapixels ({size[0]} × {size[1]}), and "
            f"{MOST_PIXELS / 1e6:.0f} is the most that is read. Save it smaller and try that."
        )


def _grey(image: "Image") -> "Image":
    from PIL import Image

    if image.has_transparency_data:
        clear = image.convert("RGBA")
        image = Image.new("RGB", image.size, "white")
        image.paste(clear, mask=clear.getchannel("A"))
    return _reduced(image.convert("L"), _LONGEST)


def _reduced(image: "Image", longest: int) -> "Image":
    size = _within(image.size, longest)
    return image if size == image.size else image.resize(size, reducing_gap=2.0)


def _within(size: tuple[int, int], longest: int) -> tuple[int, int]:
    scale = min(1.0, longest / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))
