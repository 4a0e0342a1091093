"""Days as one says them at the bench."""

from datetime import date


def day_words(day: date, today: date) -> str:
    """`today`, `tomorrow`, `4 December`; with its year where that is another one."""
    ahead = (day - today).days
    if ahead in (0, 1):
        return ("today", "tomorrow")[ahead]
    year = f" {day.year}" if day.year != today.year else ""
    return f"{day.day} {day:%B}{year}"


def late_words(due: date, today: date) -> str:
    """`2 days late`; nothing where it is not."""
    days = (today - due).days
    return f"{days} day{'s' * (days != 1)} late" if days > 0 else ""
