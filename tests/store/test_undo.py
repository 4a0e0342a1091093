"""Undo and redo read from the journal: across a restart, over every table, exact to the row."""

from datetime import date, timedelta
from io import BytesIO

import pytest
from PIL import Image

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.domain.fitting import part
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import ContainerKind, Fate, Replacement
from bagtag.domain.which_way import Faces, Hand, Outness
from bagtag.services.jobs import JobForm
from bagtag.services.strip import Extras
from bagtag.store.work import Store
from tests.store.rows_kit import all_rows


@pytest.fixture
def reopen(store):
    """Close the store and open it again, as a restart does."""
    opened: list[Store] = []

    def again() -> Store:
        (opened[-1] if opened else store).close()
        opened.append(Store(store.location))
        return opened[-1]

    yield again
    for one in opened:
        one.close()


def jpeg(colour: str) -> bytes:
    out = BytesIO()
    Image.new("RGB", (40, 30), colour).save(out, "JPEG")
    return out.getvalue()


def a_removal_with_everything(store, job_id) -> int:
    """An opener with photo, tags, twins, a time away and a sign-off."""
    area = services.jobs.add_area(store, job_id, "gearbox").new_id
    _, (blank,) = services.tags.make_blank(store, 1)
    entry = Entry(
        "gearbox cover",
        which_way=(Faces("OUT", Outness.OUTWARD), Hand("R", stamped=True)),
        held_by=(HeldBy(9, "bolt", "M8", 40.0, torque=Torque(22)),),
        fate=Fate.RENEW,
    )
    extras = Extras(container_wanted="tray 4", tag_code=blank)
    removal_id = services.strip.log_removal(store, job_id, entry, extras).new_id
    services.jobs.set_opener(store, area, removal_id)
    services.photos.add(store, removal_id, [("a.jpg", jpeg("red"))])
    services.tags.make_twins(store, removal_id)
    services.fates.send_away(store, [removal_id], shop="Mill Lane", due=date.today() + timedelta(9))
    services.fates.came_back(store, [removal_id])
    services.fates.set_replacement(store, [removal_id], Replacement.HERE)
    services.signing.sign(store, part(removal_id), who="Ada")
    return removal_id


def test_a_delete_with_all_that_belongs_to_it_comes_back_after_a_restart(store, job_id, reopen):
    removal_id = a_removal_with_everything(store, job_id)
    before, card = all_rows(store), services.views.card(store, removal_id)
    services.strip.delete_removal(store, removal_id)
    assert all_rows(store)["removal"] == []
    again = reopen()
    assert services.history.next_names(again, job_id)[0] == "delete 1 gearbox cover"
    change = services.history.undo(again, job_id, who="Ada")
    assert all_rows(again) == before
    assert services.views.card(again, removal_id) == card
    assert change.touched["removal"] == {removal_id}
    assert [hit.removal_id for hit in services.find.find(again, "gearb")] == [removal_id]
    assert services.check.check(again).sound


def test_redo_takes_it_out_again_after_another_restart(store, job_id, reopen):
    removal_id = a_removal_with_everything(store, job_id)
    services.strip.delete_removal(store, removal_id)
    without = all_rows(store)
    services.history.undo(reopen(), job_id)
    again = reopen()
    assert services.history.next_names(again, job_id)[1] == "delete 1 gearbox cover"
    services.history.redo(again, job_id)
    assert all_rows(again) == without
    assert services.find.find(again, "gearb") == []
    with pytest.raises(BadInput, match="nothing to redo"):
        services.history.redo(again, job_id)


def test_every_act_back_to_nothing_and_forth_again(store, job_id, reopen):
    empty = all_rows(store)
    a_removal_with_everything(store, job_id)
    full = all_rows(store)
    again = reopen()
    while services.history.next_names(again, job_id)[0] != "open job Walking tractor":
        services.history.undo(again, job_id)
    blank = [row for row in all_rows(again).pop("tag") if row["role"] == "blank"]
    assert len(blank) == 1  # made for the whole store, not for this job
    assert {k: v for k, v in all_rows(again).items() if k != "tag"} == {
        k: v for k, v in empty.items() if k != "tag"
    }
    again = reopen()
    while services.history.next_names(again, job_id)[1]:
        services.history.redo(again, job_id)
    assert all_rows(again) == full
    assert services.check.check(again).sound


def test_a_new_act_ends_what_could_be_done_again(store, job_id):
    services.strip.log_removal(store, job_id, Entry("flywheel"))
    services.history.undo(store, job_id)
    services.strip.log_removal(store, job_id, Entry("cowling"))
    assert services.history.next_names(store, job_id) == ("log cowling", "")
    with pytest.raises(BadInput, match="nothing to redo"):
        services.history.redo(store, job_id)


def test_each_job_has_its_own_undo(store, job_id):
    other = services.jobs.open_job(store, JobForm("Pump")).new_id
    services.strip.log_removal(store, job_id, Entry("flywheel"))
    services.strip.log_removal(store, other, Entry("impeller"))
    services.history.undo(store, job_id)
    assert services.strip.log_ids(store, job_id) == []
    assert len(services.strip.log_ids(store, other)) == 1


def test_undo_past_the_first_act_says_so(store, job_id):
    services.history.undo(store, job_id)
    assert services.jobs.list_jobs(store) == []
    with pytest.raises(BadInput, match="nothing to undo"):
        services.history.undo(store, job_id)


def test_undo_over_what_another_job_changed_is_refused_in_a_sentence(store, job_id):
    """A blank tag made for the whole store, then bound in a job: taking it back would untie it."""
    _, (code,) = services.tags.make_blank(store, 1)
    container = services.containers.add_container(store, job_id, ContainerKind.BAG).new_id
    services.tags.bind_to_container(store, code, container)
    before = all_rows(store)
    with pytest.raises(StoreTrouble, match="what it touched has changed since"):
        services.history.undo(store, 0)
    assert all_rows(store) == before


def test_redo_of_a_job_whose_number_is_taken_is_refused_in_a_sentence(store, job_id):
    services.history.undo(store, job_id)
    services.jobs.open_job(store, JobForm("Pump"))
    with pytest.raises(StoreTrouble, match="what it touched has changed since"):
        services.history.redo(store, job_id)
    assert [row.title for row in services.jobs.list_jobs(store)] == ["Pump"]
    assert services.check.check(store).sound


def test_saying_an_entry_again_adds_nothing(store, job_id):
    entry = Entry("flywheel", uid="7f0c0f7e-0000-4000-8000-000000000001")
    first = services.strip.log_removal(store, job_id, entry)
    before = services.history.history(store, job_id)
    again = services.strip.log_removal(store, job_id, entry)
    assert again.new_id == first.new_id
    assert again.touched == {}
    assert services.history.history(store, job_id) == before


def test_an_act_that_fails_half_way_leaves_nothing(store, job_id):
    before = all_rows(store)
    removal_id = services.strip.log_removal(store, job_id, Entry("flywheel")).new_id
    with pytest.raises(BadInput, match="not blank any more"):
        services.strip.log_removal(
            store,
            job_id,
            Entry("cowling"),
            Extras(container_wanted="bag 9", tag_code=services.views.card(store, removal_id).code),
        )
    services.history.undo(store, job_id)
    assert all_rows(store) == before
