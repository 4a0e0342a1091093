"""What a person says of a batch before it goes: taken clean, or one sentence says what is wrong."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked
from bagtag.domain.model import Away, Fate, Removal
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import PackForm, ShopPart, Wanted
from bagtag.domain.sending_check import (
    check_pack,
    check_wanted,
    kept_here,
    price_of,
    read_shop_part,
)

TODAY = date(2026, 11, 25)
FORM = PackForm(
    "Mill Lane Engineering", TODAY, TODAY + timedelta(9), price="140,50", currency="EUR"
)


def test_a_form_is_taken_with_its_text_made_clean():
    said = replace(FORM, shop="  Mill   Lane ", work="rebore \r\n hone ", contact="\u202eAda")
    clean = check_pack(said, TODAY)
    assert (clean.shop, clean.work, clean.contact) == ("Mill Lane", "rebore\nhone", "Ada")


@pytest.mark.parametrize(
    ("wrong", "field", "said"),
    [
        ({"shop": "  "}, "shop", "which shop"),
        ({"promised": TODAY - timedelta(1)}, "promised", "before it goes out"),
        ({"out_on": date(2025, 11, 1), "promised": None}, "out_on", "more than a year"),
        ({"out_on": date(2062, 11, 25), "promised": None}, "out_on", "more than a year"),
        ({"promised": date(2062, 12, 4)}, "promised", "more than three years"),
        ({"price": "about 140"}, "price", "is no figure"),
        ({"price": "1,400.50"}, "price", "without thousands"),
        ({"price": "-5"}, "price", "below zero"),
        ({"price": "1.400"}, "price", "could be 1400 or 1.400"),
        ({"currency": "euros and cents"}, "currency", "Shorten it"),
        ({"work": "x" * 5001}, "work", "Shorten it"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(wrong, field, said):
    with pytest.raises(BadInput, match=said) as caught:
        check_pack(replace(FORM, **wrong), TODAY)
    assert caught.value.field == field


@given(st.dates(), st.dates(), st.dates())
def test_no_batch_is_promised_before_it_goes(out_on, promised, today):
    try:
        clean = check_pack(replace(FORM, out_on=out_on, promised=promised), today)
    except BadInput:
        return
    assert clean.out_on <= clean.promised
    assert abs((clean.out_on - today).days) <= 366


def test_the_day_it_goes_may_be_the_day_it_is_promised_for():
    same = replace(FORM, promised=TODAY)
    assert check_pack(same, TODAY) == same


@pytest.mark.parametrize(
    ("typed", "price"),
    [("140,50", Decimal("140.50")), (" 140.5 ", Decimal("140.5")), ("0", Decimal(0)), ("", None)],
)
def test_a_price_has_a_comma_or_a_point(typed, price):
    assert price_of(typed) == price


def test_what_is_wanted_is_taken_clean_and_each_off_once():
    (clean,) = check_wanted(
        [
            Wanted(
                4,
                " rebore ",
                (Asked("  bore  ", " mm ", 76.5, 76.52),),
                (7, 8, 7),
                (ShopPart(" oil  jet ", 3),),
            )
        ]
    )
    assert clean == Wanted(
        4, "rebore", (Asked("bore", "mm", 76.5, 76.52),), (7, 8), (ShopPart("oil jet", 3),)
    )


@pytest.mark.parametrize(
    ("wanted", "field", "said"),
    [
        ([], "removals", "at least one part"),
        ([Wanted(4, off=(4,))], "off", "off itself"),
        ([Wanted(4, by_shop=(ShopPart(" "),))], "by_shop", "what the shop takes off"),
        ([Wanted(4, by_shop=(ShopPart("jet", 0),))], "by_shop", "How many of jet"),
        ([Wanted(4, by_shop=(ShopPart("jet"), ShopPart("Jet")))], "by_shop", "named twice"),
        ([Wanted(4, asks=(Asked("bore", "mm", 76.52, 76.5),))], "asks", "wrong way round"),
    ],
)
def test_what_cannot_be_wanted_is_said(wanted, field, said):
    with pytest.raises(BadInput, match=said) as caught:
        check_wanted(wanted)
    assert caught.value.field == field


WORD = st.text(st.characters(categories=("L",)), min_size=1, max_size=8)
NAMES = st.lists(WORD, min_size=1, max_size=3).filter(lambda words: words[0] not in ("x", "X"))
"""A lone x before a name is a times sign."""


@given(NAMES.map(" ".join), st.integers(1, 9999))
def test_a_count_and_a_name_are_read_as_they_are_written(name, count) -> None:
    assert read_shop_part(f" {count}  {name} ") == ShopPart(name, count)
    assert read_shop_part(f"{count} x {name}") == ShopPart(name, count)


@pytest.mark.parametrize(
    ("typed", "said"), [("  ", "Say what the shop takes off"), ("0 jets", "How many jets?")]
)
def test_nothing_and_none_are_said(typed, said) -> None:
    with pytest.raises(BadInput, match=said.replace("?", ".")):
        read_shop_part(typed)


PART = Removal(5, "u", 1, "12", 1, "cylinder barrel")
AWAY = Away(3, 5, "Mill Lane", "", datetime(2026, 11, 25, 12, tzinfo=UTC))
BATCH = SendOut(1, "u", 1, 2, "Mill Lane", TODAY)


@pytest.mark.parametrize(
    ("part", "time", "whole", "is_fitted", "said"),
    [
        (PART, None, None, False, ""),
        (PART, AWAY, BATCH, False, "is away already, with send-out 2, Mill Lane."),
        (PART, AWAY, None, False, "is away already, at Mill Lane."),
        (PART, None, None, True, "is in already."),
        (replace(PART, fate=Fate.SCRAP), None, None, False, "is scrapped."),
    ],
)
def test_a_part_that_cannot_go_says_why(part, time, whole, is_fitted, said) -> None:
    found = kept_here(part, time, whole, is_fitted=is_fitted)
    assert found.startswith(f"12 cylinder barrel {said}") if said else found == ""
