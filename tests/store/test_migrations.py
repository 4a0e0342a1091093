"""Store versions: the scripts make what the tables say, a copy comes first, newer is refused."""

import hashlib
import json
import re
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine
from sqlalchemy.exc import IntegrityError

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.store import belongings, migrate, versions
from bagtag.store.engine import Location, open_engine
from bagtag.store.tables import SEARCH, metadata
from bagtag.store.work import Store

NEXT = """
import sqlalchemy as sa
from alembic import op

revision, down_revision, branch_labels, depends_on = "0006", "0005", None, None


def upgrade():
    op.add_column("job", sa.Column("colour", sa.String, nullable=False, server_default="red"))
"""
BREAKS_OFF = NEXT + '    raise RuntimeError("power cut")\n'


def test_the_scripts_make_the_tables(store):
    """Alembic's own comparison finds nothing to change."""
    own = {"include_name": lambda name, kind, _: kind != "table" or not name.startswith(SEARCH)}
    with store.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts=own | {"compare_type": True})
        assert compare_metadata(context, metadata) == []


def test_the_known_versions_are_those_of_the_scripts():
    scripts = ScriptDirectory.from_config(migrate.config(None))
    assert scripts.get_current_head() == versions.HEAD
    oldest_first = [script.revision for script in scripts.walk_revisions()][::-1]
    assert tuple(oldest_first) == versions.KNOWN


@pytest.fixture
def kept(tmp_path) -> Path:
    """A closed store with one line in its log."""
    store = Store.in_folder(tmp_path)
    job_id = services.jobs.open_job(store, services.jobs.JobForm("Walking tractor")).new_id
    services.strip.log_removal(store, job_id, Entry("flywheel"))
    store.close()
    return store.location.database


def scripts_with(tmp_path: Path, script: str) -> Path:
    """Our scripts and one more, as the next release will have them."""
    folder = tmp_path / "scripts"
    shutil.copytree(migrate.SCRIPTS, folder, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "versions" / "v0006_next.py").write_text(script)
    return folder


def rows(database: Path, query: str) -> list[tuple]:
    with closing(sqlite3.connect(database)) as raw:
        return raw.execute(query).fetchall()


def test_a_dated_copy_is_made_before_a_migration(tmp_path, kept):
    engine = open_engine(Location.in_folder(tmp_path))
    migrate.to_head(engine, kept, "0005", scripts_with(tmp_path, NEXT))
    engine.dispose()
    assert rows(kept, "SELECT version_num FROM alembic_version") == [("0006",)]
    assert rows(kept, "SELECT machine, colour FROM job") == [("Walking tractor", "red")]
    (copy,) = [f for f in tmp_path.glob("*.db") if f != kept]
    assert re.fullmatch(r"bagtag\.0005\.\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d\.db", copy.name)
    assert rows(copy, "SELECT version_num FROM alembic_version") == [("0005",)]
    assert rows(copy, "SELECT name FROM removal") == [("flywheel",)]
    assert rows(copy, "PRAGMA integrity_check") == [("ok",)]


def test_a_migration_that_breaks_off_changes_nothing(tmp_path, kept):
    engine = open_engine(Location.in_folder(tmp_path))
    with pytest.raises(RuntimeError, match="power cut"):
        migrate.to_head(engine, kept, "0005", scripts_with(tmp_path, BREAKS_OFF))
    engine.dispose()
    again = Store.in_folder(tmp_path)
    assert services.check.check(again).sound
    assert [hit.name for hit in services.find.find(again, "fly")] == ["flywheel"]
    again.close()
    assert "colour" not in {row[1] for row in rows(kept, "PRAGMA table_info(job)")}


