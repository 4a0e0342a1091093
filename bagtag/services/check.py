"""Is the store whole? Every finding is one sentence; nothing is mended, nothing is written."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice

from bagtag.domain import areas as tree
from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.domain.model import Fate
from bagtag.services import documents
from bagtag.services.planning import planned_afresh
from bagtag.store import jobs, sendings, soundness
from bagtag.store.work import Store

MANY = 20
"""How many findings of one kind are told; the rest are counted."""


@dataclass(frozen=True, slots=True)
class Report:
    """What is wrong, one sentence each, and how many rows of each kind were looked at."""

    findings: tuple[str, ...]
    counted: Mapping[str, int]

    @property
    def sound(self) -> bool:
        return not self.findings


def check(store: Store) -> Report:
    """Look through the whole store: database, journal, search index, tags, files, every build."""
    try:
        return _checked(store)
    except StoreTrouble as trouble:
        return Report((trouble.sentence,), {})


def _checked(store: Store) -> Report:
    with store.read() as connection:
        damage = tuple(soundness.database(connection))
        if damage:  # what is built on damaged pages would only repeat it
            return Report(damage, {})
        counted = soundness.counted(connection)
        looks = (
            soundness.replayed(connection),
            soundness.search_index(connection),
            soundness.places(connection),
            soundness.tags(connection),
            soundness.steps(connection),
            soundness.ticks(connection),
            _photos(store, soundness.photo_files(connection)),
            _papers(store, sendings.document_files(connection)),
        )
        findings = tuple(line for look in looks for line in _some(look))
        job_ids = [job.id for job in jobs.all_jobs(connection)]
    return Report(findings + tuple(_some(_builds(store, job_ids))), counted)


def _some(look: Iterable[str]) -> Iterator[str]:
    lines = iter(look)
    yield from islice(lines, MANY)
    rest = sum(1 for _ in lines)
    if rest:
        yield f"And {rest} more of this kind."


def _photos(store: Store, wanted: Iterable[tuple[str, str]]) -> Iterator[str]:
    for digest, ext in wanted:
        if not store.photos.path(digest, ext).exists():
            yield f"The photo file {digest[:12]}….{ext} is not there."
        elif not store.photos.verify(digest, ext):
            yield f"The photo file {digest[:12]}….{ext} has changed since it was taken in."
        if not store.photos.thumb(digest).exists():
            yield f"The thumbnail of the photo {digest[:12]}….{ext} is not there."


def _papers(store: Store, wanted: Iterable[tuple[str, str, str]]) -> Iterator[str]:
    files = documents.files(store)
    for digest, ext, name in wanted:
        if not files.path(digest, ext).exists():
            yield f"The file of the paper {name} ({digest[:12]}….{ext}) is not there."
        elif not files.verify(digest, ext):
            yield f"The file of the paper {name} ({digest[:12]}….{ext}) has changed since."


def _builds(store: Store, job_ids: Iterable[int]) -> Iterator[str]:
    for job_id in job_ids:
        known = planned_afresh(store, job_id)
        try:
            area_of = {line.id: line.area_id for line in known.rows.log}
            tree.check_openers(known.rows.areas, area_of)
        except BadInput as wrong:
            yield f"The build of job {job_id} does not work out: {wrong.sentence}"
        parts = [line.ref for line in known.rows.log if line.fate is not Fate.SCRAP]
        if sorted(known.plan.order) != sorted([*parts, *known.tasks]):
            yield f"The build of job {job_id} does not have every step once."
