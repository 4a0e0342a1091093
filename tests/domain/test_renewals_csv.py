"""Order lists as tables: RFC 4180, other programs' files, and files that are not in order."""

import csv
from contextlib import suppress
from dataclasses import replace
from datetime import date
from decimal import Decimal
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain import renewal_csv
from bagtag.domain.clean import tidied
from bagtag.domain.errors import BadInput
from bagtag.domain.renewal_csv import COLUMNS, as_meant, harmless
from bagtag.domain.renewal_csv_form import table
from bagtag.domain.renewal_csv_read import CsvRow, read
from bagtag.domain.renewals import RenewLine
from tests.domain.renew_kit import part

FILES = Path(__file__).parent.parent / "check_values"
HEAD = "what,size,part number,count,supplier,price\n"


def rows_of(text: str, *, encoding: str = "utf-8") -> tuple[CsvRow, ...]:
    return read(text.encode(encoding)).rows


def trouble(text: str) -> str:
    (only,) = read(text.encode()).troubles
    return only


def records(text: str) -> list[list[str]]:
    return [cells for _, cells in table(text.encode()).records]


def written(*parts, delimiter: str = ",") -> bytes:
    return renewal_csv.write([(RenewLine(one), "a job") for one in parts], delimiter)


def test_the_examples_of_rfc_4180() -> None:
    """RFC 4180, section 2, points 1, 2 and 4 to 7; from memory."""
    assert records("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
    ]
    assert records("aaa,bbb,ccc\r\nzzz,yyy,xxx") == [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]
    assert records('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')[0] == ["aaa", "bbb", "ccc"]
    assert records('"aaa","b \r\nbb","ccc"\r\nzzz,yyy,xxx')[0] == ["aaa", "b \nbb", "ccc"]
    assert records('"aaa","b""bb","ccc"') == [["aaa", 'b"bb', "ccc"]]


def test_lines_end_in_cr_lf_and_the_header_comes_first() -> None:
    """RFC 4180, section 2, points 1 and 3."""
    data = written(part("seal", note="one\ntwo", price=Decimal("12.50"), currency="EUR"))
    assert data.startswith(b"\xef\xbb\xbfwhat,size,part number,count,supplier,price,currency")
    assert data.endswith(b"\r\n")
    assert data.count(b"\r\n") == 2
    assert b',"one\ntwo"\r\n' in data


@pytest.mark.parametrize(
    ("name", "delimiter", "encoding"),
    [
        ("order_list_semicolon.csv", ";", "UTF-8"),
        ("order_list_tab.csv", "\t", "UTF-8"),
        ("order_list_comma_1252.csv", ",", "Windows-1252"),
    ],
)
def test_a_file_that_a_spreadsheet_wrote(name, delimiter, encoding) -> None:
    """Three files that LibreOffice 7.4 wrote of one sheet: soffice --headless --convert-to
    "csv:Text - txt - csv (StarCalc):59,34,76,1" (semicolon, UTF-8), :9,34,76,1 and :44,34,1,1
    (Windows-1252)."""
    found = read((FILES / name).read_bytes())
    assert (found.delimiter, found.encoding, found.header) == (delimiter, encoding, True)
    seal, bolt, clip, jet = found.rows
    assert seal == CsvRow(
        2, "oil seal", "25x42x7", "S-25427", 2, "Mill Lane Stores", Decimal("12.50"), "EUR",
        note="lip to the oil",
    )  # fmt: skip
    assert (bolt.size, bolt.price) == ('3/8" UNC x 1 1/4"', Decimal("1234.50"))
    assert bolt.note == 'says "new each time";\nsee the manual'
    assert (clip.line, clip.what, clip.size) == (5, "circlip, gear 3", "Ø25 – thin")
    assert (clip.supplier, clip.price) == ("Dichtungen Mühlweg", Decimal("0.35"))
    assert (jet.size, jet.part_number) == ("=1+2", "=J")
    assert [said.partition(":")[0] for said in found.troubles] == ["Line 6"]


