"""Reading send-outs: batches with their parts, what may go, what is late."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date
from operator import attrgetter

from bagtag.domain import codes, sending_check
from bagtag.domain.errors import NotFound
from bagtag.domain.model import Away, Removal
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import Batch, Late
from bagtag.services.batch_items import told
from bagtag.store import belongings, between, jobs, removals, sendings
from bagtag.store.sendings import Whereabouts
from bagtag.store.work import Store


def batches(store: Store, job_id: int) -> tuple[Batch, ...]:
    """The batches of a job, the first first; then, by shop, what is out without a batch."""
    with store.read() as connection:
        known = between.send_outs(connection, job_id)
        went = between.went_with(connection, [one.id for one in known])
        papers = {one.id: tuple(between.documents(connection, one.id)) for one in known}
        out = belongings.away_now(connection, job_id).values()
    loose = _by_shop(one for one in out if one.send_out_id is None)
    seen = told(store, (one for group in [*went.values(), *loose] for one in group))
    whole = [Batch(one, seen.items(went.get(one.id, [])), papers[one.id]) for one in known]
    return (*whole, *(Batch(None, seen.items(group)) for group in loose))


def _by_shop(times: Iterable[Away]) -> list[list[Away]]:
    found: dict[str, list[Away]] = defaultdict(list)
    for one in times:
        found[one.shop].append(one)
    return list(found.values())


def batch(store: Store, send_out_id: int) -> Batch:
    """One batch; NotFound when it is gone."""
    whole = get_send_out(store, send_out_id)
    with store.read() as connection:
        went = between.went_with(connection, [send_out_id]).get(send_out_id, [])
        papers = tuple(between.documents(connection, send_out_id))
    return Batch(whole, told(store, went).items(went), papers)


def get_send_out(store: Store, send_out_id: int) -> SendOut:
    with store.read() as connection:
        return there(between.get_send_out(connection, send_out_id))


def there(found: SendOut | None) -> SendOut:
    """A batch that was looked for; NotFound when it is gone."""
    if found is None:
        raise NotFound("This send-out is no longer in the job. Choose another one.")
    return found


def find_send_out(store: Store, job_id: int, text: str) -> SendOut:
    """The send-out of a job with this number or code; NotFound lists what there is."""
    with store.read() as connection:
        known = between.send_outs(connection, job_id)
    for one in known:
        if text.strip() == str(one.number) or codes.bare(text) == one.code:
            return one
    there = "; ".join(one.called for one in known)
    said = f"There is: {there}." if known else "Nothing has gone to a shop yet."
    raise NotFound(f"This job has no send-out {text.strip()}. {said}")


def why_not(store: Store, removal_ids: Sequence[int]) -> dict[int, str]:
    """Why parts cannot go out, one sentence by removal; those that can are left out."""
    with store.read() as connection:
        return kept_here(sendings.whereabouts(connection, removal_ids))


def kept_here(where: Whereabouts) -> dict[int, str]:
    """Why parts cannot go out, by removal, from where they are now."""
    said = {id_: _keeps(part, where) for id_, part in where.parts.items()}
    return {id_: sentence for id_, sentence in said.items() if sentence}


def _keeps(part: Removal, where: Whereabouts) -> str:
    time = where.out.get(part.id)
    whole = where.wholes.get(time.send_out_id) if time is not None else None
    return sending_check.kept_here(part, time, whole, is_fitted=part.id in where.fitted)


def late(store: Store, today: date) -> tuple[Late, ...]:
    """What is not back on its promised day, over all jobs, the latest first; a batch once."""
    with store.read() as connection:
        out = [pair for pair in between.all_out(connection) if _days(pair[1], today) > 0]
        titles = {one.id: one.title for one in jobs.all_jobs(connection)}
        wholes = sendings.wholes(connection, [one for _, one in out])
        named = removals.named(connection, [one.removal_id for _, one in out])
    found: dict[tuple[bool, int], Late] = {}
    for job_id, one in out:
        whole = wholes.get(one.send_out_id)
        called = whole.called if whole is not None else "{1} {2}".format(*named[one.removal_id])
        key = (whole is not None, whole.id if whole is not None else one.id)
        days = _days(one, today)
        promised = one.due or today
        found[key] = Late(job_id, titles[job_id], one.send_out_id, called, one.shop, promised, days)
    return tuple(sorted(found.values(), key=attrgetter("days"), reverse=True))


def _days(one: Away, today: date) -> int:
    return (today - one.due).days if one.due is not None else 0
