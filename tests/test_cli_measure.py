"""Measuring from a terminal: a bore read and decided, shims swapped, a ratio before and after."""

from datetime import date

import pypdfium2
import pytest

from bagtag.cli_measure_data import MANUAL

PLACES = ("76,31", "76.24 mm", "76.20", "76.18", "76.10", "76.09")


@pytest.fixture
def bore(bagtag, answer):
    """A bore sheet with its limits and what is given."""
    answer("new", "Walking tractor", "--for", "engine")
    answer("log", "1", "cylinder, decide")
    answer("measure", "new", "1", "bore", "--part", "1")
    bagtag("measure", "limit", "1", "size", "--new-low", "76", "--new-high", "76.03",
           "--wear-high", "76,20")  # fmt: skip
    bagtag("measure", "give", "1", "standard", "76")
    bagtag("measure", "give", "1", "oversizes", "0.25", "0.50")


def test_a_bore_is_read_judged_and_decided(bagtag, answer, bore):
    answer("measure", "instruments", "--add", "bore gauge", "--step", "0.01 mm",
           "--calibrated", date.today().isoformat())  # fmt: skip
    for number, figure in enumerate(PLACES, start=1):
        status, out, err = bagtag(
            "measure", "read", "1", str(number), figure, "--with", "bore gauge"
        )
        assert (status, err) == (0, "")
        assert out.splitlines()[-1] == MANUAL
    status, out, _ = bagtag("measure", "show", "1")
    lines = out.splitlines()
    assert status == 1
    assert lines[0] == "sheet 1, bore of 1 cylinder"
    assert lines[1] == "  1  top, across: 76.31 mm, bore gauge"
    assert any(
        line.startswith("  bore 76.31 mm") and "out of limits by 0.11" in line for line in lines
    )
    assert any(line.startswith("! Rebore to 76.50 mm") for line in lines)
    status, out, err = bagtag("measure", "decide", "1", "refit")
    assert (status, out) == (2, "")
    assert "Say why it is refitted" in err
    status, out, _ = bagtag("measure", "list", "1")
    assert status == 1
    assert out.splitlines()[:2] == [
        "1 cylinder",
        "  sheet 1  bore: worn: bore 76.31 mm, 76 to 76.20",
    ]
    data_of = bagtag("measure", "decide", "1", "refit", "--work", "rebore to 76.50", "--json")[1]
    assert '"decided": "decided' in data_of
    (row,) = answer("measure", "list", "1")
    assert (row["part"], row["sheets"][0]["decided"]) == ("1 cylinder", "refit")


def test_its_page_is_written_for_the_bench(bagtag, bore, tmp_path):
    page = tmp_path / "bore.pdf"
    status, out, err = bagtag("measure", "show", "1", "--pdf", str(page))
    assert (status, err) == (0, "")
    assert out.splitlines()[0] == "sheet 1, bore of 1 cylinder"
    with pypdfium2.PdfDocument(page) as document:
        assert "1 cylinder" in document[0].get_textpage().get_text_bounded()
    status, out, err = bagtag("measure", "show", "9", "--pdf", str(tmp_path / "no.pdf"))
    assert (status, out, err.count("\n")) == (1, "", 1)
    assert not (tmp_path / "no.pdf").exists()


def test_what_cannot_be_is_one_sentence(bagtag, bore):
    for arguments, status, said in (
        (("read", "1", "9", "76.2"), 2, "no place called 9"),
        (("read", "1", "1", "76.2.1"), 2, "cannot be read as one figure"),
        (("read", "1", "1", "76.2", "--with", "ruler"), 1, "No instrument is called ruler"),
        (("show", "7"), 1, "no longer in the store"),
        (("new", "1", "gap"), 1, "There are: size; bore"),
        (("limit", "1", "size", "--new-low", "77", "--new-high", "76"), 2, "the wrong way round"),
        (("limit", "1", "size", "--new-low", "3 in", "--new-high", "76"), 2, "in one unit"),
        (("limit", "1", "size", "--new-low", "76 kg"), 2, "not a unit that fits here"),
        (("give", "1", "standard", "76 cc"), 2, "not a unit that fits here"),
        (("shims", "1 inlet=0.30/2.40", "--inlet", "0.22"), 2, "Write it like 0.18-0.22"),
        (("shims", "1 inlet=0.30/2.40", "--made", "2-3"), 2, "Write it like 2.00-2.98/0.02"),
        (("decide", "1", "burn"), 2, "refit, renew, decide, scrap"),
        (("shims", "1 inlet 0.30"), 2, "1 inlet=0.30/2.40"),
        (("shims", "1 inlet=0.30/2.40", "--made", "2-298/0.02"), 0, ""),
    ):
        got, _, err = bagtag("measure", *arguments)
        assert (got, len(err.splitlines())) == (status, int(bool(said))), arguments
        assert said in err


def test_limits_and_givens_may_be_typed_in_inches(bagtag, answer, bore):
    answer("measure", "limit", "1", "taper", "--wear-high", "0.002 in")
    answer("measure", "give", "1", "oversizes", "0.010in", '0.020"')
    for number in range(1, 7):
        found = answer("measure", "read", "1", str(number), "76.29" if number == 1 else "76.24")
    said = [one["said"] for one in found["figures"]]
    assert "taper 0.05 mm, at most 0.002 in: within limits, 0.0008 mm to spare" in said
    assert any(one.startswith("Rebore to 76.508 mm (+0.508)") for one in found["advice"])


def test_shims_are_swapped_before_one_is_bought(bagtag, answer):
    """N = R + (M - V), the middle of the range wanted; see tests/check_values/shims.json."""
    arguments = ("shims", "1 inlet=0,30/2.40", "1 exhaust=0.10/2.50", "--inlet", "0.18-0.22",
                 "--exhaust", "0.18-0.22", "--made", "2.00-2.98/0.02")  # fmt: skip
    found = answer("measure", *arguments)
    assert (found["plan"]["to_buy"], found["plan"]["saved"]) == ([], 2)
    assert [move["source"] for move in found["plan"]["moves"]] == [
        "swapped from 1 exhaust",
        "swapped from 1 inlet",
    ]
    out = bagtag("measure", *arguments)[1]
    assert "! Buy none; swapping saves 2 shims." in out.splitlines()


def test_four_valves_to_a_cylinder_are_told_apart(answer):
    read = ("1 inlet a=0.20/2.4", "1 inlet b=0.20/2.4", "1 exhaust=0.2/2.4")
    ranges = ("--inlet", "0.18-0.22", "--exhaust", "0.18-0.22")
    found = answer("measure", "shims", *read, *ranges)
    assert [move["source"] for move in found["plan"]["moves"]] == ["stays"] * 3
    assert found["advice"] == ["Every clearance is in its range: every shim stays."]


def test_displacement_and_ratio_before_and_after_a_rebore(bagtag, answer):
    """100 by 83 mm are 651.88 cm³ (article on displacement, tests/check_values/volumes.json)."""
    found = answer("measure", "ratio", "--bore", "100", "--stroke", "83", "--chamber", "72.4")
    assert [figure["value"] for figure in found["figures"]] == ["651.88", "10.004"]
    status, out, _ = bagtag(
        "measure", "ratio", "--bore", "76", "--stroke", "80", "--chamber", "48", "--rebore", "76,50"
    )
    assert status == 0
    assert "! Bored from 76 to 76.50 mm: 362.92 to 367.71 cm³, ratio 8.561 to 8.661." in out
