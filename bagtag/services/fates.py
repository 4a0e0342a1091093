"""Between strip and build: away and back, renewals ordered and arrived, decisions."""

from collections.abc import Sequence
from datetime import date

from bagtag.domain.change import Change
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.model import Away, Fate, Removal, Replacement
from bagtag.services import renewal_acts, strip
from bagtag.store import belongings, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


def send_away(
    store: Store,
    removal_ids: Sequence[int],
    *,
    shop: str,
    work: str = "",
    due: date | None = None,
    who: str = "",
) -> Change:
    """Parts go to an outside shop; BadInput when one is away already."""
    clean = clean_text(shop, limit=200)
    if not clean:
        raise BadInput("Say which shop the parts go to.", field="shop")
    job_id = _job_of(store, removal_ids)

    def do(act: Act) -> None:
        out = belongings.away_of(act.connection, removal_ids)
        for removal_id in removal_ids:
            if removal_id in out:
                removal = _get(act, removal_id)
                raise BadInput(
                    f"{removal.number} {removal.name} is away already. Check it back in first.",
                    field="removals",
                )
            act.insert(
                tables.away,
                removal_id=removal_id,
                shop=clean,
                work=clean_text(work, lines=True, limit=5000),
                sent_at=rows.now(),
                due=due.isoformat() if due else None,
            )

    return store.act(f"send away to {clean}", do, who=who, job_id=job_id)


def came_back(store: Store, removal_ids: Sequence[int], *, who: str = "") -> Change:
    """Parts are back from the shop."""
    job_id = _job_of(store, removal_ids)

    def do(act: Act) -> None:
        for removal_id in removal_ids:
            for time in belongings.times_away(act.connection, removal_id):
                if time.back_at is None:
                    act.update(tables.away, time.id, back_at=rows.now())

    return store.act("back from the shop", do, who=who, job_id=job_id)


def away_list(store: Store, job_id: int) -> list[tuple[Removal, Away]]:
    """Parts that are away, the first sent first."""
    with store.read() as connection:
        out = belongings.away_now(connection, job_id)
        found = removals.by_ids(connection, list(out))
    pairs = [(found[id_], time) for id_, time in out.items()]
    return sorted(pairs, key=lambda pair: pair[1].sent_at)


def with_fate(store: Store, job_id: int, fate: Fate) -> list[Removal]:
    """The removals of a job that have this fate, in the order off."""
    with store.read() as connection:
        return [r for r in removals.of_job(connection, job_id) if r.fate is fate]


def set_fate(store: Store, removal_ids: Sequence[int], fate: Fate, *, who: str = "") -> Change:
    """Decide what becomes of parts: refit, renew, scrap, or decide later."""
    job_id = _job_of(store, removal_ids)

    def do(act: Act) -> None:
        for removal_id in removal_ids:
            act.update(tables.removal, removal_id, fate=fate.value)

    return store.act(f"decide: {fate.value}", do, who=who, job_id=job_id)


def set_replacement(
    store: Store, removal_ids: Sequence[int], state: Replacement, *, who: str = ""
) -> Change:
    """Say where new parts stand: wanted, ordered, here, as of today."""
    _job_of(store, removal_ids)
    return renewal_acts.set_state(store, removal_ids, state, date.today(), who=who)


def _job_of(store: Store, removal_ids: Sequence[int]) -> int:
    if not removal_ids:
        raise BadInput("Choose at least one part first.", field="removals")
    return strip.get_removal(store, removal_ids[0]).job_id


def _get(act: Act, removal_id: int) -> Removal:
    removal = removals.get(act.connection, removal_id)
    assert removal is not None
    return removal
