"""The masking-tape line: what one would write on tape becomes an entry."""

from collections.abc import Mapping
from dataclasses import dataclass

from bagtag.domain import areas as tree
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum
from bagtag.scan import tape
from bagtag.scan.tape import Tape
from bagtag.services import jobs as job_cases
from bagtag.services import strip
from bagtag.store import belongings, jobs
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class TapeReader:
    """Reads lines for one job, by its datum, containers and areas."""

    datum: Datum
    containers: Mapping[str, int]
    areas: Mapping[str, int]

    def read(self, line: str) -> Tape:
        return tape.read(line, self.datum, self.containers, self.areas)


def reader(store: Store, job_id: int) -> TapeReader:
    """A reader of lines for this job as it stands now."""
    job = job_cases.get_job(store, job_id)
    with store.read() as connection:
        containers = {c.label: c.id for c in belongings.containers(connection, job_id)}
        areas = jobs.areas(connection, job_id)
    names = {area.name: area.id for area in areas}
    by_id = tree.by_id(areas)
    names |= {tree.path_text(by_id, area.id): area.id for area in areas}
    return TapeReader(job.datum, containers, names)


def log_line(store: Store, job_id: int, line: str, *, who: str = "") -> Change:
    """Log what a tape line says as the next removal."""
    read = reader(store, job_id).read(line)
    extras = strip.Extras(container_wanted=read.container_wanted or "")
    return strip.log_removal(store, job_id, read.entry, extras, who=who)
