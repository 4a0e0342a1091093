"""Parts that go and come in any order: none is at two shops, none is lost, all of it is undone."""

from datetime import date, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput
from bagtag.services.jobs import JobForm
from bagtag.services.send_outs import Back, PackForm, ShopPart, Wanted
from bagtag.store.tables import JOURNALED
from bagtag.store.work import Store
from tests.store.rows_kit import all_rows

FORM = PackForm("Mill Lane", date.today(), date.today() + timedelta(5))
PARTS = 4
SOME = st.lists(st.integers(0, PARTS - 1), min_size=1, max_size=3)
ACTS = st.lists(
    st.tuples(st.sampled_from(["send", "back", "drop", "took", "undo"]), SOME), max_size=8
)


def out(store: Store, job_id: int) -> list:
    batches = services.send_outs.batches(store, job_id)
    return [item for batch in batches for item in batch.out]


def do(store: Store, job_id: int, parts: list[int], act: str, some: list[int]) -> None:
    ids = [parts[place] for place in some]
    away = {item.removal.id: item.away for item in out(store, job_id)}
    if act == "send":
        wanted = [Wanted(id_, by_shop=(ShopPart("jet", 2),)) for id_ in ids]
        services.send_outs.send(store, job_id, FORM, wanted)
    elif act == "back":
        services.send_outs.back(store, [Back(away[id_].id) for id_ in ids if id_ in away])
    elif act == "drop" and ids[0] in away:
        services.send_outs.drop_item(store, away[ids[0]].id)
    elif act == "took" and ids[0] in away:
        services.send_outs.shop_took(store, away[ids[0]].send_out_id, ids[0], "stud")
    elif act == "undo":
        services.history.undo(store, job_id)


@settings(max_examples=25)
@given(ACTS)
def test_none_is_at_two_shops_and_none_is_lost(acts):
    with TemporaryDirectory(prefix="bagtag-away-") as folder:
        store = Store.in_folder(Path(folder))
        try:
            _story(store, acts)
        finally:
            store.close()


def _story(store: Store, acts: list) -> None:
    job_id = services.jobs.open_job(store, JobForm("Walking tractor")).new_id
    names = ("cover", "barrel", "head", "shaft")
    parts = [services.strip.log_removal(store, job_id, Entry(name)).new_id for name in names]
    for act, some in acts:
        before = all_rows(store)
        try:
            do(store, job_id, parts, act, some)
        except BadInput:
            assert all_rows(store) == before
        if not set(parts) <= set(services.strip.log_ids(store, job_id)):
            return  # its logging was undone
        _holds(store, job_id)
    assert services.check.check(store).findings == ()


def _holds(store: Store, job_id: int) -> None:
    ids = [item.removal.id for item in out(store, job_id)]
    assert len(ids) == len(set(ids))
    assert sorted(ids) == sorted(part.id for part, _ in services.fates.away_list(store, job_id))
    assert set(services.send_outs.why_not(store, ids)) == set(ids)
    batches = services.send_outs.batches(store, job_id)
    with store.read() as connection:
        times = connection.execute(JOURNALED["away"].select()).all()
    assert sum(len(batch.items) for batch in batches) == len(times)
