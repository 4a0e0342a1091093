"""The use cases while a machine comes apart: job, strip, containers."""

import pytest

from bagtag import services
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.model import ContainerKind
from bagtag.services.jobs import JobForm
from bagtag.services.strip import Extras

# Job


def test_a_job_keeps_its_form_and_its_number(store):
    datum = Datum("standing behind the handlebars", {Side.LEFT: "flywheel side"})
    form = JobForm("  Walking   tractor ", "gearbox", "J. Alder", "first\nsecond", datum)
    change = services.jobs.open_job(store, form, who="Ada")
    job = services.jobs.get_job(store, change.new_id)
    assert change.job_id == change.new_id == job.id
    assert (job.number, job.title) == (1, "Walking tractor, gearbox")
    assert (job.owner, job.note) == ("J. Alder", "first\nsecond")
    assert job.datum.call(Side.LEFT) == "flywheel side"
    services.jobs.edit_job(store, job.id, JobForm("Pump"))
    assert services.jobs.get_job(store, job.id).title == "Pump"


def test_a_job_needs_a_machine_and_two_names_for_two_sides(store):
    with pytest.raises(BadInput, match="Give the machine a name") as nameless:
        services.jobs.open_job(store, JobForm("  "))
    assert nameless.value.field == "machine"
    twice = Datum("", {Side.LEFT: "clutch side", Side.RIGHT: "Clutch side"})
    with pytest.raises(BadInput, match="Two sides are called"):
        services.jobs.open_job(store, JobForm("Pump", datum=twice))
    assert services.jobs.list_jobs(store) == []


@pytest.mark.parametrize("text", ["1", "Walking tractor, gearbox", "walking TRACTOR", " walk "])
def test_a_job_is_found_by_number_or_title(store, job_id, text):
    services.jobs.open_job(store, JobForm("Pump"))
    assert services.jobs.find_job(store, text).id == job_id


@pytest.mark.parametrize("text", ["", "3", "harrow"])
def test_a_job_that_is_not_there_is_told_with_those_that_are(store, job_id, text):
    with pytest.raises(NotFound, match="1: Walking tractor, gearbox"):
        services.jobs.find_job(store, text)


def test_areas_keep_their_tree_and_give_up_what_lies_in_them(store, job_id, log):
    engine = services.jobs.add_area(store, job_id, "engine").new_id
    case = services.jobs.add_area(store, job_id, "lower case", parent_id=engine).new_id
    shaft = log("crankshaft", area_id=case)
    with pytest.raises(BadInput, match="cannot lie inside itself"):
        services.jobs.edit_area(store, engine, name="engine", parent_id=case)
    services.jobs.delete_area(store, case)
    assert services.strip.get_removal(store, shaft).area_id == engine
    services.history.undo(store, job_id)
    assert services.views.card(store, shaft).area == "engine > lower case"


def test_openers_that_leave_no_order_are_refused_where_they_are_set(store, job_id, log):
    clutch = services.jobs.add_area(store, job_id, "clutch").new_id
    gearbox = services.jobs.add_area(store, job_id, "gearbox").new_id
    inside = log("drum", area_id=clutch)
    other = log("shaft", area_id=gearbox)
    with pytest.raises(BadInput, match="cannot lie inside it"):
        services.jobs.set_opener(store, clutch, inside)
    services.jobs.set_opener(store, clutch, other)
    with pytest.raises(BadInput, match="opened from inside one another"):
        services.jobs.set_opener(store, gearbox, inside)
    with pytest.raises(BadInput, match="cannot lie inside it"):
        services.strip.correct_removal(store, other, Entry("shaft", area_id=clutch))
    assert services.check.check(store).sound


# Strip


def test_a_forgotten_line_gets_a_letter_and_numbers_stay(log, lines, store, job_id):
    first, second = log("cover"), log("gear")
    log("gasket", extras=Extras(before=second))
    log("dowel", extras=Extras(before=second))
    log("plug", extras=Extras(before=first))
    assert lines() == [
        ("0a", "plug"),
        ("1", "cover"),
        ("1a", "gasket"),
        ("1b", "dowel"),
        ("2", "gear"),
    ]
    services.strip.move_removal(store, second, first)
    assert lines()[1] == ("2", "gear")
    services.strip.move_removal(store, second, None)
    log("shaft")
    assert lines()[-2:] == [("2", "gear"), ("3", "shaft")]


