"""Days as one types them: `12 May`, `12.5.`, `2027-05-12`, `today`, `10 days`, `2 weeks`."""

import re
from datetime import date, timedelta
from enum import Enum

from bagtag.domain.errors import BadInput


class Lies(Enum):
    """Where a day lies that is typed without its year: what is promised lies ahead, what was done
    behind, and the day something goes out may be either."""

    AHEAD = "ahead"
    BEHIND = "behind"
    NEAREST = "nearest"


_DAY = re.compile(r"(\d{1,2})\.? *(?:([a-z]{3})[a-z]*|\. *(\d{1,2}))\.? *(\d{4})?", re.IGNORECASE)
_SPAN = re.compile(r"(in )?(\d{1,3}) *(days?|weeks?)?( ago)?", re.IGNORECASE)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NAMED = {"today": 0, "yesterday": -1, "tomorrow": 1}
_HALF = timedelta(days=182)
_LIKE = {Lies.BEHIND: "14 March, yesterday or 2026-03-14"}
_LIKE_ANY = "12 May, 2 weeks or 2027-05-12"


def typed_day(
    typed: str, today: date, lies: Lies = Lies.AHEAD, *, field: str = "due"
) -> date | None:
    """The day that was typed; None for none. BadInput, at `field`, for what is no day."""
    text = typed.strip()
    if not text:
        return None
    if text.casefold() in _NAMED:
        return today + timedelta(days=_NAMED[text.casefold()])
    if span := _SPAN.fullmatch(text):
        return _spanned(span, today, lies)
    try:
        named = _DAY.fullmatch(text)
        return _named(named, today, lies) if named else date.fromisoformat(text)
    except ValueError as wrong:
        raise BadInput(
            f"{text} is no day. Write it as {_LIKE.get(lies, _LIKE_ANY)}.", field=field
        ) from wrong


def _spanned(said: re.Match[str], today: date, lies: Lies) -> date:
    """`2 weeks` of what was done are 2 weeks ago."""
    days = int(said[2]) * (7 if (said[3] or "").lower().startswith("week") else 1)
    is_ago = bool(said[4]) or (lies is Lies.BEHIND and not said[1])
    return today + timedelta(days=-days if is_ago else days)


def _named(said: re.Match[str], today: date, lies: Lies) -> date:
    month = _MONTHS.index(said[2].lower()) + 1 if said[2] else int(said[3])
    if said[4]:
        return date(int(said[4]), month, int(said[1]))
    return _placed(int(said[1]), month, today, lies)


def _placed(day: int, month: int, today: date, lies: Lies) -> date:
    """Of the years about today's the one in which the day lies where it should; a 29 February in
    the nearest that has one."""
    years = range(today.year - 8, today.year + 9)
    found = [one for year in years if (one := _in(year, month, day)) is not None]
    if not found:
        raise ValueError(f"no year has a {day}.{month}.")
    ahead = next(one for one in found if one >= today)
    behind = next(one for one in reversed(found) if one <= today)
    match lies:
        case Lies.AHEAD:
            return ahead
        case Lies.BEHIND:
            return behind
        case Lies.NEAREST:
            return ahead if ahead - today <= _HALF else behind


def _in(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
