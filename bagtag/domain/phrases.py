"""Small turns of phrase that every sentence of the program is made with."""

from collections.abc import Sequence
from datetime import date

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def capital(words: str) -> str:
    """The same with a large first letter; the rest as it was written."""
    return words[:1].upper() + words[1:]


def listed(words: Sequence[str]) -> str:
    """a and b; a, b and c."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]


def day(when: date) -> str:
    """ "12 Nov", in English whatever the machine speaks."""
    return f"{when.day} {_MONTHS[when.month - 1]}"
