"""Days as one types them, read as the day that is meant."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.typed_days import Lies, typed_day

TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("", None),
        ("10 days", date(2026, 12, 5)),
        ("in 2 weeks", date(2026, 12, 9)),
        ("3", date(2026, 11, 28)),
        ("25 November", TODAY),
        ("24 Nov", date(2027, 11, 24)),
        ("5.12.", date(2026, 12, 5)),
        ("5. 12. 2027", date(2027, 12, 5)),
        ("1 may 2028", date(2028, 5, 1)),
        ("2027-01-31", date(2027, 1, 31)),
    ],
)
def test_days_as_one_writes_them(typed: str, day: date | None) -> None:
    assert typed_day(typed, TODAY) == day


@pytest.mark.parametrize("typed", ["31 feb", "5.13.", "soon", "2027-02-30", "12 Foo", "1/2"])
def test_what_is_no_day_is_said(typed: str) -> None:
    with pytest.raises(BadInput, match="is no day") as caught:
        typed_day(typed, TODAY)
    assert caught.value.field == "due"


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("", None),
        ("yesterday", date(2026, 11, 24)),
        ("tomorrow", date(2026, 11, 26)),
        ("20 Nov", date(2026, 11, 20)),
        ("30 Nov", date(2026, 11, 30)),
        ("3.1.", date(2027, 1, 3)),
        ("20 Nov 2027", date(2027, 11, 20)),
        ("2026-11-20", date(2026, 11, 20)),
    ],
)
def test_a_day_that_may_lie_on_either_side_is_the_nearest_of_its_name(typed, day) -> None:
    assert typed_day(typed, TODAY, Lies.NEAREST) == day


def test_what_was_done_lies_behind() -> None:
    may = date(2026, 5, 10)
    assert typed_day("3 Dec", may, Lies.BEHIND) == date(2025, 12, 3)
    assert typed_day("3 May", may, Lies.BEHIND) == date(2026, 5, 3)
    assert typed_day("2026-12-03", may, Lies.BEHIND) == date(2026, 12, 3)
    assert typed_day("29 Feb", may, Lies.BEHIND) == date(2024, 2, 29)
    assert typed_day("2 weeks", may, Lies.BEHIND) == date(2026, 4, 26)
    assert typed_day("in 3 days", may, Lies.BEHIND) == date(2026, 5, 13)
    assert {typed_day("3 days ago", may, lies) for lies in Lies} == {date(2026, 5, 7)}


def test_no_day_is_said_at_its_own_field() -> None:
    with pytest.raises(BadInput) as wrong:
        typed_day("soon", TODAY, field="out_on")
    assert wrong.value.field == "out_on"


@given(
    st.dates(date(2001, 1, 1), date(2090, 12, 31)), st.dates(date(2001, 1, 1), date(2090, 12, 31))
)
def test_a_day_without_its_year_lies_where_it_should(day: date, today: date) -> None:
    typed = f"{day.day}.{day.month}."
    ahead, behind = typed_day(typed, today), typed_day(typed, today, Lies.BEHIND)
    nearest = typed_day(typed, today, Lies.NEAREST)
    assert ahead is not None
    assert behind is not None
    assert behind <= today <= ahead
    assert {(one.day, one.month) for one in (ahead, behind)} == {(day.day, day.month)}
    assert nearest in (ahead, behind)
    if (day.day, day.month) != (29, 2):
        assert ahead - today < timedelta(days=366)
        assert nearest is not None
        assert abs(nearest - today) <= timedelta(days=184)
