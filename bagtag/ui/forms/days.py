"""Days as they are typed in a field: one that lies behind, and one still to come."""

from datetime import date

from bagtag.domain.errors import BadInput
from bagtag.domain.typed_days import Lies, typed_day
from bagtag.ui.forms.basics import Field, Line


def read_day(field: Field, today: date, *, past: bool) -> tuple[date | None, bool]:
    """What is typed in a field as a day, and whether it could be read: what is wrong is said
    below it."""
    assert isinstance(field.editor, Line)
    typed = field.editor.text()
    try:
        found = typed_day(typed, today, Lies.BEHIND if past else Lies.AHEAD)
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
