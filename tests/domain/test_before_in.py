"""What is to be known of a part before it goes in. That the new part is held against the old one,
and that a worn part is decided before it is fitted, are common practice, no source."""

from datetime import datetime

import pytest

from bagtag.domain.before_in import SheetSaid, before_in
from bagtag.domain.fitting import Figure
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.sheet import Decision
from bagtag.domain.model import Away, Fate, Replacement
from bagtag.domain.new_part import NewPart

AT = datetime(2026, 3, 10, 9, 0)
WORN = "worn: bore 68.14 mm, at most 68.10"


def sheet(verdict: Verdict, fate: Fate | None = None, why: str = "", work: str = "") -> SheetSaid:
    decision = Decision(fate, "Ada", AT, why, work) if fate else None
    return SheetSaid(1, WORN, verdict, True, decision)


def said(fate=Fate.REFIT, replacement=Replacement.WANTED, sheets=(), new=None) -> tuple[str, ...]:
    return before_in(fate, replacement, sheets, new)


def test_a_sound_part_has_nothing_to_be_known():
    assert said() == ()
    assert said(sheets=[sheet(Verdict.NEW), sheet(Verdict.GOOD), sheet(Verdict.UNKNOWN)]) == ()


@pytest.mark.parametrize("verdict", [Verdict.OUT, Verdict.CLOSE])
def test_a_worn_part_is_decided_first(verdict):
    assert said(Fate.DECIDE, sheets=[sheet(verdict)]) == (
        "Worn: bore 68.14 mm, at most 68.10. Decide it before it goes in.",
    )
    left_open = sheet(verdict, Fate.DECIDE)
    assert said(Fate.DECIDE, sheets=[left_open])[0].endswith("Decide it before it goes in.")


def test_one_that_is_refitted_all_the_same_says_by_whom_and_why():
    assert said(sheets=[sheet(Verdict.OUT, Fate.REFIT, "it will do")]) == (
        "Worn: bore 68.14 mm, at most 68.10. Ada decided to refit it: it will do.",
    )


def test_one_that_a_shop_worked_on_is_measured_again():
    assert said(sheets=[sheet(Verdict.OUT, Fate.REFIT, "clean", "Rebore to 68.25 mm.")]) == (
        "Worn: bore 68.14 mm, at most 68.10, before this work: Rebore to 68.25 mm. "
        "Measure it again first.",
    )


def test_the_old_part_does_not_go_back_and_the_new_one_is_compared():
    assert "a new one is to come" in said(Fate.RENEW)[0]
    new = NewPart(1, "", 1, 1, arrived=1)
    assert "Hold it against the old one" in said(Fate.RENEW, Replacement.HERE, new=new)[0]
    compared = NewPart(1, "", 1, 1, arrived=1, compared_at=AT)
    assert said(Fate.RENEW, Replacement.HERE, new=compared) == ()
    assert said(Fate.SCRAP) == ("It is scrapped: it does not go back in.",)


def back(*values: float, note: str = "", at: datetime | None = AT) -> Away:
    figures = tuple(Figure("bore", value, "mm", 68.25, 68.27, places=2) for value in values)
    return Away(1, 1, "Mill Lane", "rebore", AT, back_at=at, figures=figures, back_note=note)


def test_a_part_that_came_back_outside_its_limits_says_so():
    def told(fate: Fate, time: Away) -> tuple[str, ...]:
        return before_in(fate, Replacement.WANTED, last_away=time)

    assert told(Fate.REFIT, back(68.30, note="bored too far")) == (
        "As it came back from Mill Lane: bore 68.30 mm is above 68.27. Bored too far.",
    )
    assert told(Fate.DECIDE, back(68.24)) == (
        "As it came back from Mill Lane: bore 68.24 mm is below 68.25. "
        "Decide it before it goes in.",
    )
    assert told(Fate.REFIT, back(68.25, 68.27)) == ()
    assert told(Fate.REFIT, back(68.30, at=None)) == ()
    assert told(Fate.SCRAP, back(68.30)) == ("It is scrapped: it does not go back in.",)
