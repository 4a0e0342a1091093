"""Days of an order as they are typed: one that lies behind, and one still to come."""

from datetime import date

from bagtag.domain.errors import BadInput
from bagtag.ui.card.card_asks import day_of
from bagtag.ui.forms.basics import Field, Line


def past_day(typed: str, today: date) -> date | None:
    """The day something was done: without a year the last one, `3 Dec` in May that of last year."""
    found = day_of(typed, today)
    if found is None or found <= today or str(found.year) in typed:
        return found
    try:
        return found.replace(year=found.year - 1)
    except ValueError:  # 29 Feb
        return found


def read_day(field: Field, today: date, *, past: bool) -> tuple[date | None, bool]:
    """What is typed in a field as a day, and whether it could be read: what is wrong is said
    below it."""
    assert isinstance(field.editor, Line)
    typed = field.editor.text()
    try:
        found = past_day(typed, today) if past else day_of(typed, today)
    except BadInput as wrong:
        field.say(wrong.sentence)
        return None, False
    if past and found is not None and found > today:
        field.say("That day is still to come. Write a day up to today, or leave it empty.")
        return None, False
    field.say("")
    return found, True


def written(day: date | None) -> str:
    return day.isoformat() if day is not None else ""
