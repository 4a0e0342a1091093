"""Small turns of phrase that every sentence of the program is made with."""

import re
from collections.abc import Iterable, Sequence
from datetime import date

NBSP = "\u00a0"
"""Stands between a figure and its unit, so that a line's end never comes between them."""
_UNIT = re.compile(r"(?<=\d) (?=%|mm\b|[a-zA-Z]+·)|(?<==) ")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def capital(words: str) -> str:
    """The same with a large first letter; the rest as it was written."""
    return words[:1].upper() + words[1:]


def listed(words: Sequence[str]) -> str:
    """a and b; a, b and c."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]


def spanned(numbers: Iterable[int]) -> str:
    """`1–6, 9`: numbers in their order, three or more in a row as a span."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(map(_run, runs))


def _run(run: list[int]) -> str:
    return f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run))


def whole(words: str) -> str:
    """The same, no figure torn from its unit or its equals sign at the end of a line."""
    return _UNIT.sub(NBSP, words)


def day(when: date) -> str:
    """ "12 Nov", in English whatever the machine speaks."""
    return f"{when.day} {_MONTHS[when.month - 1]}"
