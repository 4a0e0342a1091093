"""Between strip and build: away and back, renewals ordered and arrived, decisions."""

from collections.abc import Sequence
from datetime import date

from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput
from bagtag.domain.model import Away, Fate, Removal, Replacement
from bagtag.domain.sending import Back, PackForm, Wanted
from bagtag.services import renewal_acts, send_outs, strip
from bagtag.store import belongings, removals, sendings, tables
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
    """Parts go to an outside shop as a batch of their own; BadInput when one is away already."""
    job_id = _job_of(store, removal_ids)
    today = date.today()
    # A day that is past already is said of parts that went out before they were written down.
    form = PackForm(shop, min(today, due) if due else today, due)
    wanted = [Wanted(id_, work) for id_ in removal_ids]
    return send_outs.send(store, job_id, form, wanted, who=who)


def came_back(store: Store, removal_ids: Sequence[int], *, who: str = "") -> Change:
    """Parts are back from the shop, whatever batch they went with; those that are here already
    stay as they are."""
    job_id = _job_of(store, removal_ids)
    with store.read() as connection:
        out = sendings.out_of(connection, removal_ids)
    named = [Back(out[id_].id) for id_ in dict.fromkeys(removal_ids) if id_ in out]
    if not named:
        return store.act("back from the shop", _nothing, who=who, job_id=job_id)
    return send_outs.back(store, named, who=who)


def _nothing(_: Act) -> None:
    """What is here already stays as it is."""


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
