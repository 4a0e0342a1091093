"""The build on paper: the checklist of a job as PDF, and a true preview of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import BinaryIO

from bagtag.domain import areas as tree
from bagtag.domain.areas import by_id
from bagtag.domain.kinds import Kinds, goes_on
from bagtag.domain.model import Area, Job, Removal
from bagtag.domain.resolve import told
from bagtag.paper.checklist import checklist_pdf
from bagtag.paper.checklist_text import (
    ChecklistHeader,
    ChecklistReport,
    ChecklistStep,
    SignedOff,
)
from bagtag.paper.rendering import rendered
from bagtag.services import jobs as job_cases
from bagtag.services import kinds
from bagtag.services.board import Step, board
from bagtag.store import belongings, jobs, removals
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class _Job:
    """What the steps of one job's checklist are written from."""

    job: Job
    areas: Mapping[int, Area]
    removals: Mapping[int, Removal]
    codes: Mapping[int, str]
    thumbs: Mapping[int, Path]
    others: Mapping[str, Removal]
    kinds: Kinds

    def step(self, step: Step) -> ChecklistStep:
        removal = self.removals[step.removal_id]
        signed = step.sign_off
        kind = self.kinds.of(removal.name, removal.kind)
        return ChecklistStep(
            number=step.place,
            name=removal.name,
            removal=removal.number,
            quantity=removal.quantity,
            area=tree.path_text(self.areas, removal.area_id),
            facts=told(removal, self.others),
            datum=self.job.datum,
            held_by=removal.held_by,
            goes_on=removal.goes_on if signed else goes_on(removal.goes_on, kind),
            home=kind.home if kind and not signed else "",
            fate=removal.fate,
            note=removal.note,
            thumbnail=self.thumbs.get(removal.id),
            code=self.codes.get(removal.id, ""),
            done=SignedOff(signed.who, signed.at) if signed else None,
            waits=tuple(hindrance.sentence for hindrance in step.hindrances),
        )


def steps_of(store: Store, job_id: int) -> tuple[ChecklistHeader, list[ChecklistStep]]:
    """The header and every step of a job's checklist, in the order of the build."""
    job = job_cases.get_job(store, job_id)
    plan = board(store, job_id)
    ids = [step.removal_id for step in plan.steps]
    with store.read() as connection:
        found = removals.by_ids(connection, ids)
        known = _Job(
            job,
            by_id(jobs.areas(connection, job_id)),
            found,
            belongings.main_codes(connection, ids),
            _thumbs(store, belongings.first_thumbs(connection, ids)),
            removals.tied_to(connection, found.values()),
            kinds.of(store),
        )
    header = ChecklistHeader(job.title, date.today(), job.owner, job.datum)
    return header, [known.step(step) for step in plan.steps]


def _thumbs(store: Store, hashes: Mapping[int, str]) -> dict[int, Path]:
    paths = {removal_id: store.photos.thumb(digest) for removal_id, digest in hashes.items()}
    return {removal_id: path for removal_id, path in paths.items() if path.exists()}


def write(store: Store, job_id: int, out: Path | BinaryIO) -> ChecklistReport:
    """The checklist of a job as one PDF."""
    header, steps = steps_of(store, job_id)
    return checklist_pdf(out, header, steps)


def preview(store: Store, job_id: int, width_px: int, pages: int | None = None) -> Sequence[bytes]:
    """Pages of the very PDF that would be printed, as PNG files `width_px` wide."""
    return rendered(partial(write, store, job_id), width_px=width_px, pages=pages)


def printed_pages(store: Store, job_id: int, dpi: int) -> Sequence[bytes]:
    """Every page as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, job_id), dpi=dpi)
