"""A full disk, a disk that may not be written, a store held by another program: a sentence each,
and everything confirmed before is there afterwards."""

import hashlib
import sqlite3
import subprocess
import sys
import tempfile
from contextlib import closing
from pathlib import Path
from uuid import uuid4

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import StoreTrouble
from bagtag.store.work import Store


def names(store, job_id) -> list[str]:
    return [
        services.strip.get_removal(store, id_).name for id_ in services.strip.log_ids(store, job_id)
    ]


def no_more_room(store, pages: int) -> None:
    """SQLite's own limit on the size of a file, which it reports as it reports a full disk."""
    with store.read() as connection:
        now = connection.exec_driver_sql("PRAGMA page_count").scalar()
        connection.exec_driver_sql(f"PRAGMA max_page_count = {now + pages}")


def log_until_full(store, job_id) -> tuple[list[str], Entry, str]:
    """The names that were confirmed, the entry that was not, and what was said."""
    logged: list[str] = []
    for number in range(1000):
        entry = Entry(f"bolt {number}", note="long " * 400, uid=str(uuid4()))
        try:
            services.strip.log_removal(store, job_id, entry)
        except StoreTrouble as trouble:
            return logged, entry, trouble.sentence
        logged.append(entry.name)
    raise AssertionError("the disk never filled")


def test_on_a_full_disk_what_is_kept_stays_and_the_rest_is_said(store, job_id):
    no_more_room(store, pages=6)
    logged, _, sentence = log_until_full(store, job_id)
    assert sentence.startswith("The disk is full, so this was not kept.")
    assert sentence.endswith("what you typed is still here.")
    assert names(store, job_id) == logged != []
    assert services.check.check(store).sound


def test_after_room_is_made_the_same_entry_is_taken(store, job_id):
    no_more_room(store, pages=6)
    logged, refused, _ = log_until_full(store, job_id)
    no_more_room(store, pages=1000)
    services.strip.log_removal(store, job_id, refused)
    assert names(store, job_id) == [*logged, refused.name]
    assert services.check.check(store).sound


SMALL_FILES = """
import resource, sys
from pathlib import Path
from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import StoreTrouble
from bagtag.store.work import Store
store = Store.in_folder(Path(sys.argv[1]))
job_id = services.jobs.list_jobs(store)[0].id
resource.setrlimit(resource.RLIMIT_FSIZE, (500_000, 500_000))
try:
    for number in range(2000):
        services.strip.log_removal(store, job_id, Entry(f"bolt {number}", note="long " * 400))
        print(number, flush=True)
except StoreTrouble as trouble:
    print(trouble.sentence)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="a limit on file size is POSIX")
def test_a_log_that_may_not_grow_is_a_sentence_and_loses_nothing(store, job_id):
    """The system itself refuses to let a file grow, in the middle of a write."""
    folder = store.location.database.parent
    done = subprocess.run(
        [sys.executable, "-c", SMALL_FILES, folder], capture_output=True, text=True, check=True
    )
    *confirmed, sentence = done.stdout.splitlines()
    assert "so this was not kept" in sentence
    assert confirmed
    assert names(store, job_id) == [f"bolt {number}" for number in confirmed]
    assert services.check.check(store).sound


READ_ONLY = """
import os, sys
from pathlib import Path
from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import StoreTrouble
from bagtag.store.work import Store
services.strip.log_removal  # imported before the rights to read the library are given up
if os.getuid() == 0:
    os.setuid(65534)
try:
    store = Store.in_folder(Path(sys.argv[1]))
    services.strip.log_removal(store, 1, Entry("flywheel"))
except StoreTrouble as trouble:
    print(trouble.sentence)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="file modes are POSIX")
@pytest.mark.parametrize("folder_mode", [0o555, 0o777])
def test_a_store_that_may_not_be_written(tmp_path, folder_mode):
    """In a folder that may be written it opens and refuses the act; else it does not open."""
    folder = tmp_path / "store"
    store = Store.in_folder(folder)
    services.jobs.open_job(store, services.jobs.JobForm("Walking tractor"))
    store.close()
    ours = [path for path in tmp_path.parents if Path(tempfile.gettempdir()) in path.parents]
    for above in (tmp_path, *ours):  # the child gives up its rights and must still get there
        above.chmod(0o755)
    store.location.database.chmod(0o444)
    before = hashlib.sha256(store.location.database.read_bytes()).digest()
    folder.chmod(folder_mode)
    done = subprocess.run(
        [sys.executable, "-c", READ_ONLY, folder], capture_output=True, text=True, check=True
    )
    folder.chmod(0o755)
    assert str(store.location.database) in done.stdout
    assert "may not be written" in done.stdout or "cannot be opened" in done.stdout
    assert len(done.stdout.splitlines()) == 1
    assert hashlib.sha256(store.location.database.read_bytes()).digest() == before


def test_a_new_store_where_nothing_may_be_made(tmp_path):
    (tmp_path / "in the way").write_text("a file")
    with pytest.raises(StoreTrouble, match="cannot be made"):
        Store.in_folder(tmp_path / "in the way" / "store")


def test_a_store_held_by_another_program(store, job_id):
    with store.read() as connection:
        connection.exec_driver_sql("PRAGMA busy_timeout = 10")
    with closing(sqlite3.connect(store.location.database, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreTrouble, match="Another program holds the store"):
            services.strip.log_removal(store, job_id, Entry("flywheel"))
        assert names(store, job_id) == []
        other.execute("ROLLBACK")
    services.strip.log_removal(store, job_id, Entry("flywheel"))
    assert names(store, job_id) == ["flywheel"]


def test_an_entry_for_a_job_that_is_gone(store, job_id):
    with pytest.raises(StoreTrouble, match="no longer in the store, so it was not kept"):
        services.strip.log_removal(store, job_id + 1, Entry("flywheel"))
    assert services.check.check(store).counted["removal"] == 0
