"""Days of a batch as typed: the one promised lies ahead, the one it went on either side."""

from datetime import date

import pytest

from bagtag.domain.errors import BadInput
from bagtag.domain.sending_days import out_day, promised_day

TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("", None),
        ("2 weeks", date(2026, 12, 9)),
        ("12 May", date(2027, 5, 12)),
        ("20 Nov", date(2027, 11, 20)),
        ("2027-02-01", date(2027, 2, 1)),
    ],
)
def test_a_promised_day_lies_ahead(typed, day) -> None:
    assert promised_day(typed, TODAY) == day


@pytest.mark.parametrize(
    ("typed", "day"),
    [("", TODAY), ("20 Nov", date(2026, 11, 20)), ("30 Nov", date(2026, 11, 30))],
)
def test_the_day_it_goes_is_the_nearest_of_that_name(typed, day) -> None:
    assert out_day(typed, TODAY) == day


@pytest.mark.parametrize(("read", "field"), [(out_day, "out_on"), (promised_day, "promised")])
def test_no_day_is_said_at_its_own_field(read, field) -> None:
    with pytest.raises(BadInput) as wrong:
        read("soon", TODAY)
    assert wrong.value.field == field
