"""What to lay out, from a terminal."""

from bagtag import services
from bagtag.domain.hardware import OVERRIDE
from bagtag.store.work import Store


def test_the_list_in_text_and_in_json(bagtag, answer, tmp_path):
    answer("demo")
    status, out, err = bagtag("tools", "1")
    assert (status, err) == (0, "")
    lines = out.splitlines()
    assert lines[0].startswith("The whole build: ")
    assert any(line.startswith("  27 mm socket: step") for line in lines)
    assert any(line.startswith("    step 76 12 flywheel nut: 1 nut M18") for line in lines)
    assert lines.index("Sockets and spanners") < lines.index("What goes on")
    assert OVERRIDE in lines
    assert lines[-2] == "Nothing is laid out."
    data = answer("tools", "1")
    kinds = {row["name"]: row["kind"] for row in data["tools"]}
    assert kinds["27 mm socket"] == "Sockets and spanners"
    assert data["cautions"][0] == OVERRIDE
    assert all(row["steps"] for row in data["tools"])


def test_one_area_the_next_steps_and_a_pdf(bagtag, answer, tmp_path):
    answer("demo")
    whole, area = answer("tools", "1"), answer("tools", "1", "--area", "clutch")
    assert (area["span"], 0 < area["steps"] < whole["steps"]) == ("gearbox > clutch", True)
    next_ = answer("tools", "1", "--next", "2")
    assert (next_["steps"], next_["span"]) == (2, "the next 2 steps that can go in now")
    file = tmp_path / "tools.pdf"
    status, out, _ = bagtag("tools", "1", "--pdf", str(file))
    assert (status, out.splitlines()[-1]) == (0, f"The list is in {file}.")
    assert file.read_bytes()[:4] == b"%PDF"


def test_what_is_still_out_is_told(bagtag, answer, tmp_path):
    answer("new", "Walking tractor")
    store = Store.in_folder(tmp_path / "store")
    services.tools.take_out(store, 1, ["lamp", "lamp", "rag"], who="Ada")
    store.close()
    _, out, _ = bagtag("tools", "1")
    assert "Still out: 2 × lamp, rag." in out.splitlines()
    data = answer("tools", "1")
    assert [(one["name"], one["count"], one["out_by"]) for one in data["out"]] == [
        ("lamp", 2, "Ada"),
        ("rag", 1, "Ada"),
    ]
    assert data["cautions"] == []


def test_bad_input_is_one_sentence(bagtag, answer):
    answer("new", "Walking tractor")
    for arguments, status, said in (
        (("1", "--next", "0"), 2, "the next 1 to 999 steps"),
        (("1", "--area", "attic"), 1, "attic"),
        (("9",), 1, "9"),
    ):
        got, out, err = bagtag("tools", *arguments)
        assert (got, out, len(err.splitlines())) == (status, "", 1)
        assert said in err
