"""Opening a PDF to draw on."""

from io import BytesIO
from typing import TYPE_CHECKING

from bagtag.paper import fonts

if TYPE_CHECKING:
    from bagtag.paper.quick_canvas import QuickCanvas

MM = 72 / 25.4


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
