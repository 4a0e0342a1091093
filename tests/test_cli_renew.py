"""What is renewed and what is to be bought, from a terminal."""

import csv
from io import StringIO

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.model import Fate
from bagtag.store.work import Store


def a_job(answer, tmp_path) -> None:
    """One job with two rings to renew, and a gasket that may have to be."""
    answer("new", "Walking tractor")
    store = Store.in_folder(tmp_path / "store")
    for entry in (
        Entry("ring", quantity=2, fate=Fate.RENEW),
        Entry("cover gasket"),
    ):
        services.strip.log_removal(store, 1, entry, who="Ada")
    store.close()


def test_the_lines_in_text_and_in_json(bagtag, answer, tmp_path):
    a_job(answer, tmp_path)
    status, out, err = bagtag("renew", "1")
    assert (status, err) == (0, "")
    assert out.splitlines()[:4] == [
        "No supplier yet",
        "  2 × ring: wanted, for step 2, 1 ring; compare them with the old ones on the bench",
        "To think about",
        "  1 × cover gasket: renewed whenever it has been off. "
        "It is crushed once and does not seal a second time.",
    ]
    data = answer("renew", "1")
    ring, gasket = data["lines"]
    assert (ring["what"], ring["count"], ring["state"], ring["for"]) == (
        "ring",
        2,
        "wanted",
        "1 ring",
    )
    assert (ring["is_suggestion"], gasket["is_suggestion"]) == (False, True)
    assert data["read"] is data["file"] is None


def test_a_table_out_and_in_again(bagtag, answer, tmp_path):
    a_job(answer, tmp_path)
    file = tmp_path / "orders.csv"
    _, out, _ = bagtag("renew", "1", "--csv", str(file), "--parted-by", "semicolon")
    assert out.splitlines()[-1] == f"The list is in {file}."
    table = StringIO(file.read_bytes().decode("utf-8-sig"), newline="")
    head, *rows = csv.reader(table, delimiter=";")
    assert (head[0], rows[0][0], rows[0][3]) == ("what", "ring", "2")
    file.write_text("ring,,R-1,3,Mill Lane,1.50 EUR\njet,,,none,,\nrags,,,1,,\n")
    status, out, err = bagtag("renew", "1", "--read", str(file), "--try")
    said = "Nothing is written yet. It would be: 1 added, 1 changed, 0 as they were."
    assert (status, out.splitlines()[0]) == (0, said)
    assert err.startswith("Line 2: the count is no whole number")
    assert len(answer("renew", "1")["lines"]) == 2
    _, out, _ = bagtag("renew", "1", "--read", str(file))
    assert out.splitlines()[:3] == [
        "1 added, 1 changed, 0 as they were.",
        "Mill Lane",
        "  3 × ring: wanted, for step 2, 1 ring; compare them with the old ones on the bench",
    ]


def test_the_order_list_of_several_jobs(bagtag, answer, tmp_path):
    a_job(answer, tmp_path)
    answer("new", "Pump")
    file = tmp_path / "orders.csv"
    file.write_text("ring,,,1,Mill Lane,1.50 EUR\n")
    for job in ("1", "2"):
        bagtag("renew", job, "--read", str(file))
    status, out, err = bagtag("orders", "1", "2")
    assert (status, err) == (0, "")
    assert out.splitlines() == [
        "Mill Lane",
        "  2 × ring, 1.50 EUR each: job 1: 1 ring (step 2), job 2",
        "  together 3.00 EUR",
    ]
    (supplier,) = answer("orders", "1", "2")["suppliers"]
    assert supplier["total"] == {"EUR": "3.00"}
    assert supplier["lines"][0]["for"] == ["job 1: 1 ring (step 2)", "job 2"]
    pdf = tmp_path / "orders.pdf"
    _, out, _ = bagtag("orders", "1", "2", "--pdf", str(pdf))
    assert (out.splitlines()[-1], pdf.read_bytes()[:4]) == (f"The list is in {pdf}.", b"%PDF")


def test_nothing_to_renew(bagtag, answer):
    answer("new", "Pump")
    assert bagtag("renew", "1") == (0, "Nothing is to be renewed.\n", "")
    assert bagtag("orders", "1") == (0, "Nothing is to be ordered.\n", "")
    assert answer("orders", "1", "--all") == {"suppliers": [], "file": None}


def test_bad_input_is_one_sentence(bagtag, answer, tmp_path):
    answer("new", "Pump")
    file = tmp_path / "orders.csv"
    for arguments, status, said in (
        (("renew", "9"), 1, "9"),
        (("renew", "1", "--read", str(file)), 2, "cannot be read"),
        (("renew", "1", "--csv", str(file), "--parted-by", "dot"), 2, "comma, semicolon, tab"),
        (("orders", "1", "9"), 1, "9"),
    ):
        got, out, err = bagtag(*arguments)
        assert (got, out, err.count("\n")) == (status, "", 1)
        assert said in err
