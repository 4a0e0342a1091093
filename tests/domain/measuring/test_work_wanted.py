"""What is asked of an outside shop: what the sheet advises to do, and not where it is worn."""

from dataclasses import replace
from decimal import Decimal

from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import Given, Limits, MeasureSheet, Reading, SheetKind
from bagtag.domain.measuring.work_wanted import work_wanted

WAYS = [f"{height}, {way}" for height in ("top", "middle", "bottom") for way in ("across", "along")]
GIVEN = (Given("standard", Decimal(76)), Given("oversizes", Decimal("76.50")))
WORN = tuple(Reading(key, Decimal("76.31")) for key in WAYS)
SHEET = MeasureSheet(
    0, "", 1, SheetKind.BORE, readings=WORN, given=GIVEN,
    limits=(Limits("size", wear_high=Decimal("76.20")),),
)  # fmt: skip


def wanted(sheet: MeasureSheet) -> str:
    return work_wanted(sheet, results(sheet))


def test_the_rebore_is_asked_for_and_not_where_the_bore_is_worn():
    assert any(one.startswith(("Largest at", "Alike at")) for one in results(SHEET).advice)
    assert wanted(SHEET).startswith("Rebore to 76.50 mm")


def test_nothing_is_asked_for_what_is_good_or_not_read():
    good = tuple(replace(one, value=Decimal("76.10")) for one in WORN)
    assert wanted(replace(SHEET, readings=good)) == ""
    assert wanted(replace(SHEET, readings=WORN[:5])) == ""


def test_what_asks_something_or_says_where_is_no_work():
    small = tuple(replace(one, value=Decimal("75.80")) for one in WORN)
    held = (Limits("size", new_low=Decimal("76.00"), wear_high=Decimal("76.20")),)
    assert wanted(replace(SHEET, readings=small, limits=held)) == ""
    assert "ask the shop" not in wanted(SHEET)
    lines = ("along", "across", "first diagonal", "second diagonal")
    face = MeasureSheet(
        0, "", 1, SheetKind.FLATNESS, readings=tuple(Reading(one, Decimal("0.1")) for one in lines),
        limits=(Limits("flatness", wear_high=Decimal("0.05")),),
    )  # fmt: skip
    assert wanted(face).startswith("At least 0.1 mm must come off")


def test_what_a_sheet_only_asks_is_no_work():
    small = tuple(replace(one, value=Decimal("75.90")) for one in WORN)
    limits = (Limits("size", wear_low=Decimal(76), wear_high=Decimal("76.20")),)
    found = results(replace(SHEET, readings=small, limits=limits))
    assert any("read it again" in one for one in found.advice)
    assert found.work == ()


def test_work_and_moves_are_sentences_of_the_advice():
    found = results(SHEET)
    assert found.work
    assert set(found.work) < set(found.advice)
    read = {"1 inlet": ("0.30", "2.40"), "1 exhaust": ("0.10", "2.50")}
    valves = MeasureSheet(
        0, "", 1, SheetKind.VALVES,
        readings=tuple(
            Reading(f"{name}, {what}", Decimal(value))
            for name, pair in read.items()
            for what, value in zip(("clearance", "shim"), pair, strict=True)
        ),
        limits=tuple(
            Limits(side, new_low=Decimal("0.15"), new_high=Decimal("0.25"))
            for side in ("inlet", "exhaust")
        ),
    )  # fmt: skip
    found = results(valves)
    assert len(found.moves) == 2
    assert all("put in the" in one for one in found.moves)
    assert set(found.moves) < set(found.advice)
