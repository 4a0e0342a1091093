"""Pages of a PDF as pictures: what the preview shows and what goes to a system printer."""

from collections.abc import Callable
from io import BytesIO
from threading import Lock
from typing import TYPE_CHECKING, BinaryIO

if TYPE_CHECKING:
    from pypdfium2 import PdfPage

_pdfium = Lock()
"""PDFium keeps global state: one page at a time, whichever thread asks."""


def rendered(
    write: Callable[[BinaryIO], object],
    *,
    dpi: float | None = None,
    width_px: int = 800,
    pages: int | None = None,
) -> list[bytes]:
    """The pages, as `render` gives them, of the very PDF that `write` would put into a file."""
    paper = BytesIO()
    write(paper)
    return render(paper.getvalue(), dpi=dpi, width_px=width_px, pages=pages)


def render(
    pdf: bytes, *, dpi: float | None = None, width_px: int = 800, pages: int | None = None
) -> list[bytes]:
    """The first `pages` pages (None: all) as PNG files, at `dpi` or `width_px` wide."""
    import pypdfium2

    with _pdfium:
        document = pypdfium2.PdfDocument(pdf)
        try:
            count = len(document) if pages is None else min(pages, len(document))
            return [_png(document[index], dpi, width_px) for index in range(count)]
        finally:
            document.close()


def _png(page: "PdfPage", dpi: float | None, width_px: int) -> bytes:
    scale = dpi / 72 if dpi else width_px / page.get_width()
    out = BytesIO()
    page.render(scale=scale).to_pil().save(out, "PNG")
    return out.getvalue()
