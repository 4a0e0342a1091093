"""Days as they are typed of a batch."""

from datetime import date

from bagtag.domain.typed_days import Lies, typed_day


def promised_day(typed: str, today: date) -> date | None:
    """The day promised: `12 May`, `2 weeks`; a day without a year is the next one to come."""
    return typed_day(typed, today, field="promised")


def out_day(typed: str, today: date) -> date:
    """The day it went; today where nothing is said. What went last week is often written down
    today, so a day without a year is the nearest one."""
    return typed_day(typed, today, Lies.NEAREST, field="out_on") or today
