"""The strip audit of a job: what is missing before the bench is cleared, on screen and on paper."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import BinaryIO

from bagtag.domain.areas import by_id, path_text
from bagtag.domain.audit import Finding, Stripped
from bagtag.domain.audit import audit as findings_of
from bagtag.domain.datum import Datum
from bagtag.domain.model import Job, Removal
from bagtag.paper.audit_page import AuditLine, audit_pdf
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.rendering import rendered
from bagtag.services import jobs as job_cases
from bagtag.services import kinds, torque
from bagtag.store import belongings, jobs, joints, removals
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class AuditRow:
    """A finding with what it is about: an entry's number, name, thumbnail (the photo's hash) and
    container; or the name of an area or a container, without a number."""

    finding: Finding
    number: str
    name: str
    thumb: str
    container: str


@dataclass(frozen=True, slots=True)
class Audit:
    """What is missing in a job, worst first; no rows mean that nothing is. `looked_at` is how
    many entries its log has."""

    job_title: str
    datum: Datum
    looked_at: int
    rows: tuple[AuditRow, ...]


def audit(store: Store, job_id: int) -> Audit:
    """The audit of a job as it stands now."""
    job = job_cases.get_job(store, job_id)
    stripped, thumbs = _read(store, job)
    names = _Names(stripped, thumbs)
    rows = tuple(names.row(finding) for finding in findings_of(stripped))
    return Audit(job.title, job.datum, len(stripped.removals), rows)


def _read(store: Store, job: Job) -> tuple[Stripped, Mapping[int, str]]:
    with store.read() as connection:
        log = removals.of_job(connection, job.id)
        stripped = Stripped(
            removals=log,
            areas=jobs.areas(connection, job.id),
            containers=belongings.containers(connection, job.id),
            datum=job.datum,
            kinds=kinds.of(store),
            photographed=frozenset(belongings.photographed(connection, job.id)),
            tagged=frozenset(belongings.tagged(connection, job.id)),
            away=frozenset(belongings.away_now(connection, job.id)),
            threads=torque.threads(),
            maps=joints.maps_of(connection, [removal.id for removal in log]),
        )
        return stripped, belongings.first_thumbs(connection, [removal.id for removal in log])


class _Names:
    """What the findings of a job are about, by its name."""

    def __init__(self, stripped: Stripped, thumbs: Mapping[int, str]) -> None:
        self.removals = {removal.id: removal for removal in stripped.removals}
        self.areas = by_id(stripped.areas)
        self.containers = {box.id: box for box in stripped.containers}
        self.thumbs = thumbs

    def row(self, finding: Finding) -> AuditRow:
        removal = self.removals.get(finding.removal_id)
        if removal is not None:
            thumb = self.thumbs.get(removal.id, "")
            return AuditRow(finding, removal.number, removal.name, thumb, self._holder(removal))
        box = self.containers.get(finding.container_id)
        name = box.label if box else path_text(self.areas, finding.area_id)
        return AuditRow(finding, "", name, "", box.label if box else "")

    def _holder(self, removal: Removal) -> str:
        box = self.containers.get(removal.container_id) if removal.container_id else None
        return box.label if box else ""


def write(store: Store, job_id: int, out: Path | BinaryIO) -> int:
    """The audit of a job as one PDF; returns how many pages it has."""
    done = audit(store, job_id)
    lines = [
        AuditLine(row.finding.lack, row.finding.sentence, row.number, row.name, row.container)
        for row in done.rows
    ]
    return audit_pdf(out, ChecklistHeader(done.job_title, date.today()), done.looked_at, lines)


def preview(store: Store, job_id: int, width_px: int, pages: int | None = None) -> Sequence[bytes]:
    """Pages of the very PDF that would be printed, as PNG files `width_px` wide."""
    return rendered(partial(write, store, job_id), width_px=width_px, pages=pages)


def printed_pages(store: Store, job_id: int, dpi: int) -> Sequence[bytes]:
    """Every page as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, job_id), dpi=dpi)