TEXT = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cf"]), max_size=20).map(tidied)
PARTS = st.lists(
    st.builds(
        part,
        TEXT.filter(bool)
        | st.sampled_from(["=1+2", "+1", "'-x", "@a", 'a"b', "a,b;c\td", "'", "'a"]),
        size=TEXT,
        part_number=TEXT,
        supplier=TEXT,
        count=st.integers(1, 9999),
        price=st.none() | st.decimals(0, 99_999, places=3),
        currency=st.sampled_from(["EUR", "GBP", "$"]),
        due=st.none() | st.dates(date(2020, 1, 1), date(2030, 1, 1)),
        note=TEXT,
    ),
    max_size=8,
)


@given(PARTS, st.sampled_from(",;\t"))
def test_what_is_written_reads_back_as_it_was(parts, delimiter) -> None:
    data = written(*parts, delimiter=delimiter)
    found = read(data)
    assert (found.header, found.delimiter if parts else delimiter) == (True, delimiter)
    assert [
        (r.what, r.size, r.part_number, r.supplier, r.count, r.price, r.currency, r.due, r.note)
        for r in found.rows
    ] == [
        (p.what, p.size, p.part_number, p.supplier, p.count, p.price, p.currency, p.due, p.note)
        for p in map(_clean, parts)
    ]


def _clean(one):
    return replace(one, what=tidied(one.what))


@given(PARTS, st.sampled_from(",;\t"))
def test_pythons_own_reader_sees_the_same_cells(parts, delimiter) -> None:
    text = written(*parts, delimiter=delimiter).decode("utf-8-sig")
    head, *rest = csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True)
    assert tuple(head) == COLUMNS
    assert [(row[0], row[3]) for row in rest] == [(harmless(p.what), str(p.count)) for p in parts]


@given(st.text(max_size=5) | st.from_regex(r"\A'*[=+\-@＝＋－＠]?.{0,3}\Z"))
def test_no_cell_reckons_and_none_is_changed(text) -> None:
    """OWASP, CSV Injection: the signs that begin a formula; from memory."""
    cell = harmless(text)
    assert cell[:1] not in tuple("=+-@\t\r\n＝＋－＠")
    assert as_meant(cell) == text


@pytest.mark.parametrize("mark", ",;\t")
@pytest.mark.parametrize("head", ["", "what,size,part number,count,supplier,price\n"])
def test_with_a_header_or_none_and_in_every_mark(mark, head) -> None:
    text = (head + "oil seal,25x42x7,S-1,2,Mill Lane,12.50\njet,,,1,,\n").replace(",", mark)
    found = read(text.encode())
    assert (found.header, found.delimiter, found.troubles) == (bool(head), mark, ())
    assert [(r.what, r.count, r.price) for r in found.rows] == [
        ("oil seal", 2, Decimal("12.50")),
        ("jet", 1, None),
    ]
    assert found.rows[0].part_number == "S-1"


def test_columns_may_come_in_any_order_and_be_left_out() -> None:
    (row,) = rows_of("No.;Qty;Description;Part no.;Colour\n1;3;jet;J-50;brass\n")
    assert (row.what, row.count, row.part_number) == ("jet", 3, "J-50")
    (row,) = rows_of("Part;No\njet;J-50\n")
    assert row.part_number == "J-50"
    (row,) = rows_of("jet")
    assert (row.what, row.count) == ("jet", None)


def test_a_decimal_comma_between_semicolons() -> None:
    (row,) = rows_of("oil seal;25x42x7;;1;Mill Lane;1.234,50\n")
    assert row.price == Decimal("1234.50")


def test_a_line_that_says_what_parts_the_cells_is_heard() -> None:
    found = read(b"sep=;\r\nwhat;count\r\nseal, small;x\r\n")
    assert found.delimiter == ";"
    assert found.troubles[0].startswith("Line 3: the count")


@pytest.mark.parametrize(
    ("data", "encoding"),
    [
        ("\ufeffjet Ø1\n".encode(), "UTF-8"),
        ("jet Ø1\n".encode(), "UTF-8"),
        ("jet Ø1\n".encode("cp1252"), "Windows-1252"),
        ("jet Ø1\n".encode("utf-16"), "UTF-16"),
        ("ï»¿jet Ø1\n".encode(), "UTF-8"),
    ],
)
def test_letters_are_read_as_they_were_meant(data, encoding) -> None:
    found = read(data)
    assert (found.encoding, found.rows[0].what) == (encoding, "jet Ø1")


