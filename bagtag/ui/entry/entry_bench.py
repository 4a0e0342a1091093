"""What the entry card has to know before it can take an entry, read in one go."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bagtag import services
from bagtag.domain import areas as tree
from bagtag.domain.datum import Datum
from bagtag.domain.entry import Entry, repeat
from bagtag.domain.kinds import Kinds
from bagtag.domain.model import Removal
from bagtag.domain.which_way import Fact
from bagtag.ui.entry.entry_draft import Draft, Names, of_entry

if TYPE_CHECKING:
    from bagtag.services.tape import TapeReader
    from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Bench:
    """A job's datum and names, a reader of its tape lines, the kinds of parts, and the removal
    that is asked for."""

    job_id: int
    datum: Datum
    names: Names
    reader: "TapeReader"
    kinds: Kinds
    removal: Removal | None = None


@dataclass(frozen=True, slots=True)
class Looked:
    """What the rest of the job says to an entry as it stands in its form: its facts with what can
    be computed added, and a sentence for each thing that cannot be true together."""

    entry: Entry
    told: tuple[Fact, ...]
    against: tuple[str, ...]


def look_up(store: "Store", job_id: int, removal_id: int | None = None) -> Bench:
    """Runs on the store's thread. With a removal, the job is that removal's."""
    removal = services.strip.get_removal(store, removal_id) if removal_id else None
    job_id = removal.job_id if removal else job_id
    job = services.jobs.get_job(store, job_id)
    areas = services.jobs.areas_of(store, job_id)
    known = tree.by_id(areas)
    paths = {tree.path_text(known, area.id): area.id for _, area in tree.in_tree_order(areas)}
    rows = services.containers.list_containers(store, job_id)
    labels = {row.container.id: row.container.label for row in rows}
    reader = services.tape.reader(store, job_id)
    kinds = services.kinds.of(store)
    return Bench(job_id, job.datum, Names(paths, labels), reader, kinds, removal)


def look_over(store: "Store", job_id: int, entry: Entry, removal_id: int | None) -> Looked:
    """Runs on the store's thread; `removal_id` is the removal that is being corrected."""
    told = services.strip.told(store, job_id, entry)
    return Looked(entry, told, services.strip.against(store, job_id, entry, removal_id))


def the_last(store: "Store", job_id: int, names: Names) -> Draft | None:
    """What "as the last one" gives; None while the log is empty."""
    page = services.views.last_page(store, job_id, 1)
    if not page.rows:
        return None
    return of_entry(repeat(services.strip.entry_of(page.rows[-1].removal)), names)
