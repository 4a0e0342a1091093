"""A measuring sheet on paper: as one PDF, and a true preview."""

from collections.abc import Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import BinaryIO

from bagtag.domain.measuring import picture
from bagtag.domain.model import Removal
from bagtag.paper.measure_page import measure_pdf
from bagtag.paper.measure_text import MeasurePage
from bagtag.paper.rendering import rendered
from bagtag.services import jobs, measuring
from bagtag.store import belongings
from bagtag.store.work import Store


def page_of(store: Store, sheet_id: int) -> MeasurePage:
    """The sheet with all that its page shows; NotFound when it is gone."""
    today = date.today()
    view = measuring.view(store, sheet_id, today=today)
    job = jobs.get_job(store, view.sheet.job_id)
    return MeasurePage(
        sheet=view.sheet,
        form=view.form,
        results=view.results,
        drawing=picture.draw(view.sheet),
        printed=today,
        job=job.title,
        owner=job.owner,
        removal=view.removal,
        code=_code(store, view.removal),
        questions=view.questions,
    )


def _code(store: Store, removal: Removal | None) -> str:
    """That of the part's tag; nothing for a sheet of no part."""
    if removal is None:
        return ""
    with store.read() as connection:
        return belongings.main_codes(connection, [removal.id]).get(removal.id, "")


def write(store: Store, sheet_id: int, out: Path | BinaryIO) -> int:
    """The page of a sheet as one PDF; returns how many pages."""
    return measure_pdf(out, page_of(store, sheet_id))


def preview(
    store: Store, sheet_id: int, page_width_px: int, pages: int | None = None
) -> Sequence[bytes]:
    """Pages of the very PDF that would be printed, as PNG files `page_width_px` wide."""
    return rendered(partial(write, store, sheet_id), width_px=page_width_px, pages=pages)


def printed_pages(store: Store, sheet_id: int, dpi: int) -> Sequence[bytes]:
    """Every page as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, sheet_id), dpi=dpi)