def test_letters_that_no_table_has_are_told() -> None:
    found = read(b"jet\nseal \x81\xd8\n")
    assert found.encoding == "Windows-1252"
    assert found.troubles == ("Line 2: some letters cannot be read. Save the file as UTF-8.",)


@pytest.mark.parametrize("data", [b"PK\x03\x04rest", b"%PDF-1.7", b"\x00\x01\x02"])
def test_a_file_that_is_no_table_is_said(data) -> None:
    with pytest.raises(BadInput, match="Save the sheet as CSV"):
        read(data)


@pytest.mark.parametrize("data", [b"", b"\n\n", b" , ,\r\n", b"\xef\xbb\xbf"])
def test_a_file_with_nothing_in_it_is_said(data) -> None:
    with pytest.raises(BadInput, match="no line in it"):
        read(data)


def test_a_quotation_mark_that_never_closes_is_named_by_its_line() -> None:
    with pytest.raises(BadInput, match="line 3 is never closed"):
        read((HEAD + 'jet,,,1,,\n"seal,,,1,,\n' + "ring,,,1,,\n" * 50).encode())
    with pytest.raises(BadInput, match="line 2 is never closed"):
        read((HEAD + '"seal,,,1,,\n' + "ring,,,1,,\n" * 200_000).encode())


def test_a_quotation_mark_that_is_not_doubled_is_told_and_read() -> None:
    found = read((HEAD + '"3/8" bolt",,,2,,\nring,,,1,,\n').encode())
    assert found.troubles[0].startswith("Line 2: a quotation mark inside a cell")
    assert [(row.what, row.count) for row in found.rows] == [('3/8 bolt"', 2), ("ring", 1)]


def test_inches_in_a_bare_cell_are_no_quotation() -> None:
    (row,) = rows_of(HEAD + 'bolt,3/8" x 1",,2,,\n')
    assert row.size == '3/8" x 1"'


def test_each_kind_of_trouble_is_one_sentence_with_its_lines() -> None:
    found = read(
        (
            HEAD + "jet,,,none,,\n,25,,1,,\nseal,,,0,,\nring,,,2,,ask\nnut,,,3,,1.234\n"
            "pin,,,1e3,,\nkey,,,-1,,\n" + "x" * 201 + ",,,1,,\n"
        ).encode()
    )
    assert [(row.what, row.count, row.price) for row in found.rows] == [
        ("ring", 2, None),
        ("nut", 3, None),
    ]
    assert [said.partition(":")[0] for said in found.troubles] == [
        "Lines 2, 4, 7, 8",
        "Line 3",
        "Lines 5, 6",
        "Line 9",
    ]


def test_counts_as_people_write_them() -> None:
    text = HEAD + "".join(
        f"jet,,,{said},,\n" for said in ("4", "4.0", '"4,0"', "4 pcs", "4x", "4 off")
    )
    assert [row.count for row in rows_of(text)] == [4] * 6


def test_a_cell_that_would_reckon_is_text_and_told() -> None:
    assert trouble(HEAD + "=1+2,,,1,,\n").startswith("Line 2: a cell begins as a formula")
    assert rows_of(HEAD + "=1+2,,,1,,\n")[0].what == "=1+2"
    assert trouble(HEAD + "jet,,,1,,=1+2\n").startswith("Line 2: the price")
    assert trouble(HEAD + "jet,,,=1+2,,\n").startswith("Line 2: the count")


def test_a_hundred_thousand_lines() -> None:
    body = "".join(f"jet {n},,J-{n},{n % 9999 + 1},Mill Lane,1.5\n" for n in range(100_000))
    found = read((HEAD + body).encode())
    assert (len(found.rows), found.rows[-1].line, found.troubles) == (100_000, 100_001, ())


def test_a_hundred_thousand_wrong_lines_are_one_sentence() -> None:
    assert trouble(HEAD + ",,,1,,\n" * 100_000).startswith("Lines 2–11 and 99,990 more: ")


def test_a_file_beyond_all_measure_is_refused() -> None:
    with pytest.raises(BadInput, match="100 MB"):
        read(b"a" * 100_000_001)


@given(st.binary(max_size=200))
def test_any_file_is_read_or_refused(data) -> None:
    """Anything but BadInput that is raised fails."""
    with suppress(BadInput):
        assert all(row.what for row in read(data).rows)
