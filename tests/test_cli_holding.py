"""What is holding a job up, from a terminal."""

from datetime import date, timedelta


def test_what_to_chase_first_and_from_which_day(bagtag, answer):
    answer("demo")
    status, out, err = bagtag("holding", "1")
    assert (status, err) == (0, "")
    lines = out.splitlines()
    data = answer("holding", "1")
    assert lines[0] == f"{data['left'] - data['free']} of {data['left']} steps left are held up."
    chases = [held["chase"] for held in data["held"]]
    assert "late" in chases
    assert chases == sorted(chases, key=lambda chase: chase == "on its way")
    assert any("Ask Mill Lane Engineering: 2 days late." in line for line in lines)
    assert sum(len(rung["steps"]) for rung in data["days"]) == data["left"]
    assert data["last_day"] == (date.today() + timedelta(days=6)).isoformat()
    assert lines[-2] == f"No day known: {data['unknown']} steps"
    assert [line[2:].split("; ") for line in lines[-2 * len(data["days"]) + 1 :: 2]] == [
        rung["steps"] for rung in data["days"]
    ]


def test_a_job_that_nothing_holds_up(bagtag, answer):
    answer("new", "Walking tractor")
    assert bagtag("holding", "1") == (0, "Nothing holds this job up.\n", "")
