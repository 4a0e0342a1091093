"""The terminal: every command as a script runs it, its answers, its exit status, its silence."""

import json
import subprocess
import sys

import pytest

from bagtag import __version__, cli, cli_app, services
from bagtag.domain import codes
from bagtag.store.work import Store


@pytest.fixture
def gearbox(answer) -> int:
    return answer("new", "Walking tractor", "--for", "gearbox")["number"]


def test_a_script_begins_from_nothing_and_ends_with_a_checklist(answer, bagtag, tmp_path):
    assert answer("jobs") == []
    assert answer("new", "Walking tractor", "--for", "gearbox") == {
        "number": 1,
        "title": "Walking tractor, gearbox",
    }
    line = "shift fork R x2, bag 12"
    logged = answer("log", "walking tractor", line)
    assert (logged["number"], logged["quantity"], logged["lies_in"]) == ("1", 2, ["bag 12"])
    (hand,) = logged["which_way"]
    assert (hand["fact"], hand["which"]) == ("hand", "R")
    assert codes.is_valid(logged["code"].replace("-", ""))
    (job,) = answer("jobs")
    assert (job["off"], job["back"], job["away"]) == (1, 0, 0)
    checklist = tmp_path / "build.pdf"
    build = answer("build", "1", "--pdf", str(checklist))
    assert [(step["place"], step["name"]) for step in build["steps"]] == [(1, logged["name"])]
    assert "shift fork" in logged["name"]
    assert build["file"] == str(checklist)
    assert checklist.read_bytes().startswith(b"%PDF")
    assert bagtag("check")[0] == 0


def test_where_leads_from_a_code_in_any_spelling(answer, gearbox):
    logged = answer("log", "1", "main bearing, sealed side out, refit, tray 3")
    (found,) = answer("where", logged["code"].lower().replace("-", " "))
    assert (found["found"], found["leads_to"]) == (True, "removal")
    card = found["removal"]
    assert card["sentence"] == logged["sentence"]
    assert (card["standing"], card["place"], card["waits_for"]) == ("next", 1, [])
    assert "overrides" in card["caution"]


def test_where_reads_the_codes_out_of_a_picture_of_printed_labels(answer, bagtag, tmp_path):
    """Printed by one command, rendered by pypdfium2, read by the other."""
    import pypdfium2

    answer("new", "Walking tractor")
    logged = [answer("log", "1", f"{name}, bag {n}") for n, name in enumerate(("gear", "shaft"))]
    sheet, picture = tmp_path / "labels.pdf", tmp_path / "labels.png"
    report = answer_labels(bagtag, "labels", "1", "-o", str(sheet), "--start", "4")
    assert (report["pages"], report["labels"]) == (1, 2)
    pdf = pypdfium2.PdfDocument(sheet)
    pdf[0].render(scale=200 / 72).to_pil().save(picture)
    pdf.close()
    found = answer("where", str(picture))
    assert sorted(one["code"] for one in found) == sorted(line["code"] for line in logged)


def answer_labels(bagtag, *arguments: str):
    """Labels may warn on standard error; standard output is JSON alone all the same."""
    status, out, _ = bagtag(*arguments, "--json")
    assert status == 0
    return json.loads(out)


def test_blank_tags_are_printed_and_lead_nowhere_yet(answer, bagtag, tmp_path):
    out = tmp_path / "blank.pdf"
    report = answer_labels(
        bagtag, "labels", "--blank", "3", "-o", str(out), "--stock", "roll-62x29"
    )
    assert (report["pages"], report["labels"], len(report["codes"])) == (3, 3, 3)
    assert [one["leads_to"] for one in answer("where", *report["codes"])] == ["blank"] * 3


