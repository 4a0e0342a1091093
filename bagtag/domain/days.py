"""Days as one says them at the bench."""

from datetime import date

from bagtag.domain.phrases import day


def day_words(when: date, today: date) -> str:
    """`today`, `tomorrow`, `4 Dec`; with its year where that is another one."""
    ahead = (when - today).days
    if ahead in (0, 1):
        return ("today", "tomorrow")[ahead]
    return dated(when, today)


def dated(when: date, today: date) -> str:
    """`4 Dec`; with its year where that is another one."""
    return day(when) if when.year == today.year else f"{day(when)} {when.year}"


def months_since(when: date, today: date) -> int:
    """How many whole months ago a day was."""
    return 12 * (today.year - when.year) + today.month - when.month - (today.day < when.day)


def late_words(due: date, today: date) -> str:
    """`2 days late`; nothing where it is not."""
    days = (today - due).days
    return f"{days} day{'s' * (days != 1)} late" if days > 0 else ""
