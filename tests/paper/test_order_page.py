"""The order list: each supplier on pages of its own, with what one orders by."""

import io
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag.domain.cautions import MANUAL
from bagtag.domain.errors import BadInput
from bagtag.domain.renewal_merge import Merged, SupplierList
from bagtag.domain.renewal_words import NO_SUPPLIER
from bagtag.paper.block_marks import Frame
from bagtag.paper.checklist_page import FOOT, TOP
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.order_page import NOTHING, order_pdf, pages_of
from bagtag.paper.order_row import money, row
from tests.paper.checklist_kit import joined

HEADER = ChecklistHeader("Walking tractor, engine smokes", date(2026, 11, 25), "J. Example")
SEAL = Merged(
    "shaft seal",
    "25x42x7",
    "9-0815",
    2,
    Decimal("4.2"),
    "EUR",
    ("15 shaft seal (step 12)", "22 seal"),
)
GASKET = Merged("head gasket", "", "", 1, None, "", ("41 head gasket (step 5)",))
HOUSE = SupplierList("Bearing House", (SEAL, GASKET), (("EUR", Decimal("8.4")),), 1)
NOBODY = SupplierList("", (GASKET,), (), 1)


def printed(*lists):
    into = io.BytesIO()
    return order_pdf(into, HEADER, lists), into.getvalue()


def test_each_supplier_has_its_own_page(words):
    count, pdf = printed(HOUSE, NOBODY)
    first, second = map(joined, words(pdf))
    assert count == 2
    for wanted in (
        "to Bearing House",
        "2 lines, 3 pieces",
        "Shaft seal, 25x42x7",
        "part number 9-0815",
        "for 15 shaft seal (step 12); 22 seal",
        "4.20 EUR 8.40 EUR",
        "Sum of the lines that have a price 8.40 EUR",
        "1 line has no price yet: ask.",
        "J. Example",
        MANUAL,
    ):
        assert wanted in first, wanted
    assert NO_SUPPLIER in second
    assert "Shaft seal" not in second


def test_each_line_has_a_box_for_ordered_and_one_for_here():
    assert [len([m for m in row(one).marks if isinstance(m, Frame)]) for one in HOUSE.lines] == [
        2,
        2,
    ]


def test_a_list_whose_lines_all_have_a_price_has_a_plain_sum(words):
    whole = replace(HOUSE, lines=(SEAL,), unpriced=0)
    said = joined(words(printed(whole)[1])[0])
    assert "Sum 8.40 EUR" in said
    assert "no price" not in said


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("4.2", "4.20 EUR"),
        ("1E+2", "100.00 EUR"),
        ("0.0125", "0.0125 EUR"),
        ("1234567.89", "1234567.89 EUR"),
        ("0", "0.00 EUR"),
    ],
)
def test_money_keeps_all_that_was_said(value, said):
    assert money(Decimal(value), "EUR") == said
    assert money(None, "EUR") == ""


def test_nothing_to_order_says_so(words):
    count, pdf = printed()
    assert count == 1
    assert NOTHING in joined(words(pdf)[0])


@given(st.lists(st.integers(1, 60), min_size=1, max_size=80))
@settings(max_examples=40)
def test_no_page_overflows_and_the_columns_are_named_on_each(lengths):
    lines = tuple(
        Merged("bolt " * size, "M8", "9 " * size, 1, None, "", ("12 cover",) * size)
        for size in lengths
    )
    pages = list(pages_of(HEADER, SupplierList("Bolts", lines)))
    for number, page in enumerate(pages):
        assert sum(block.height for block in page) <= TOP - FOOT + 1e-6
        assert not page[-1].heading
        assert page[0].heading or number == 0
    rows = [block for page in pages for block in page if block.rule]
    assert rows == [row(line) for line in lines]


def test_a_list_that_cannot_be_written_is_one_sentence(tmp_path):
    with pytest.raises(BadInput, match="cannot be written"):
        order_pdf(tmp_path / "no" / "list.pdf", HEADER, [HOUSE])
