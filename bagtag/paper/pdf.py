"""Opening a PDF to draw on, and writing it whole."""

from io import BytesIO
from pathlib import Path
from typing import IO, TYPE_CHECKING

from bagtag.domain.errors import BadInput
from bagtag.paper import fonts

if TYPE_CHECKING:
    from bagtag.paper.quick_canvas import QuickCanvas

MM = 72 / 25.4

Target = str | Path | IO[bytes]


def open_canvas(into: BytesIO, title: str, page: tuple[float, float]) -> "QuickCanvas":
    """A canvas with Roboto ready; `page` is width and height in points."""
    from reportlab import rl_config

    from bagtag.paper.quick_canvas import QuickCanvas

    fonts.register()
    rl_config.useA85 = 0  # ASCII85 is most of the time a picture takes, and a quarter of the file
    canvas = QuickCanvas(into, pagesize=page, pageCompression=1)
    canvas.setTitle(title)
    canvas.setCreator("Bagtag")
    return canvas


def write(pdf: bytes, target: Target) -> None:
    """Put a finished PDF into a file, whole or not at all, or into an open stream."""
    if not isinstance(target, str | Path):
        target.write(pdf)
        return
    path = Path(target)
    draft = path.with_name(f".{path.name}.part")
    try:
        draft.write_bytes(pdf)
        draft.replace(path)
    except OSError as wrong:
        draft.unlink(missing_ok=True)
        raise BadInput(
            f"{path} cannot be written ({wrong.strerror}). Choose another folder or name.",
            field="file",
        ) from wrong