def test_blank_tags_that_could_not_be_printed_are_not_made(bagtag, tmp_path):
    for wrong in (["--stock", "no-such"], ["--start", "99"], ["--dpi", "-1"]):
        status, out, err = bagtag("labels", "--blank", "3", "-o", str(tmp_path / "b.pdf"), *wrong)
        assert (status, out, err.count("\n")) == (2, "", 1)
    status, out, _ = bagtag("labels", "--blank", "3", "-o", str(tmp_path / "no" / "b.pdf"))
    assert (status, out) == (2, "")
    store = Store.in_folder(tmp_path / "store")
    assert services.check.check(store).counted["tag"] == 0
    store.close()


def test_the_demo_is_written_and_whole(answer, bagtag):
    assert answer("demo")["number"] == 1
    assert answer("check")["findings"] == []
    build = answer("build", "Walking tractor")
    assert {step["kind"] for step in build["steps"]} > {"part", "hold point", "bench build"}
    assert build["no_order"] is None
    assert {"step", "why", "steps", "alone"} == set(build["frees"][0])
    assert 20 < build["done"] < len(build["steps"])
    status, out, _ = bagtag("build", "1")
    assert status == 0
    assert "[x]" in out
    assert "waits: " in out
    assert "The maker's manual overrides" in out


def test_a_container_tells_what_it_holds(answer, gearbox, bagtag, tmp_path):
    answer("log", "1", "main jet, bag 2")
    store = Store.in_folder(tmp_path / "store")
    (bag,) = services.containers.list_containers(store, 1)
    store.close()
    (found,) = answer("where", bag.code)
    assert found["container"] == {
        "label": "bag 2",
        "code": codes.show(bag.code),
        "stands_in": [],
        "holds": [{"number": "1", "name": "main jet"}],
    }
    assert "1 main jet" in bagtag("where", bag.code)[1]


OWN_KIND = """
["quill seal"]
also = ["quill ring"]
asks = [{ fact = "faces", feature = "lip", ask = "Which way does the lip face?" }]
goes_wrong = "It leaks."
renew = "always"
why = "It hardens."
home = "Flush."
"""


@pytest.fixture
def own_kinds(tmp_path):
    """Write a file of kinds beside the store."""

    def write(name: str, text: str) -> None:
        folder = tmp_path / "store" / "kinds"
        folder.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")

    return write


def test_the_audit_says_what_is_missing_and_is_a_no(bagtag, answer, gearbox, own_kinds, tmp_path):
    own_kinds("own.toml", OWN_KIND)
    answer("log", "1", "quill seal, bag 3")
    page = tmp_path / "audit.pdf"
    status, out, err = bagtag("audit", "1", "--pdf", str(page), "--json")
    assert (status, err) == (1, "")
    told = json.loads(out)
    assert (told["job"], told["looked_at"], told["file"]) == (
        "Walking tractor, gearbox", 1, str(page)
    )  # fmt: skip
    first = told["missing"][0]
    assert (first["lack"], first["number"], first["name"], first["lies_in"]) == (
        "way", "1", "quill seal", "bag 3"
    )  # fmt: skip
    assert first["sentence"] == "Which way does the lip face?"
    assert page.read_bytes().startswith(b"%PDF")
    status, out, _ = bagtag("audit", "1")
    assert status == 1
    assert "Which way is not said (1)\n  1 quill seal: Which way does the lip face?\n" in out
    assert f"{len(told['missing'])} things to see to in 1 entry. The maker's manual" in out


def test_what_all_say_is_said_once_on_the_terminal(bagtag, answer, gearbox):
    for name in ("first gizmo", "second gizmo", "third gizmo"):
        answer("log", "1", name)
    out = bagtag("audit", "1")[1]
    assert out.count("hang a blank tag on it") == 1
    assert "No tag (3). Print" in out
    assert "\n  2 second gizmo\n" in out


def test_labels_that_are_written_are_missed_no_more(bagtag, answer, gearbox, tmp_path):
    answer("log", "1", "gizmo")
    assert "No tag" in bagtag("audit", "1")[1]
    answer_labels(bagtag, "labels", "1", "-o", str(tmp_path / "labels.pdf"))
    assert "No tag" not in bagtag("audit", "1")[1]


