"""Parts sent away, listed and checked in from a terminal."""

from datetime import date, timedelta

import pypdfium2
import pytest

PROMISED = (date.today() + timedelta(9)).isoformat()


@pytest.fixture
def sent(answer):
    """A job with a batch out: a barrel, and the jets that the shop takes off it."""
    answer("new", "Walking tractor")
    for line in ("cover", "cylinder barrel", "crankshaft"):
        answer("log", "1", line)
    return answer(
        *("away", "send", "1", "2", "--shop", "Mill Lane", "--work", "Rebore and hone."),
        *("--promised", PROMISED, "--price", "140,50", "--currency", "EUR"),
        *("--takes", "2: 3 oil jets", "--wants", "2: bore 76.50 to 76,52 mm"),
    )


def test_a_batch_goes_and_is_listed(sent, bagtag, answer):
    assert (sent["number"], sent["price"], sent["promised"]) == (1, "140.50", PROMISED)
    barrel, jets = sent["parts"]
    assert (barrel["name"], jets["name"], jets["quantity"]) == ("cylinder barrel", "oil jets", 3)
    assert jets["off_at_the_shop"]
    (wanted,) = barrel["wanted"]
    assert (wanted["name"], wanted["unit"]) == ("bore", "mm")
    assert (wanted["low"], wanted["high"]) == (76.5, 76.52)
    status, out, err = bagtag("away", "list", "1")
    assert (status, err) == (0, "")
    assert out.splitlines() == [
        f"{sent['code']}  send-out 1, Mill Lane, out {date.today()}, promised for {PROMISED}",
        f"  [ ] {barrel['code']}  2 cylinder barrel: Rebore and hone.",
        "      wanted: bore, 76.50 to 76.52 mm",
        f"  [ ] {jets['code']}  1a oil jets (3), the shop took it off",
    ]
    assert answer("away", "list", "1") == [sent]


def test_its_traveller_is_written_by_number_and_by_code(sent, bagtag, answer, tmp_path):
    for which in ("1", sent["code"].lower()):
        done = answer("away", "traveller", "1", which, "-o", str(tmp_path / "sheet.pdf"))
        assert (done["send_out"], done["pages"]) == ("send-out 1, Mill Lane", 1)
        with pypdfium2.PdfDocument(tmp_path / "sheet.pdf") as document:
            said = document[0].get_textpage().get_text_bounded()
        assert sent["code"] in said
        assert "76.50 to 76.52 mm" in said
    status, out, err = bagtag("away", "traveller", "1", "7", "-o", str(tmp_path / "no.pdf"))
    assert (status, out) == (1, "")
    assert err == "This job has no send-out 7. There is: send-out 1, Mill Lane.\n"
    assert not (tmp_path / "no.pdf").exists()


@pytest.mark.parametrize(
    ("typed", "low", "high", "said"),
    [
        ("taper at most 0,010 mm", None, 0.01, "taper, at most 0.010 mm"),
        ("wall at least 4.5 mm", 4.5, None, "wall, at least 4.5 mm"),
        ("bore to 76.5 to 76.52 mm", 76.5, 76.52, "bore to, 76.50 to 76.52 mm"),
        ("length: 180.00 mm", 180, 180, "length, 180.00 mm"),
    ],
)
def test_a_figure_wanted_is_read_with_its_side_and_said_as_written(
    sent, bagtag, answer, typed, low, high, said
):
    batch = answer("away", "send", "1", "3", "--shop", "The grinder", "--wants", f"3: {typed}")
    (wanted,) = batch["parts"][0]["wanted"]
    assert (wanted["low"], wanted["high"]) == (low, high)
    assert f"      wanted: {said}" in bagtag("away", "list", "1")[1].splitlines()


def test_what_came_off_first_and_what_the_shop_takes_off_later_is_on_it(sent, bagtag, answer):
    answer("away", "send", "1", "3", "--shop", "The grinder", "--off", "3: 1")
    whole = answer("away", "took", "1", "3", "2 x oilway plugs")
    shaft, plugs = whole["parts"]
    assert shaft["taken_off_first"] == ["1 cover"]
    assert (plugs["name"], plugs["quantity"], plugs["off_at_the_shop"]) == ("oilway plugs", 2, True)
    assert bagtag("away", "took", "1", "3", "oilway plugs")[1].count("oilway plugs (3)") == 1


