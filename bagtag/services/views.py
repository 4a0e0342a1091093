"""What the screens show of a removal: a row of the strip, the card."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from bagtag.domain import areas as tree
from bagtag.domain import nesting
from bagtag.domain.before_in import SheetSaid, before_in, said_of
from bagtag.domain.datum import Datum
from bagtag.domain.errors import NotFound
from bagtag.domain.fitting import part, task
from bagtag.domain.kinds import PartKind
from bagtag.domain.model import Away, Fate, Photo, PhotoRole, Removal, SignOff, Tag
from bagtag.domain.new_part import NewPart, of_itself
from bagtag.domain.resolve import told
from bagtag.domain.sentence import sentence, short
from bagtag.domain.standing import Hindrance, Standing
from bagtag.domain.which_way import Fact
from bagtag.services import board, kinds, readiness
from bagtag.services.planning import planned
from bagtag.store import belongings, between, jobs, removals
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class StripRow:
    """One removal as a piece of tape: everything a row of the strip paints. `told` are its facts
    with what can be computed."""

    removal: Removal
    told: tuple[Fact, ...]
    code: str
    short: str
    area: str
    container: str
    opens: tuple[str, ...]
    thumb: str
    standing: Standing


@dataclass(frozen=True, slots=True)
class StripPage:
    """Rows of the strip and how many there are in all."""

    total: int
    ids: tuple[int, ...]
    rows: tuple[StripRow, ...]


@dataclass(frozen=True, slots=True)
class BenchCard:
    """The card of a removal, readable from a metre away. `before_in` has what is to be known before
    it goes in, a sentence each; `sheets` are its measuring sheets, `off` the part that it was taken
    off. Where it is held up by what is not here, `from_day` is the earliest day it can go in, None
    where nobody knows."""

    removal: Removal
    told: tuple[Fact, ...]
    kind: PartKind | None
    job_title: str
    datum: Datum
    code: str
    tags: tuple[Tag, ...]
    sentence: str
    area: str
    where: tuple[str, ...]
    photos: tuple[Photo, ...]
    opens: tuple[str, ...]
    away: Away | None
    place: int | None
    standing: Standing
    hindrances: tuple[Hindrance, ...]
    sign_off: SignOff | None
    along: tuple[str, ...] = ()
    torque_later: str = ""
    within: str = ""
    before_in: tuple[str, ...] = ()
    sheets: tuple[SheetSaid, ...] = ()
    new_part: NewPart | None = None
    off: str = ""
    is_held_up: bool = False
    from_day: date | None = None

    @property
    def photos_off(self) -> tuple[Photo, ...]:
        return tuple(p for p in self.photos if p.role is PhotoRole.OFF)

    @property
    def photos_fitted(self) -> tuple[Photo, ...]:
        return tuple(p for p in self.photos if p.role is PhotoRole.FITTED)


def last_page(store: Store, job_id: int, count: int = 60, *, counted: bool = True) -> StripPage:
    """The newest rows of a log, in the order off: what the strip shows first.

    Without `counted` the total is that of the page: counting a long log takes as long as all else.
    """
    with store.read() as connection:
        ids = removals.last_ids(connection, job_id, count)
        total = removals.how_many(connection, job_id) if counted else len(ids)
    return StripPage(total, tuple(ids), tuple(strip_rows(store, job_id, ids)))


def strip_rows(
    store: Store, job_id: int, ids: Sequence[int], standings: Mapping[int, Standing] | None = None
) -> list[StripRow]:
    """Rows for these ids, in their order; ids no longer in the log are left out.

    `standings` are those of the board, where it is at hand; else each row says what it can alone.
    """
    with store.read() as connection:
        job = jobs.get(connection, job_id)
        found = removals.by_ids(connection, ids)
        codes = belongings.main_codes(connection, ids)
        thumbs = belongings.first_thumbs(connection, ids)
        containers = {c.id: c for c in belongings.containers(connection, job_id)}
        areas = jobs.areas(connection, job_id)
        fitted = belongings.fitted_of(connection, ids)
        out = belongings.away_of(connection, ids)
        others = removals.tied_to(connection, found.values())
    if job is None:
        return []
    places = tree.by_id(areas)
    rows: list[StripRow] = []
    for removal in (found[id_] for id_ in ids if id_ in found):
        holder = containers.get(removal.container_id) if removal.container_id else None
        facts = told(removal, others)
        word = (standings or {}).get(removal.id) or _alone(removal, fitted, out)
        rows.append(
            StripRow(
                removal=removal,
                told=facts,
                code=codes.get(removal.id, ""),
                short=short(facts, job.datum),
                area=tree.path_text(places, removal.area_id),
                container=holder.label if holder else "",
                opens=board.areas_opened(areas, removal.id),
                thumb=thumbs.get(removal.id, ""),
                standing=word,
            )
        )
    return rows


def _alone(removal: Removal, fitted: set[int], out: set[int]) -> Standing:
    if removal.fate is Fate.SCRAP:
        return Standing.SCRAPPED
    if removal.id in fitted:
        return Standing.IN
    return Standing.AWAY if removal.id in out else Standing.OFF


def card(store: Store, removal_id: int) -> BenchCard:
    """The card of a removal, as its job stands now."""
    with store.read() as connection:
        removal = removals.get(connection, removal_id)
        if removal is None:
            raise NotFound("This entry is no longer in the log. Choose another one.")
        job = jobs.get(connection, removal.job_id)
        assert job is not None
        areas = jobs.areas(connection, removal.job_id)
        containers = {c.id: c for c in belongings.containers(connection, removal.job_id)}
        tags = tuple(belongings.tags_of(connection, [removal_id]).get(removal_id, ()))
        photos = tuple(belongings.photos_of(connection, [removal_id]).get(removal_id, ()))
        code = belongings.main_codes(connection, [removal_id]).get(removal_id, "")
        last = belongings.last_away(connection, [removal_id]).get(removal_id)
        facts = told(removal, removals.tied_to(connection, [removal]))
        sheets = said_of(between.sheets_of(connection, removal_id))
        bought = between.new_parts_of(connection, removal_id)
    new = of_itself(bought)
    known = planned(store, removal.job_id)
    step = board.one_step(known, part(removal_id))
    return BenchCard(
        removal=removal,
        told=facts,
        kind=kinds.of(store).of(removal.name, removal.kind),
        job_title=job.title,
        datum=job.datum,
        code=code,
        tags=tags,
        sentence=sentence(facts, job.datum),
        area=tree.path_text(tree.by_id(areas), removal.area_id),
        where=nesting.chain(containers, removal.container_id),
        photos=photos,
        opens=board.areas_opened(areas, removal_id),
        away=last if last is not None and last.back_at is None else None,
        place=step.place if step else None,
        standing=step.standing if step else Standing.SCRAPPED,
        hindrances=step.hindrances if step else (),
        sign_off=step.sign_off if step else None,
        along=tuple(known.called(other) for other in step.along) if step else (),
        torque_later=step.torque_later if step else "",
        within=known.called(task(step.build_id)) if step and step.build_id else "",
        before_in=before_in(removal.fate, removal.replacement, sheets, new, last),
        sheets=sheets,
        new_part=new,
        off=known.called(part(removal.off_id)) if removal.off_id else "",
        is_held_up=bool(step and step.roots and not step.sign_off),
        from_day=readiness.first_day(known, part(removal_id), date.today()),
    )


def to_know_of(store: Store, job_id: int, removal_ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
    """What is to be known of parts of a job before they go in, by removal; only of those that have
    any."""
    with store.read() as connection:
        parts = removals.by_ids(connection, removal_ids)
        sheets = between.sheets(connection, job_id)
        bought = between.new_parts(connection, job_id)
        away = belongings.last_away(connection, removal_ids)
    new = {one.removal_id: one for one in bought if not one.line}
    found: dict[int, tuple[str, ...]] = {}
    for id_, removal in parts.items():
        of_it = said_of([sheet for sheet in sheets if sheet.removal_id == id_])
        last = away.get(id_)
        found[id_] = before_in(removal.fate, removal.replacement, of_it, new.get(id_), last)
    return {id_: said for id_, said in found.items() if said}
