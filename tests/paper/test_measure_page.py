"""A measuring page: drawing, readings or cells to write in, limits, verdict and decision."""

import io
from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal

import pytest

from bagtag.domain.cautions import MANUAL
from bagtag.domain.measuring import forms, picture, results
from bagtag.domain.measuring.sheet import (
    Decision,
    Given,
    Limits,
    MeasureSheet,
    Reading,
    SheetKind,
)
from bagtag.domain.model import Fate, Removal
from bagtag.paper.block_marks import Frame, Rule
from bagtag.paper.measure_page import measure_pdf, opening
from bagtag.paper.measure_rows import figures, readings
from bagtag.paper.measure_text import MeasurePage
from tests.paper.checklist_kit import joined

READ = ("76.31", "76.12", "76.22", "76.10", "76.10", "76.08")
BARREL = Removal(1, "u", 1, "12", 12, "cylinder barrel")


def page(kind, values=(), **fields):
    sheet = MeasureSheet(1, "u", 1, kind, **fields)
    places = forms.form(sheet).places
    taken = tuple(
        Reading(place.key, Decimal(value), "mm", "inside micrometer", Decimal("0.01"))
        for place, value in zip(places, values, strict=False)
    )
    sheet = replace(sheet, readings=taken)
    form, found = forms.form(sheet), results.results(sheet)
    drawn = picture.draw(sheet)
    return MeasurePage(
        sheet, form, found, drawn, date(2026, 11, 25), "Walking tractor", "J. Example", BARREL
    )


def bore(values=READ, **fields):
    return page(
        SheetKind.BORE,
        values,
        limits=(
            Limits("size", Decimal("76.00"), Decimal("76.02"), wear_high=Decimal("76.20")),
            Limits("taper", wear_high=Decimal("0.05")),
        ),
        given=(Given("standard", Decimal(76)), Given("oversizes", Decimal("76.50"))),
        **fields,
    )


def said(words, one):
    into = io.BytesIO()
    count = measure_pdf(into, one)
    pages = words(into.getvalue())
    assert count == len(pages)
    return joined(" ".join(pages))


def test_what_was_read_and_what_it_says_is_on_the_page(words):
    text = said(words, bore())
    for wanted in (
        "Bore 12 cylinder barrel",
        *READ,
        "76.00 to 76.02 mm",
        "at most 76.20 mm",
        "out of limits",
        "Read with: inside micrometer (0.01 mm).",
        "oversizes made 76.50 mm",
        forms.form(bore().sheet).how,
        *bore().results.advice,
        "Decision",
        "signature",
        MANUAL,
    ):
        assert wanted in text, wanted


def test_the_page_of_a_bore_agrees_with_the_sheet(words):
    text = said(words, bore())
    for one in bore().results.figures:
        assert one.said[1:] in text


@pytest.mark.parametrize("kind", SheetKind)
def test_every_place_has_one_cell_and_its_number(kind, words):
    empty = page(kind)
    cells = [m for row in readings(empty) for m in row.marks if isinstance(m, Frame)]
    assert len(cells) == len(empty.form.places)
    numbers = [word.text for row in readings(empty) for word in row.words if word.text.isdigit()]
    assert sorted(map(int, numbers)) == sorted(place.number for place in empty.form.places)
    assert all(place.row in said(words, empty) for place in empty.form.places)


@pytest.mark.parametrize("kind", SheetKind)
def test_every_figure_has_its_row(kind):
    empty = page(kind)
    _, *rows = figures(empty)
    names = [row.words[0].text.casefold() for row in rows]
    wanted = [slot.name.casefold() for slot in empty.form.figures]
    assert names[: len(wanted)] == wanted


def test_limits_of_many_places_stand_at_each_of_them_and_nowhere_else():
    limits = (Limits("inlet", Decimal("0.08"), Decimal("0.12")),)
    one = page(SheetKind.VALVES, ("0.10", "0.15"), limits=limits)
    _, *rows = figures(one)
    assert [row.words[0].text for row in rows] == ["1 inlet", "1 exhaust"]


def test_no_heading_stands_over_what_is_not_under_it(words):
    """A sheet that runs on to a second page: its decision is no row of the figures."""
    one = replace(bore(), questions=("Is this long?",) * 24)
    into = io.BytesIO()
    assert measure_pdf(into, one) == 2
    second = joined(words(into.getvalue())[1])
    assert "decided by" in second
    assert "verdict" not in second


def test_what_is_of_no_part_is_signed_and_not_decided(words):
    text = said(words, replace(bore(), removal=None))
    assert "measured by" in text
    assert "refit" not in text


def test_a_reading_in_another_unit_says_which(words):
    inch = Reading("end float", Decimal("0.004"), "in")
    sheet = MeasureSheet(1, "u", 1, SheetKind.END_FLOAT, readings=(inch,))
    one = replace(page(SheetKind.END_FLOAT), sheet=sheet, results=results.results(sheet))
    assert "0.004 in" in said(words, one)


def test_a_decision_has_its_name_and_date(words):
    made = Decision(
        Fate.REFIT, "Ada", datetime(2026, 11, 25, 14, 3), "worn", "Rebore to 76.50 mm", "then"
    )
    text = said(words, bore(decision=made))
    for wanted in (
        "Decided: refit",
        "2026-11-25 14:03 by Ada",
        "Why: worn",
        "Work for the shop: Rebore to 76.50 mm",
        "The sheet said then: then",
    ):
        assert wanted in text
    assert "signature" not in text


def test_what_is_worked_on_first_is_not_decided_yet(words):
    at = datetime(2026, 11, 25, 14, 3)
    text = said(words, bore(decision=Decision(Fate.DECIDE, "Ada", at, work="Rebore to 76.50 mm")))
    assert "Decided: to be worked, and measured again" in text
    text = said(words, bore(decision=Decision(Fate.DECIDE, "Ada", at)))
    assert "Decided: to be measured again" in text


def test_the_largest_sheets_and_wild_text_keep_to_the_page(render):
    wild = "<i>& Zylinder " * 30
    for kind, key in ((SheetKind.VALVES, "cylinders"), (SheetKind.SIZE, "places")):
        one = page(kind, title=wild, note=wild, given=(Given(key, Decimal(12)),))
        into = io.BytesIO()
        measure_pdf(into, replace(one, job=wild, questions=(wild,) * 6))
        for picture_ in render(into.getvalue(), 100):
            margin = round(11 / 25.4 * 100)
            assert picture_[:, :margin].min() == picture_[:, -margin:].min() == 255


@pytest.mark.parametrize("kind", SheetKind)
def test_what_is_not_given_yet_has_a_line_to_write_on(kind):
    empty = page(kind)
    lines = [mark for mark in opening(empty).marks if isinstance(mark, Rule)]
    assert len(lines) == len(empty.form.given)