NO_ROOM = """
import resource, sys
from pathlib import Path
from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.store import migrate
resource.setrlimit(resource.RLIMIT_FSIZE, (8192, 8192))
try:
    migrate.copy_beside(Path(sys.argv[1]), "0001")
except StoreTrouble as trouble:
    print(trouble.sentence)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="a limit on file size is POSIX")
def test_without_room_for_the_copy_nothing_is_touched(tmp_path, kept):
    before = hashlib.sha256(kept.read_bytes()).digest()
    run = subprocess.run(
        [sys.executable, "-c", NO_ROOM, kept], capture_output=True, text=True, check=True
    )
    assert "Free some space there; nothing was changed." in run.stdout
    assert hashlib.sha256(kept.read_bytes()).digest() == before
    assert list(tmp_path.glob("*.db")) == [kept]


def test_a_store_from_a_newer_program_is_refused_and_left_alone(tmp_path, kept):
    with closing(sqlite3.connect(kept)) as raw, raw:
        raw.execute("UPDATE alembic_version SET version_num = '0417'")
    before = hashlib.sha256(kept.read_bytes()).digest()
    with pytest.raises(StoreTrouble, match=r"newer Bagtag .*0417.*nothing was changed"):
        Store.in_folder(tmp_path)
    assert hashlib.sha256(kept.read_bytes()).digest() == before


def test_a_file_that_is_no_store_is_refused_and_left_alone(tmp_path):
    database = tmp_path / "bagtag.db"
    database.write_text("main jet 95, pilot jet 38\n" * 100)
    with pytest.raises(StoreTrouble, match="is not a Bagtag store or is damaged"):
        Store.in_folder(tmp_path)
    assert database.read_text().startswith("main jet")


def test_another_programs_database_is_refused_and_left_alone(tmp_path):
    with closing(sqlite3.connect(tmp_path / "bagtag.db")) as raw, raw:
        raw.execute("CREATE TABLE recipes (name TEXT)")
    with pytest.raises(StoreTrouble, match="is a database, but not a Bagtag store"):
        Store.in_folder(tmp_path)
    assert rows(tmp_path / "bagtag.db", "SELECT name FROM sqlite_master") == [("recipes",)]


@pytest.mark.parametrize("url", ["", "bagtag.db", "postgresql://localhost/bagtag", "sqlite://"])
def test_an_address_that_is_no_sqlite_file(url):
    with pytest.raises(BadInput, match="sqlite:///FILE"):
        Location.from_url(url)


def test_a_folder_may_have_odd_characters_in_its_name(tmp_path):
    folder = tmp_path / "50% off? #1 Ölpumpe"
    store = Store.in_folder(folder)
    services.jobs.open_job(store, services.jobs.JobForm("Walking tractor"))
    store.close()
    assert (folder / "bagtag.db").stat().st_size > 0
    again = Store.in_folder(folder)
    assert [row.title for row in services.jobs.list_jobs(again)] == ["Walking tractor"]
    again.close()


@pytest.mark.parametrize("verb", ["UPDATE journal SET act = 'nothing'", "DELETE FROM journal"])
def test_the_journal_is_only_ever_added_to(store, job_id, verb):
    with (
        pytest.raises(IntegrityError, match="only ever added to"),
        store.engine.begin() as connection,
    ):
        connection.exec_driver_sql(verb)
    assert [deed.act for deed in services.history.history(store, job_id)] == [
        "open job Walking tractor"
    ]


OLD_ROW = {
    "uid": "0f0e4f2e-0000-4000-8000-000000000001", "job_id": 1, "number": "1", "serial": 1,
    "position": 1024, "name": "flywheel", "quantity": 1, "area_id": None,
    "which_way": [{"fact": "hand", "which": "R"}], "held_by": [], "condition": "",
    "fate": "refit", "goes_on": "", "note": "", "container_id": None, "replacement": "wanted",
    "logged_at": "2026-11-20T09:00:00.000+00:00", "logged_by": "", "version": 1,
}  # fmt: skip


def test_a_store_of_the_first_version_is_brought_up_with_all_it_holds(tmp_path):
    """An entry, its words to be found by, and a journal whose rows lack the new columns."""
    engine = create_engine(f"sqlite:///{tmp_path / 'bagtag.db'}")
    with engine.begin() as connection:
        command.upgrade(migrate.config(connection), "0001")
        connection.exec_driver_sql(
            "INSERT INTO job (id, uid, number, machine, side_names, opened_at) "
            "VALUES (1, 'u', 1, 'Walking tractor', '{}', '2026-11-20T08:00:00.000+00:00')"
        )
        names = ", ".join(OLD_ROW)
        marks = ", ".join("?" * len(OLD_ROW))
        values = tuple(json.dumps(v) if isinstance(v, list) else v for v in OLD_ROW.values())
        connection.exec_driver_sql(f"INSERT INTO removal ({names}) VALUES ({marks})", values)
        connection.exec_driver_sql(
            f"INSERT INTO {SEARCH} (rowid, job_id, body) VALUES (1, 1, '1 \nflywheel')"
        )
        entry = json.dumps([["removal", 1, None, {"id": 1, **OLD_ROW}]])
        connection.exec_driver_sql(
            "INSERT INTO journal (at, scope, act, kind, rows) "
            "VALUES ('2026-11-20T09:00:00.000+00:00', 1, 'log flywheel', 'do', ?)", (entry,)
        )  # fmt: skip
    engine.dispose()
    store = Store.in_folder(tmp_path)
    (flywheel,) = services.views.last_page(store, 1).rows
    assert (flywheel.removal.kind, flywheel.removal.size, flywheel.removal.side) == ("", "", None)
    assert (flywheel.removal.hazards, flywheel.removal.unanswered) == ((), ())
    assert [hit.name for hit in services.find.find(store, "fly")] == ["flywheel"]
    services.history.undo(store, 1)
    assert services.views.last_page(store, 1).total == 0
    services.history.redo(store, 1)
    (again,) = services.views.last_page(store, 1).rows
    said = services.check.check(store).findings  # the store was written by hand: no tag, no job act
    assert said == ("Job 1 is not in the journal.", "1 flywheel has no tag of its own.")
    assert (again.removal.name, again.removal.hazards) == ("flywheel", ())
    store.close()


OLD_AWAY = {
    "removal_id": 1, "shop": "Mill Lane", "work": "grind", "due": "2026-11-30", "back_at": None,
    "sent_at": "2026-11-20T10:00:00.000+00:00",
}  # fmt: skip


def test_what_was_away_before_there_were_batches_comes_back_and_all_of_it_is_undone(tmp_path):
    """The time away has no batch, and the journal's row of it lacks the new columns."""
    engine = create_engine(f"sqlite:///{tmp_path / 'bagtag.db'}")
    with engine.begin() as connection:
        command.upgrade(migrate.config(connection), "0004")
        connection.exec_driver_sql(
            "INSERT INTO job (id, uid, number, machine, side_names, opened_at) "
            "VALUES (1, 'u', 1, 'Walking tractor', '{}', '2026-11-20T08:00:00.000+00:00')"
        )
        for table, row in (("removal", OLD_ROW), ("away", OLD_AWAY)):
            marks = ", ".join("?" * len(row))
            values = tuple(json.dumps(v) if isinstance(v, list) else v for v in row.values())
            into = f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})"
            connection.exec_driver_sql(into, values)
        entry = json.dumps([["away", 1, None, {"id": 1, **OLD_AWAY}]])
        connection.exec_driver_sql(
            "INSERT INTO journal (at, scope, act, kind, rows) "
            "VALUES ('2026-11-20T10:00:00.000+00:00', 1, 'send away', 'do', ?)", (entry,)
        )  # fmt: skip
    engine.dispose()
    store = Store.in_folder(tmp_path)

    def out() -> list[str]:
        return [item.called for one in services.send_outs.batches(store, 1) for item in one.out]

    (loose,) = services.send_outs.batches(store, 1)
    assert (loose.send_out, loose.shop, out()) == (None, "Mill Lane", ["1 flywheel"])
    services.fates.came_back(store, [1], who="Ada")
    assert out() == []
    services.history.undo(store, 1)
    assert out() == ["1 flywheel"]
    services.history.undo(store, 1)
    assert out() == []
    services.history.redo(store, 1)
    services.history.redo(store, 1)
    with store.read() as connection:
        (time,) = belongings.times_away(connection, 1)
    assert (time.back_by, time.work, time.asks, time.send_out_id) == ("Ada", "grind", (), None)
    store.close()
