"""A day in a sentence."""

from datetime import date

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day(when: date) -> str:
    """ "12 Nov", in English whatever the machine speaks."""
    return f"{when.day} {_MONTHS[when.month - 1]}"