def test_there_is_always_room_between_two_lines(log, lines):
    log("first")
    last = log("last")
    for number in range(60):
        log(f"between {number}", extras=Extras(before=last))
    assert [name for _, name in lines()][1:-1] == [f"between {number}" for number in range(60)]


def test_correcting_keeps_number_tag_and_place(store, job_id, log, lines):
    removal_id = log("gear")
    log("shaft")
    code = services.views.card(store, removal_id).code
    services.strip.correct_removal(store, removal_id, Entry("second gear", 2, note="dogs worn"))
    assert lines() == [("1", "second gear"), ("2", "shaft")]
    card = services.views.card(store, removal_id)
    assert (card.code, card.removal.quantity, card.removal.version) == (code, 2, 2)
    before = len(services.history.history(store, job_id))
    services.strip.correct_removal(store, removal_id, services.strip.entry_of(card.removal))
    assert len(services.history.history(store, job_id)) == before


@pytest.mark.parametrize("entry", [Entry(""), Entry("gear", -1), Entry("gear", 0)])
def test_a_wrong_entry_leaves_the_log_as_it_is(store, job_id, entry):
    with pytest.raises(BadInput):
        services.strip.log_removal(store, job_id, entry)
    assert services.strip.log_ids(store, job_id) == []


def test_what_belongs_to_another_job_is_refused(store, job_id, log):
    other = services.jobs.open_job(store, JobForm("Pump")).new_id
    area = services.jobs.add_area(store, other, "volute").new_id
    box = services.containers.add_container(store, other, ContainerKind.BAG).new_id
    for wrong in ({"area_id": area}, {"container_id": box}):
        with pytest.raises(BadInput, match="not in this job"):
            log("impeller", **wrong)
    with pytest.raises(NotFound, match="no longer in the log"):
        log("impeller", extras=Extras(before=99))


@pytest.mark.parametrize("name", ["Поршень", "Έμβολο", "<b>gear</b> & shaft", "n" * 200])
def test_names_are_kept_and_found_as_typed(store, log, name):
    removal_id = log(name)
    assert services.strip.get_removal(store, removal_id).name == name
    assert [hit.name for hit in services.find.find(store, name)] == [name]


# Containers


def test_containers_number_themselves_and_stand_in_one_another(store, job_id, log):
    add = services.containers.add_container
    shelf = add(store, job_id, ContainerKind.SHELF, "B").new_id
    tray = add(store, job_id, ContainerKind.TRAY, parent_id=shelf).new_id
    bag = add(store, job_id, ContainerKind.BAG, parent_id=tray).new_id
    removal_id = log("jet", container_id=bag)
    assert services.views.card(store, removal_id).where == ("bag 1", "tray 1", "shelf B")
    for container, name, parent in ((shelf, "B", bag), (tray, "1", tray)):
        with pytest.raises(BadInput, match="cannot stand inside itself"):
            services.containers.edit_container(store, container, name=name, parent_id=parent)
    with pytest.raises(BadInput, match="is not empty"):
        services.containers.delete_container(store, tray)
    with pytest.raises(BadInput, match="There is a bag 1"):
        add(store, job_id, ContainerKind.BAG, "1")
    services.containers.put(store, [removal_id], None)
    services.containers.delete_container(store, bag)
    listed = services.containers.list_containers(store, job_id)
    assert [(row.depth, row.container.label) for row in listed] == [(0, "shelf B"), (1, "tray 1")]


def test_a_container_that_is_named_while_logging_is_found_or_made(store, job_id, log):
    first = log("jet", extras=Extras(container_wanted="Bag 7"))
    second = log("needle", extras=Extras(container_wanted="bag 7"))
    ids = {services.strip.get_removal(store, id_).container_id for id_ in (first, second)}
    assert len(ids) == 1
    (row,) = services.containers.list_containers(store, job_id)
    assert row.removal_ids == (first, second)
    with pytest.raises(BadInput, match="bag 12, tray 3, shelf B"):
        log("float", extras=Extras(container_wanted="bucket"))
