"""Deck height and squish. Reading over the pin is common practice, no source."""

from decimal import Decimal

from sheet_kit import sheet

from bagtag.domain.measuring.check import checked
from bagtag.domain.measuring.forms import form
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import SheetKind

LIMITS = {"squish": ("0.90", "1.30"), "tilt": (None, "0.05")}


def test_the_middle_of_both_ends_the_tilt_and_the_squish():
    read = {"1, front": "0.12", "1, rear": "0.16"}
    found = results(checked(sheet(SheetKind.DECK, read, LIMITS, {"gasket": "1.10"}, step="0.01")))
    said = {one.key: (one.value, one.resolution, one.verdict) for one in found.figures}
    assert said == {
        "deck": (Decimal("0.14"), Decimal("0.01"), Verdict.UNKNOWN),
        "tilt": (Decimal("0.04"), Decimal("0.02"), Verdict.CLOSE),
        "squish": (Decimal("1.24"), Decimal("0.01"), Verdict.NEW),
    }


def test_every_cylinder_has_its_figures_and_they_are_held_against_each_other():
    read = {"1, front": "0.10", "1, rear": "0.10", "2, front": "0.20", "2, rear": "0.20"}
    one = checked(
        sheet(
            SheetKind.DECK,
            read,
            {"spread": (None, "0.05"), "deck": ("0", "0.15")},
            {"cylinders": "2"},
        )
    )
    found = {figure.name: figure.verdict for figure in results(one).figures}
    assert found["cylinder 1, deck height"] is Verdict.NEW
    assert found["cylinder 2, deck height"] is Verdict.OUT
    assert found["between cylinders"] is Verdict.OUT
    assert [place.name for place in form(one).places][:2] == [
        "cylinder 1, front",
        "cylinder 1, rear",
    ]


def test_a_piston_that_stands_proud_of_its_gasket_is_told():
    read = {"1, front": "-0.60", "1, rear": "-0.60"}
    thin = results(checked(sheet(SheetKind.DECK, read, None, {"gasket": "0.50"})))
    assert "would strike the head" in thin.advice[0]
    assert "give the gasket's pressed thickness" in results(sheet(SheetKind.DECK, read)).advice[0]
    assert results(sheet(SheetKind.DECK, read, None, {"gasket": "1.20"})).advice == ()


def test_half_read_says_what_is_missing():
    found = results(sheet(SheetKind.DECK, {"1, front": "0.10"}))
    assert (found.figures, found.missing) == ((), ("over the pin, rear",))
