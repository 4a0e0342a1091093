"""`check` finds what is broken on purpose, names it, and finds nothing in the demo job."""

import sqlite3
from contextlib import closing

import pytest

from bagtag import resources, services
from bagtag.domain.entry import Entry
from bagtag.domain.model import ContainerKind
from bagtag.store.work import Store


@pytest.fixture
def worked_on(store, job_id, log):
    """A job with a little of everything; returns the id of its first line."""
    area = services.jobs.add_area(store, job_id, "gearbox").new_id
    removal_id = log("cover")
    log("shaft", area_id=area)
    services.jobs.set_opener(store, area, removal_id)
    services.containers.add_container(store, job_id, ContainerKind.BAG)
    services.tags.make_twins(store, removal_id)
    picture = resources.find("demo/photos/fork-r.jpg")
    services.photos.add(store, removal_id, [picture])
    services.strip.correct_removal(store, removal_id, Entry("gearbox cover"))
    services.history.undo(store, job_id)
    services.history.redo(store, job_id)
    return removal_id


def test_a_whole_store_is_whole_and_counted(store, worked_on):
    report = services.check.check(store)
    assert report.findings == ()
    assert report.sound
    assert report.counted == {
        "job": 1,
        "rule": 0,
        "rule_member": 0,
        "task": 0,
        "area": 1,
        "container": 1,
        "removal": 2,
        "tag": 5,
        "photo": 1,
        "sign_off": 0,
        "away": 0,
        "hole_map": 0,
        "pass_tick": 0,
        "wrench": 0,
        "tool_out": 0,
        "send_out": 0,
        "document": 0,
        "renewal": 0,
        "measure_sheet": 0,
        "instrument": 0,
        "journal": 11,
    }


@pytest.mark.parametrize(
    ("damage", "finding"),
    [
        ("UPDATE removal SET name = 'x' WHERE id = 2", "Removal 2 is not what the journal says"),
        ("DELETE FROM sign_off; DELETE FROM photo", "Photo 1 is not what the journal says"),
        ("INSERT INTO container (job_id, kind) VALUES (1, 'bag')", "is not in the journal"),
        ("UPDATE removal_search SET body = 'x' WHERE rowid = 1", "out of step for 1 gearbox"),
        ("DELETE FROM removal_search WHERE rowid = 2", "out of step for 2 shaft"),
        (
            "INSERT INTO removal_search (rowid, job_id, body) VALUES (9, 1, 'x')",
            "finds a removal 9 that is not there",
        ),
        ("UPDATE removal SET position = 7", "Two lines of the log of job 1 are in one place"),
        ("UPDATE tag SET code = '234567' WHERE id = 1", "234567 is no tag code"),
        ("UPDATE tag SET removal_id = NULL WHERE id = 1", "does not hang on what it should"),
        ("UPDATE tag SET pair = 'x' WHERE pair <> '' AND role LIKE '%part'", "lost its other half"),
        ("DELETE FROM tag WHERE removal_id = 2", "2 shaft has no tag of its own"),
        ("UPDATE removal SET area_id = 1 WHERE id = 1", "The build of job 1 does not work out"),
        (
            "PRAGMA foreign_keys = OFF; UPDATE tag SET removal_id = 99 WHERE id = 1",
            "row of removal",
        ),
        (
            "DROP TRIGGER journal_no_delete; DELETE FROM journal WHERE act LIKE 'correct%'",
            "The journal",
        ),
        (
            "DROP TRIGGER journal_no_delete; DELETE FROM journal WHERE act LIKE 'log shaft'",
            "Removal 2 is not in the journal",
        ),
    ],
)
def test_each_damage_to_the_database_is_found(store, worked_on, damage, finding):
    with closing(sqlite3.connect(store.location.database)) as raw:
        raw.executescript(damage)
    report = services.check.check(store)
    assert not report.sound
    assert any(finding in line for line in report.findings), report.findings
    assert all(line.endswith(".") and "\n" not in line for line in report.findings)


def test_a_lost_a_changed_and_a_thumbless_photo_are_told_apart(store, worked_on):
    (photo,) = services.views.card(store, worked_on).photos
    original = services.photos.original(store, photo)
    whole = original.read_bytes()
    original.write_bytes(whole[:-1] + b"?")
    assert "has changed since it was taken in" in services.check.check(store).findings[0]
    original.unlink()
    assert "is not there" in services.check.check(store).findings[0]
    original.write_bytes(whole)
    services.photos.thumb(store, photo.hash).unlink()
    assert "thumbnail" in services.check.check(store).findings[0]


def test_a_torn_page_is_found(tmp_path):
    store = Store.in_folder(tmp_path / "torn")
    job_id = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    for number in range(60):
        services.strip.log_removal(store, job_id, Entry(f"bolt {number}", note="long " * 100))
    store.close()
    data = bytearray(store.location.database.read_bytes())
    for page in range(len(data) // 4096 // 2, len(data) // 4096):
        data[page * 4096 : page * 4096 + 200] = b"\xff" * 200
    store.location.database.write_bytes(data)
    report = services.check.check(store)
    store.close()
    assert not report.sound
    assert "damaged" in report.findings[0]


def test_many_findings_of_one_kind_are_counted(store, job_id, log):
    for number in range(30):
        log(f"bolt {number}")
    with closing(sqlite3.connect(store.location.database)) as raw, raw:
        raw.execute("DELETE FROM removal_search")
    findings = services.check.check(store).findings
    assert len(findings) == services.check.MANY + 1
    assert findings[-1] == "And 10 more of this kind."