def test_what_is_away_lies_at_its_shop(sent, bagtag):
    barrel = sent["parts"][0]["code"]
    lines = bagtag("where", barrel)[1].splitlines()
    assert f"  away at Mill Lane, promised for {PROMISED}" in lines
    assert "  lies on the bench" not in lines


def test_its_code_leads_to_it(sent, answer):
    (found,) = answer("where", sent["code"])
    assert (found["leads_to"], found["send_out"]) == ("send-out", sent)


def test_what_is_back_is_checked_in_and_what_speaks_against_it_is_said(sent, bagtag, answer):
    barrel = sent["parts"][0]["code"]
    looked = ("--looked", "work done", "--looked", "plugs out")
    status, out, _ = bagtag("away", "back", "1", barrel, *looked, "--measured", "2: bore 76,55")
    assert status == 0
    assert out.splitlines() == [
        "2 cylinder barrel is back.",
        "2 cylinder barrel is still to be looked at: debris and threads clean.",
        "2 cylinder barrel: bore 76.55 mm is above 76.52.",
        "Send 2 cylinder barrel out again, or leave it to be decided.",
        "Still away: 1a oil jets.",
    ]
    (batch,) = answer("away", "list", "1")
    first, second = batch["parts"]
    assert first["checks"] == ["work done", "plugs out"]
    assert [figure["value"] for figure in first["measured"]] == [76.55]
    assert (bool(first["back_at"]), second["back_at"]) == (True, None)
    last = answer("away", "back", "1", "1a")
    assert last["against"] == ["1a oil jets is still to be looked at: debris and threads clean."]
    assert last["still_away"] == []
    assert ", all back" in bagtag("away", "list", "1")[1]


def test_what_is_late_is_told_over_all_jobs(sent, bagtag, answer):
    assert answer("away", "late") == []
    assert bagtag("away", "late")[1] == "Nothing is late.\n"
    gone = [(date.today() - timedelta(days)).isoformat() for days in (20, 3)]
    answer(
        "away", "send", "1", "3", "--shop", "The grinder", "--out", gone[0], "--promised", gone[1]
    )
    (late,) = answer("away", "late")
    assert (late["called"], late["days"], late["promised"]) == (
        "send-out 2, The grinder",
        3,
        gone[1],
    )
    assert bagtag("away", "late")[1].startswith("send-out 2, The grinder: 3 days late, promised")


@pytest.mark.parametrize(
    ("arguments", "status", "said"),
    [
        (("send", "1", "2", "--shop", "Mill Lane"), 2, "2 cylinder barrel is away already"),
        (("send", "1", "1", "--shop", " "), 2, "which shop"),
        (("send", "1", "1", "--shop", "A", "--promised", "soon"), 2, "soon is no day"),
        (("send", "1", "1", "--shop", "A", "--promised", "2020-01-01"), 2, "before it goes out"),
        (("send", "1", "1", "--shop", "A", "--price", "dear"), 2, "dear is no figure"),
        (("send", "1", "1", "--shop", "A", "--takes", "jets"), 2, "say of which part"),
        (("send", "1", "1", "--shop", "A", "--takes", "3: jets"), 2, "not among the parts named"),
        (("send", "1", "1", "--shop", "A", "--wants", "1: bore"), 2, "bore is no figure"),
        (("send", "1", "77", "--shop", "A"), 1, "No line of this job has the number 77"),
        (("back", "1", "1"), 2, "1 cover is not away"),
        (("back", "1", "2", "--measured", "2: height 3"), 2, "Wanted: bore"),
        (("back", "1", "2", "--measured", "2: bore 3.012 in"), 2, "was wanted in mm"),
        (("send", "1", "1", "--shop", "A", "--wants", "1: bore at most 1 to 2"), 2, "no figure"),
        (("send", "1", "1", "--shop", "A", "--wants", "1: bore 2.10 to 2.0"), 2, "2.10 is above"),
        (("send", "1", "1", "--shop", "A", "--off", "1: 1"), 2, "cannot be taken off itself"),
        (("took", "1", "1", "jet"), 2, "1 cover is not away"),
        (("took", "1", "2", " "), 2, "Say what the shop takes off"),
        (("list", "9"), 1, "9"),
    ],
)
def test_bad_input_is_one_sentence_and_nothing_is_kept(
    sent, bagtag, answer, arguments, status, said
):
    got, out, err = bagtag("away", *arguments)
    assert (got, out, err.count("\n")) == (status, "", 1)
    assert said in err
    assert answer("away", "list", "1") == [sent]
