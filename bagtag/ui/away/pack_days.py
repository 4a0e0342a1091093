"""Days as they are typed on the form of a batch."""

import re
from datetime import date, timedelta

from bagtag.domain.errors import BadInput
from bagtag.ui.card.card_asks import day_of

_NAMED = {"today": 0, "yesterday": -1, "tomorrow": 1}
_YEAR = re.compile(r"\d{4}")
_HALF = timedelta(days=182)


def promised_day(typed: str, today: date) -> date | None:
    """The day promised: `12 May`, `2 weeks`; a day without a year is the next one to come."""
    return _day(typed, today, "promised")


def out_day(typed: str, today: date) -> date:
    """The day it went; today where nothing is said. A day without a year is the nearest one:
    what went last week is often written down today."""
    found = _day(typed, today, "out_on")
    if found is None:
        return today
    says_year = _YEAR.search(typed) is not None
    return found if says_year or found - today <= _HALF else _year_before(found)


def _year_before(day: date) -> date:
    try:
        return day.replace(year=day.year - 1)
    except ValueError:  # the 29th of February
        return day


def _day(typed: str, today: date, field: str) -> date | None:
    word = typed.strip().casefold()
    if word in _NAMED:
        return today + timedelta(days=_NAMED[word])
    try:
        return day_of(typed, today)
    except BadInput as wrong:
        raise BadInput(wrong.sentence, field=field) from wrong
