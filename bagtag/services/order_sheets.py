"""The order list of one job or several on paper: as one PDF, and a true preview."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import BinaryIO

from bagtag.domain.kinds import fold
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.order_page import order_pdf
from bagtag.paper.rendering import rendered
from bagtag.services import jobs, renewals
from bagtag.services.renewals import SupplierList
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Which:
    """What goes on the paper: one supplier's lines, all where it is empty; with `everything` also
    what is ordered already."""

    supplier: str = ""
    everything: bool = False


ALL = Which()


def lists_of(store: Store, job_ids: Sequence[int], which: Which = ALL) -> tuple[SupplierList, ...]:
    """The lists that are printed, by supplier."""
    found = renewals.merged(store, job_ids, everything=which.everything)
    wanted = fold(which.supplier)
    return tuple(one for one in found if not wanted or fold(one.supplier) == wanted)


def write(store: Store, job_ids: Sequence[int], out: Path | BinaryIO, which: Which = ALL) -> int:
    """The order list as one PDF, each supplier on pages of its own; returns how many pages."""
    return order_pdf(out, _header(store, job_ids), lists_of(store, job_ids, which))


def _header(store: Store, job_ids: Sequence[int]) -> ChecklistHeader:
    """Names every job by its number where there are several, and each owner once."""
    known = [jobs.get_job(store, job_id) for job_id in dict.fromkeys(job_ids)]
    several = len(known) > 1
    titles = [f"job {job.number}: {job.title}" if several else job.title for job in known]
    owners = dict.fromkeys(job.owner for job in known if job.owner)
    return ChecklistHeader(" · ".join(titles), date.today(), ", ".join(owners))


def preview(
    store: Store,
    job_ids: Sequence[int],
    page_width_px: int,
    pages: int | None = None,
    which: Which = ALL,
) -> Sequence[bytes]:
    """Pages of the very PDF that would be printed, as PNG files `page_width_px` wide."""
    made = partial(write, store, job_ids, which=which)
    return rendered(made, width_px=page_width_px, pages=pages)


def printed_pages(
    store: Store, job_ids: Sequence[int], dpi: int, which: Which = ALL
) -> Sequence[bytes]:
    """Every page as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, job_ids, which=which), dpi=dpi)