def test_nothing_missing_is_a_yes(bagtag, answer, gearbox, own_kinds, tmp_path):
    from tests.store.photo_kit import encoded, grainy

    own_kinds("own.toml", OWN_KIND)
    logged = answer("log", "1", "quill seal, lip inward, renew")
    assert logged["fate"] == "renew"
    answer_labels(bagtag, "labels", "1", "-o", str(tmp_path / "labels.pdf"))
    photo = tmp_path / "photo.jpg"
    photo.write_bytes(encoded(grainy()))
    store = Store.in_folder(tmp_path / "store")
    services.photos.add(store, 1, [photo])
    store.close()
    status, out, err = bagtag("audit", "1")
    assert (status, err) == (0, "")
    assert out.startswith("Nothing is missing. 1 entry looked at.")
    assert answer("audit", "1")["missing"] == []


def test_kinds_are_listed_and_one_is_told_in_full(bagtag, answer, own_kinds, tmp_path):
    own_kinds("own.toml", OWN_KIND)
    told = answer("kinds")
    assert told["folder"] == str(tmp_path / "store" / "kinds")
    assert [kind["name"] for kind in told["kinds"] if kind["own"]] == ["quill seal"]
    (kind,) = answer("kinds", "quill ring")["kinds"]
    assert (kind["renew"], kind["asks"][0]["feature"]) == ("always", "lip")
    out = bagtag("kinds", "quill")[1]
    assert out.startswith("quill seal (quill ring): renewed always, your own\n")
    for line in ("asked: Which way does the lip face?", "why: It hardens.", "home: Flush."):
        assert f"\n  {line}\n" in out
    assert f"go into files in {tmp_path / 'store' / 'kinds'}." in out


def test_a_broken_file_of_kinds_is_named_with_its_line(bagtag, own_kinds):
    own_kinds("good.toml", OWN_KIND)
    own_kinds("bad.toml", OWN_KIND.replace('"always"', '"sometimes"'))
    status, out, err = bagtag("kinds", "quill seal")
    assert (status, out.count("Which way does the lip face?")) == (0, 1)
    assert err.startswith("bad.toml, line 6: ")
    assert err.count("\n") == 1


STRANGE = codes.draw(lambda symbols: symbols[7])


@pytest.mark.parametrize(
    ("arguments", "status", "word"),
    [
        (["log", "9", "gear"], 1, "No single job answers to '9'"),
        (["build", "harrow"], 1, "No single job answers"),
        (["audit", "harrow"], 1, "No single job answers"),
        (["audit", "1", "--pdf", "no/such/folder/a.pdf"], 2, "cannot be written"),
        (["kinds", "harrowing"], 1, "No kind of part is called 'harrowing'"),
        (["where", STRANGE], 1, "no tag of this store"),
        (["where", "K7Q4M"], 2, "has 6 characters"),
        (["where", "nowhere.jpg"], 2, "nowhere.jpg"),
        (["log", "1", "  "], 2, "name"),
        (["new", " "], 2, "Give the machine a name"),
        (["labels", "-o", "x.pdf"], 2, "Say whose labels"),
        (["labels", "1", "-o", "x.pdf"], 2, "nothing to print"),
        (["labels", "--blank", "0", "-o", "x.pdf"], 2, "between 1 and 10,000"),
        (["labels", "1"], 2, "'-o'"),
        (["labels", "1", "-o", "x.pdf", "--start", "two"], 2, "'--start'"),
        (["lables"], 2, "lables"),
        (["--nothing"], 2, "--nothing"),
        (["--demo", "jobs"], 2, "bagtag demo"),
        (["--database", "sqlite:///x.db", "jobs"], 2, "not both"),
    ],
)
def test_what_cannot_be_done_is_one_sentence(bagtag, gearbox, arguments, status, word):
    told = bagtag(*arguments, *(["--json"] if arguments[0] in ("log", "build") else []))
    assert (told[0], told[1] if arguments[0] != "where" else "") == (status, "")
    assert word in told[2]
    assert told[2].count("\n") == 1


