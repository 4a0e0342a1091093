"""Reading codes: from pictures, from live frames, from a scanner that types."""

from pathlib import Path

from bagtag.domain.errors import NotFound
from bagtag.scan import codes_in_pictures
from bagtag.scan.wedge import Wedge


def read_picture(source: Path | bytes) -> tuple[str, ...]:
    """The tag codes in a picture; NotFound says in one sentence when there is none."""
    seen = codes_in_pictures.read_codes(source)
    if seen.codes:
        return seen.codes
    name = source.name if isinstance(source, Path) else "The picture"
    if seen.others:
        raise NotFound(f"{name} shows a code, but not one of a tag. Photograph the tag itself.")
    raise NotFound(
        f"{name} shows no tag that can be read. Go closer, hold still, or type the six characters."
    )


def read_frame(width: int, height: int, gray: bytes) -> tuple[str, ...]:
    """The tag codes in one live frame, 8 bits a pixel; only what fits in a frame is tried."""
    return codes_in_pictures.read_frame(width, height, gray).codes


def wedge() -> Wedge:
    """A recogniser for a scanner that types like a keyboard."""
    return Wedge()
