"""The build and its close from a terminal."""

import json


def test_the_checklist_of_one_area_and_the_closing_count(answer, bagtag, tmp_path):
    answer("demo")
    whole, one = tmp_path / "whole.pdf", tmp_path / "clutch.pdf"
    assert bagtag("build", "1", "--pdf", str(whole), "--by-area")[0] == 0
    assert bagtag("build", "1", "--pdf", str(one), "--area", "clutch")[0] == 0
    assert 0 < one.stat().st_size < whole.stat().st_size
    status, _, err = bagtag("build", "1", "--pdf", str(one), "--area", "attic")
    assert (status, "No area is called attic. There are: outside" in err) == (1, True)
    status, out, _ = bagtag("close", "1", "--json")
    count = json.loads(out)
    assert (status, count["adds_up"]) == (1, False)
    pieces = count["pieces"]
    done = sum(pieces[word] for word in ("back", "renewed", "scrapped", "left"))
    assert pieces["off"] == done
    assert any("cylinder barrel" in line["sentence"] for line in count["open"])
    status, out, _ = bagtag("close", "1")
    assert (status, out.splitlines()[-1]) == (1, "The job is not closed yet.")
