"""What a person says of a new part: prices in every hand, days, names."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.renewal_check import checked, currency, read_price
from tests.domain.renew_kit import part


@pytest.mark.parametrize(
    ("text", "price", "money"),
    [
        ("", None, ""),
        ("12", "12", ""),
        ("12,50", "12.50", ""),
        ("12.50 EUR", "12.50", "EUR"),
        ("€ 12,50", "12.50", "EUR"),
        ("12,50 €", "12.50", "EUR"),
        ("£3.20", "3.20", "GBP"),
        ("$4", "4", "$"),
        ("1.234,50", "1234.50", ""),
        ("1,234.50", "1234.50", ""),
        ("1 234,50", "1234.50", ""),
        ("1\u202f234,50 eur", "1234.50", "EUR"),
        ("1'234.50 CHF", "1234.50", "CHF"),
        ("1.234.567", "1234567", ""),
        ("0,125", "0.125", ""),
        ("12.-", None, None),
        ("1234,567", "1234.567", ""),
        ("12,", "12", ""),
        ("US$ 3", "3", "US$"),
        ("4.20 Euro", "4.20", "EUR"),
        ("35 kr.", "35", "KR."),
        ("12,50 zł", "12.50", "ZŁ"),
    ],
)
def test_a_price_as_people_write_it(text, price, money) -> None:
    if money is None:
        with pytest.raises(BadInput):
            read_price(text)
        return
    assert read_price(text) == (None if price is None else Decimal(price), money)


@pytest.mark.parametrize("text", ["1.234", "12,500", "999.999 EUR"])
def test_a_figure_that_could_be_a_thousand_is_asked_for_again(text) -> None:
    with pytest.raises(BadInput, match="could be") as caught:
        read_price(text)
    assert caught.value.field == "price"


@pytest.mark.parametrize(
    "text",
    [
        "-3",
        "=1+2",
        "ask",
        "12 / 13",
        "1,2,3",
        "12.5.0",
        "99999999",
        "about 140",
        "ca. 12",
        "12.50 each",
        "12 €/m",
    ],
)
def test_what_is_no_price_is_said(text) -> None:
    with pytest.raises(BadInput) as caught:
        read_price(text)
    assert caught.value.field == "price"


@given(
    st.decimals(0, 9_999_999, places=2),
    st.sampled_from([("", "."), ("", ","), (".", ","), (",", "."), (" ", ","), ("'", ".")]),
)
def test_a_price_reads_the_same_in_every_hand(price, marks) -> None:
    thousands, point = marks
    text = f"{price:,.2f}".replace(",", "_").replace(".", point).replace("_", thousands)
    assert read_price(text) == (price, "")


def test_signs_of_money_that_mean_one_currency_have_its_code() -> None:
    """ISO 4217, from memory."""
    assert [currency(sign) for sign in ("€", "£", "$", "chf")] == ["EUR", "GBP", "$", "CHF"]


def test_text_is_made_clean() -> None:
    clean = checked(part("  oil \u202e seal ", size=" 25 x 42 ", note="a\r\nb"))
    assert (clean.what, clean.size, clean.note) == ("oil seal", "25 x 42", "a\nb")


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"what": "  "}, "what"),
        ({"what": "x" * 201}, "what"),
        ({"count": 0}, "count"),
        ({"count": 10_000}, "count"),
        ({"price": Decimal("NaN")}, "price"),
        ({"price": Decimal("-1")}, "price"),
        ({"currency": "a great deal"}, "currency"),
        ({"ordered_on": date(2026, 11, 3), "due": date(2026, 11, 2)}, "due"),
    ],
)
def test_what_cannot_be_kept_is_said_at_its_field(fields, field) -> None:
    with pytest.raises(BadInput) as caught:
        checked(replace(part(), **fields))
    assert caught.value.field == field
