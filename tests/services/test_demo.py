"""The demo job has something for every screen, and keeps the program's own rules."""

import re
import tomllib

import pytest
from PIL import Image

from bagtag import resources, services
from bagtag.domain.contradictions import between, within
from bagtag.domain.fitting import TaskKind
from bagtag.domain.model import ContainerKind, Fate, Origin, PhotoRole, Replacement
from bagtag.domain.standing import Standing
from bagtag.domain.which_way import Clocking, Faces, Hand, MatchMark, Place, Seat
from bagtag.store.work import Store


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    store = Store.in_folder(tmp_path_factory.mktemp("demo"))
    change = services.demo.write(store, who="Ada")
    yield store, change.job_id
    store.close()


@pytest.fixture(scope="module")
def log(demo):
    store, job_id = demo
    return [services.strip.get_removal(store, id_) for id_ in services.strip.log_ids(store, job_id)]


def test_the_store_is_whole_with_it(demo):
    assert services.check.check(demo[0]).findings == ()


def test_it_is_long_and_has_every_kind_of_fact(log):
    assert len(log) >= 60
    kinds = {type(fact) for removal in log for fact in removal.which_way}
    assert kinds == {Clocking, Faces, Hand, MatchMark, Place, Seat}
    assert {removal.fate for removal in log} == set(Fate)
    assert {fact.which for r in log for fact in r.which_way if isinstance(fact, Hand)} == {"L", "R"}
    features = {fact.feature for r in log for fact in r.which_way if isinstance(fact, Faces)}
    assert {"OUT", "sealed side", "sharp edge"} <= features


def test_nothing_in_it_contradicts_itself(demo, log):
    store, job_id = demo
    datum = services.jobs.get_job(store, job_id).datum
    assert [found for removal in log for found in within(removal.which_way, datum)] == []
    assert between(log, datum) == ()


def test_every_screen_has_something_to_show(demo, log):
    store, job_id = demo
    words = {step.standing for step in services.board.board(store, job_id).steps}
    assert words >= {Standing.IN, Standing.NEXT, Standing.WAITS, Standing.AWAY}
    assert 20 < services.board.board(store, job_id).done < len(log) - 20
    assert len(services.fates.away_list(store, job_id)) == 6
    states = {removal.replacement for removal in log if removal.fate is Fate.RENEW}
    assert states >= {Replacement.ORDERED, Replacement.HERE}
    kinds = {row.container.kind for row in services.containers.list_containers(store, job_id)}
    assert kinds == set(ContainerKind)
    assert max(row.depth for row in services.containers.list_containers(store, job_id)) == 2
    steps = services.board.board(store, job_id).steps
    back = [s for s in steps if s.removal_id is not None and s.standing is Standing.IN]
    assert services.jobs.list_jobs(store)[0].back == len(back)
    assert {s.task.kind for s in steps if s.task} > {TaskKind.HOLD_POINT, TaskKind.TIGHTENING}
    assert {removal.origin for removal in log} == set(Origin)
    assert any(line.note.startswith("the odd one out") for r in log for line in r.held_by)


def test_it_says_that_its_figures_are_invented(demo):
    store, job_id = demo
    assert "figure in it is invented" in services.jobs.get_job(store, job_id).note


def test_each_part_with_which_way_to_see_has_a_picture_of_its_own(demo, log):
    store, _ = demo
    photos = [photo for removal in log for photo in services.views.card(store, removal.id).photos]
    assert len({photo.hash for photo in photos}) == len(photos) >= 25
    assert {(photo.width, photo.height) for photo in photos} == {(1200, 900)}
    assert {photo.role for photo in photos} == {PhotoRole.OFF}
    assert all(
        removal.which_way
        for removal in log
        if services.views.card(store, removal.id).photos and removal.name != "clutch springs"
    )  # four, all alike: nothing to tell


def test_the_story_and_the_pictures_go_together():
    story = tomllib.loads(resources.find("demo/job.toml").read_text(encoding="utf-8"))
    named = {removal["photo"] for removal in story["removal"] if "photo" in removal}
    assert {path.name for path in resources.find("demo/photos").iterdir()} == named
    for name in named:
        with Image.open(resources.find(f"demo/photos/{name}")) as picture:
            assert picture.format == "JPEG"


def test_it_can_be_written_twice_and_undone(tmp_path):
    store = Store.in_folder(tmp_path)
    first, second = services.demo.write(store, who="Ada"), services.demo.write(store, who="Ada")
    assert [row.number for row in services.jobs.list_jobs(store)] == [2, 1]
    while services.history.next_names(store, second.job_id)[0]:
        services.history.undo(store, second.job_id)
    assert [row.id for row in services.jobs.list_jobs(store)] == [first.job_id]
    assert services.check.check(store).findings == ()
    store.close()


def test_its_numbers_are_plain(log):
    assert all(re.fullmatch(r"\d+", r.number) for r in log if r.origin is Origin.OFF)
    assert [r.number for r in log if r.origin is not Origin.OFF] == [
        "7a",
        "7b",
        "7c",
        "25a",
        "76a",
    ]