def test_one_bad_code_among_good_ones_leaves_the_good_answers(bagtag, answer, gearbox):
    code = answer("log", "1", "gear")["code"]
    status, out, err = bagtag("where", code, STRANGE, "K7Q", "--json")
    assert status == 2
    assert [one["found"] for one in json.loads(out)] == [True, False, False]
    assert len(err.splitlines()) == 2
    assert bagtag("where", code, STRANGE)[0] == 1


def test_a_store_that_is_not_whole_is_a_no(bagtag, answer, gearbox, tmp_path):
    answer("log", "1", "gear")
    store = Store.in_folder(tmp_path / "store")
    with store.engine.begin() as connection:
        connection.exec_driver_sql("DELETE FROM removal_search")
    store.close()
    status, out, err = bagtag("check", "--json")
    assert (status, err) == (1, "")
    report = json.loads(out)
    assert report["sound"] is False
    assert "search index" in report["findings"][0]
    assert "The store is not whole." in bagtag("check")[1]


def test_a_store_by_its_address(tmp_path, capsys):
    url = f"sqlite:///{tmp_path / 'other.db'}"
    assert cli_app.run(["--database", url, "new", "Pump"]) == 0
    assert (tmp_path / "other.db").exists()
    assert capsys.readouterr().out == "1  Pump\n"


def test_a_newer_store_is_refused_in_a_sentence(bagtag, gearbox, tmp_path):
    store = Store.in_folder(tmp_path / "store")
    with store.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '0999'")
    store.close()
    status, out, err = bagtag("jobs")
    assert (status, out) == (2, "")
    assert "newer Bagtag" in err


def test_version_and_help(capsys):
    assert cli_app.run(["--version"]) == 0
    assert capsys.readouterr().out == f"bagtag {__version__}\n"
    assert cli_app.run(["--help"]) == 0
    told = capsys.readouterr().out
    for word in (
        "demo",
        "jobs",
        "log",
        "labels",
        "where",
        "build",
        "close",
        "audit",
        "kinds",
        "check",
    ):
        assert word in told
    assert cli_app.run(["labels", "--help"]) == 0
    assert "--blank" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("given", "wanted"),
    [
        ([], cli.Wanted()),
        (["--demo"], cli.Wanted(demo=True)),
        (["--database", "sqlite:///x.db"], cli.Wanted(database="sqlite:///x.db")),
        (["jobs"], None),
        (["--data-dir"], None),
        (["--data-dir", "x", "jobs"], None),
        (["--help"], None),
        (["--data-dir", "x", "--database", "sqlite:///x.db"], None),
    ],
)
def test_what_only_opens_the_window_is_told_without_the_commands(given, wanted):
    assert cli._window_only(given) == wanted


QUIET = """
import sys
from bagtag import cli
wanted = cli._window_only(["--demo"])
heavy = {"typer", "rich", "click", "sqlalchemy", "bagtag.cli_app", "PySide6"} & set(sys.modules)
sys.exit(f"imported: {heavy}" if heavy or wanted is None else 0)
"""


def test_nothing_heavy_is_imported_before_the_window():
    done = subprocess.run(
        [sys.executable, "-c", QUIET], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr


def test_as_a_program(tmp_path):
    """A real process: nothing but JSON on standard output, and one line on standard error."""
    command = [sys.executable, "-W", "error", "-m", "bagtag", "--data-dir", str(tmp_path)]
    done = subprocess.run([*command, "new", "Насос", "--json"], capture_output=True, check=True)
    assert json.loads(done.stdout) == {"number": 1, "title": "Насос"}
    assert done.stderr == b""
    done = subprocess.run([*command, "log", "7", "gear"], capture_output=True, check=False)
    assert (done.returncode, done.stdout) == (1, b"")
    assert done.stderr.decode().count("\n") == 1
