"""The 1:1 template of a part's holes: as PDF, as a true preview, for a system printer."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

from bagtag.domain.errors import BadInput
from bagtag.paper.rendering import render, rendered
from bagtag.paper.template import PAPERS, Template, TemplateReport, template_of, template_pdf
from bagtag.services import holes, torque
from bagtag.services import jobs as job_cases
from bagtag.store.work import Store

__all__ = ["TemplatePreview", "TemplateReport", "papers", "preview", "printed_pages", "write"]


@dataclass(frozen=True, slots=True)
class TemplatePreview:
    """The sheets as PNG files, and what to be wary of."""

    pages: tuple[bytes, ...]
    report: TemplateReport


def papers() -> tuple[str, ...]:
    """The papers a template can be printed on, in the order to offer them."""
    return tuple(PAPERS)


def write(store: Store, removal_id: int, out: Path | BinaryIO, page: str = "A4") -> TemplateReport:
    """The template of a part as one PDF, true to size; BadInput for a part without a hole map or
    without a scale."""
    return template_pdf(out, _template(store, removal_id), page)


def preview(
    store: Store, removal_id: int, width_px: int, pages: int | None = None, page: str = "A4"
) -> TemplatePreview:
    """Sheets of the very PDF that would be printed, `width_px` wide."""
    paper = BytesIO()
    report = write(store, removal_id, paper, page)
    return TemplatePreview(tuple(render(paper.getvalue(), width_px=width_px, pages=pages)), report)


def printed_pages(store: Store, removal_id: int, dpi: int, page: str = "A4") -> Sequence[bytes]:
    """Every sheet as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, removal_id, page=page), dpi=dpi)


def _template(store: Store, removal_id: int) -> Template:
    view = holes.map_view(store, removal_id)
    removal = view.removal
    if view.hole_map is None:
        raise BadInput(
            f"{removal.number} {removal.name} has no hole map yet. Put its holes on one first."
        )
    return template_of(
        view.hole_map,
        view.held_by,
        _diameter,
        title=job_cases.get_job(store, removal.job_id).title,
        part=f"{removal.number} {removal.name}",
        printed=date.today(),
    )


def _diameter(thread: str) -> float | None:
    """In mm; a size with an unknown pitch still has its diameter."""
    known = torque.threads()
    found = known.find(thread) or next(iter(known.of_size(thread)), None)
    return found.diameter if found is not None else None
