"""Pages of a PDF as pictures: what the preview shows and what goes to a system printer."""

from collections.abc import Iterator
from io import BytesIO


def render(
    pdf: bytes, *, dpi: float | None = None, width_px: int = 800, pages: int | None = None
) -> Iterator[bytes]:
    """The first `pages` pages (None: all) as PNG files, at `dpi` or `width_px` wide."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        count = len(document) if pages is None else min(pages, len(document))
        for index in range(count):
            page = document[index]
            scale = dpi / 72 if dpi else width_px / page.get_width()
            out = BytesIO()
            page.render(scale=scale).to_pil().save(out, "PNG")
            yield out.getvalue()
    finally:
        document.close()
