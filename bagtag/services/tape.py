"""The masking-tape line: what one would write on tape becomes an entry."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from bagtag.domain import areas as tree
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum
from bagtag.domain.kinds import Kinds, is_always_renewed
from bagtag.domain.model import Fate
from bagtag.scan import tape
from bagtag.scan.tape import Tape
from bagtag.services import jobs as job_cases
from bagtag.services import kinds, strip
from bagtag.store import belongings, jobs
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class TapeReader:
    """Reads lines for one job, by its datum, containers, areas and part kinds."""

    datum: Datum
    containers: Mapping[str, int]
    areas: Mapping[str, int]
    kinds: Kinds = field(default_factory=Kinds)

    def read(self, line: str, as_words: Sequence[tuple[int, int]] = ()) -> Tape:
        """What a line says; a kind that is always renewed is, where the line says no fate.

        `as_words` are stretches, start and end, that a person said are only words.
        """
        found = tape.read(
            line, self.datum, self.containers, self.areas, self.kinds, as_words=as_words
        )
        if not self.fate_is_by_kind(found):
            return found
        return replace(found, entry=replace(found.entry, fate=Fate.RENEW))

    def fate_is_by_kind(self, found: Tape) -> bool:
        """Whether a line says no fate and its kind is always renewed: to be shown as such."""
        kind = self.kinds.of(found.entry.name, found.entry.kind)
        said = any(chip.kind == "fate" for chip in found.chips)
        return is_always_renewed(kind) and not said


def reader(store: Store, job_id: int) -> TapeReader:
    """A reader of lines for this job as it stands now."""
    job = job_cases.get_job(store, job_id)
    with store.read() as connection:
        containers = {c.label: c.id for c in belongings.containers(connection, job_id)}
        areas = jobs.areas(connection, job_id)
    names = {area.name: area.id for area in areas}
    by_id = tree.by_id(areas)
    names |= {tree.path_text(by_id, area.id): area.id for area in areas}
    return TapeReader(job.datum, containers, names, kinds.of(store))


def log_line(store: Store, job_id: int, line: str, *, who: str = "") -> Change:
    """Log what a tape line says as the next removal."""
    read = reader(store, job_id).read(line)
    extras = strip.Extras(container_wanted=read.container_wanted or "")
    return strip.log_removal(store, job_id, read.entry, extras, who=who)
