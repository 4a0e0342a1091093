"""Sheets of a job: kept reading by reading, what they say, and what is decided on them."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from bagtag import services
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.likely import BY_NAME as LIKELY
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.sheet import Given, Limits, Reading, SheetKind
from bagtag.domain.model import Fate

measuring = services.measuring
BORE = {
    "top, across": "76.31", "top, along": "76.24", "middle, across": "76.20",
    "middle, along": "76.18", "bottom, across": "76.10", "bottom, along": "76.09",
}  # fmt: skip


@pytest.fixture
def cylinder(log):
    return log("cylinder", fate=Fate.DECIDE)


@pytest.fixture
def bore(store, job_id, cylinder):
    """A bore sheet of the cylinder, its limits given; returns its id."""
    sheet_id = measuring.add_sheet(store, job_id, SheetKind.BORE, cylinder, who="Ada").new_id
    limits = (Limits("size", Decimal(76), Decimal("76.03"), wear_high=Decimal("76.20")),)
    oversizes = tuple(Given("oversizes", Decimal(one)) for one in ("0.25", "0.50"))
    given = (Given("standard", Decimal(76)), *oversizes)
    sheet = replace(measuring.get_sheet(store, sheet_id), limits=limits, given=given)
    measuring.save(store, sheet, who="Ada")
    return sheet_id


def read(store, sheet_id, figures=BORE, **fields):
    for key, value in figures.items():
        measuring.take_reading(store, sheet_id, Reading(key, Decimal(value), **fields), who="Ada")


def fate(store, removal_id):
    return services.strip.get_removal(store, removal_id).fate


def test_each_reading_is_kept_at_once_in_the_order_of_its_place_and_undone_alone(
    store, job_id, bore
):
    read(store, bore, dict(reversed(BORE.items())))
    assert [one.key for one in measuring.get_sheet(store, bore).readings] == list(BORE)
    change = measuring.take_reading(store, bore, Reading("top, across", Decimal("76.31")))
    assert change.journal_id == 0
    measuring.take_reading(store, bore, Reading("top, across", Decimal("76.40")))
    services.history.undo(store, job_id)
    assert measuring.get_sheet(store, bore).readings[0].value == Decimal("76.31")
    measuring.drop_reading(store, bore, "top, across")
    assert measuring.view(store, bore).results.missing == ("top, across",)


def test_a_worn_bore_is_in_the_list_with_what_it_says_and_advises(store, job_id, bore, cylinder):
    read(store, bore, resolution=Decimal("0.01"), instrument="bore gauge")
    row, *_ = measuring.for_stage(store, job_id)
    assert (row.removal.id, row.sheets[0].verdict) == (cylinder, Verdict.OUT)
    assert row.sheets[0].is_measured
    assert row.sheets[0].summary.startswith("worn: bore 76.31 mm, 76 to 76.20")
    seen = measuring.view(store, bore)
    assert any("Rebore to 76.50 mm" in said for said in seen.results.advice)
    assert seen.removal.id == cylinder
    assert measuring.reckon(seen.sheet, seen.removal) == seen


def test_the_list_has_what_is_to_be_decided_then_sheets_of_no_part(store, job_id, log):
    crank = log("crankshaft")
    log("flywheel")
    piston = log("piston", fate=Fate.DECIDE)
    measuring.add_sheet(store, job_id, SheetKind.JOURNAL, crank)
    measuring.add_sheet(store, job_id, SheetKind.VALVES, title="cold engine")
    rows = measuring.for_stage(store, job_id)
    assert [row.removal and row.removal.id for row in rows] == [crank, piston, None]
    assert [len(row.sheets) for row in rows] == [1, 0, 1]
    assert rows[2].sheets[0].sheet.title == "cold engine"


def test_a_decision_sets_the_fate_with_name_and_date_in_one_act(store, job_id, bore, cylinder):
    read(store, bore)
    change = measuring.decide(store, bore, Fate.RENEW, who="Ada")
    assert set(change.touched) == {"measure_sheet", "removal"}
    made = measuring.get_sheet(store, bore).decision
    assert (made.fate, made.who) == (Fate.RENEW, "Ada")
    assert made.said.startswith("worn: bore")
    assert fate(store, cylinder) is Fate.RENEW
    services.history.undo(store, job_id)
    assert measuring.get_sheet(store, bore).decision is None
    assert fate(store, cylinder) is Fate.DECIDE


def test_a_part_out_of_limits_is_refitted_with_a_reason_or_with_work_alone(store, bore, cylinder):
    read(store, bore)
    with pytest.raises(BadInput, match="bore is out of its limits") as wrong:
        measuring.decide(store, bore, Fate.REFIT, who="Ada")
    assert wrong.value.field == "why"
    assert fate(store, cylinder) is Fate.DECIDE
    measuring.decide(store, bore, Fate.REFIT, work="rebore to 76.50", who="Ada")
    assert measuring.get_sheet(store, bore).decision.work == "rebore to 76.50"
    measuring.decide(store, bore, Fate.REFIT, why="for a season only", who="Ada")
    assert fate(store, cylinder) is Fate.REFIT


def test_too_close_to_call_is_no_pass(store, bore):
    worn = dict.fromkeys(BORE, "76.20")
    read(store, bore, worn, resolution=Decimal("0.01"))
    with pytest.raises(BadInput, match="too close to its limit to call"):
        measuring.decide(store, bore, Fate.REFIT, who="Ada")
    read(store, bore, worn)
    measuring.decide(store, bore, Fate.REFIT, who="Ada")


def test_an_open_sheet_of_the_same_part_speaks_against_it_too(store, job_id, bore, cylinder):
    read(store, bore)
    flat = measuring.add_sheet(store, job_id, SheetKind.SIZE, cylinder, "height").new_id
    measuring.take_reading(store, flat, Reading("place 1", Decimal(90)))
    with pytest.raises(BadInput, match="On the sheet bore, bore is out"):
        measuring.decide(store, flat, Fate.REFIT, who="Ada")
    measuring.decide(store, bore, Fate.REFIT, work="rebore", who="Ada")
    measuring.decide(store, flat, Fate.REFIT, who="Ada")


@pytest.mark.parametrize(
    ("fields", "field", "said"),
    [
        ({"fate": Fate.RENEW, "who": " "}, "who", "Say who decided it"),
        ({"fate": Fate.DECIDE, "who": "Ada"}, "work", "Say what work is wanted"),
        ({"fate": Fate.SCRAP, "who": "Ada"}, "why", "not fully read yet"),
    ],
)
def test_what_a_decision_wants(store, bore, fields, field, said):
    with pytest.raises(BadInput, match=said) as wrong:
        measuring.decide(store, bore, fields["fate"], who=fields["who"])
    assert wrong.value.field == field


def test_a_decision_is_taken_back_and_a_reading_after_it_is_noticed(store, bore, cylinder):
    read(store, bore)
    measuring.decide(store, bore, Fate.SCRAP, who="Ada")
    measuring.take_reading(store, bore, Reading("top, across", Decimal("76.11")))
    asked = measuring.view(store, bore).questions
    assert any(one.startswith("It was decided when this sheet said: worn") for one in asked)
    measuring.undecide(store, bore, who="Ada")
    assert fate(store, cylinder) is Fate.DECIDE
    with pytest.raises(BadInput, match="Nothing is decided"):
        measuring.undecide(store, bore)


def test_what_cannot_be_is_refused_and_nothing_is_lost(store, job_id, bore, log):
    read(store, bore)
    for reading, said in (
        (Reading("roof", Decimal(1)), "no place called roof"),
        (Reading("top, across", Decimal("NaN")), "no figure"),
        (Reading("top, across", Decimal("76.2"), "kg"), "unit"),
    ):
        with pytest.raises(BadInput, match=said):
            measuring.take_reading(store, bore, reading)
    sheet = measuring.get_sheet(store, bore)
    turned = replace(sheet, limits=(Limits("size", Decimal(77), Decimal(76)),))
    with pytest.raises(BadInput):
        measuring.save(store, turned)
    assert measuring.get_sheet(store, bore) == sheet
    with pytest.raises(BadInput, match="not in this job"):
        measuring.add_sheet(store, job_id, SheetKind.BORE, 999)
    with pytest.raises(NotFound):
        measuring.view(store, 999)


def test_a_deleted_sheet_comes_back_and_one_stays_when_its_part_is_gone(
    store, job_id, bore, cylinder
):
    read(store, bore)
    measuring.delete_sheet(store, bore)
    with pytest.raises(NotFound):
        measuring.get_sheet(store, bore)
    services.history.undo(store, job_id)
    services.strip.delete_removal(store, cylinder)
    (row,) = measuring.for_stage(store, job_id)
    assert row.removal is None
    assert len(row.sheets[0].sheet.readings) == 6


def test_an_instrument_out_of_date_is_asked_about(store, bore):
    old = Instrument("bore gauge", Decimal("0.01"), calibrated_on=date(2025, 3, 1))
    made = services.instruments.add_instrument(store, old, who="Ada").new_id
    read(store, bore, instrument="bore gauge", resolution=Decimal("0.01"))
    today = date(2026, 11, 25)
    assert any("12 months ago" in one for one in measuring.view(store, bore, today=today).questions)
    fresh = replace(old, id=made, calibrated_on=date(2026, 3, 1))
    services.instruments.edit_instrument(store, fresh)
    asked = measuring.view(store, bore, today=today).questions
    assert not any("calibrated" in one for one in asked)


def test_instruments_are_kept_by_name_and_undone(store):
    instruments = services.instruments
    for name in ("micrometer 50–75", "dial gauge"):
        instruments.add_instrument(store, Instrument(f" {name} ", Decimal("0.01")))
    assert [one.name for one in instruments.all_instruments(store)] == [
        "dial gauge", "micrometer 50–75",
    ]  # fmt: skip
    instruments.delete_instrument(store, 1)
    services.history.undo(store, 0)
    assert instruments.get_instrument(store, 1).resolution == Decimal("0.01")


def test_no_two_instruments_are_called_alike(store):
    instruments = services.instruments
    made = instruments.add_instrument(store, Instrument("Dial gauge", Decimal("0.01"))).new_id
    other = instruments.add_instrument(store, Instrument("caliper", Decimal("0.02"))).new_id
    with pytest.raises(BadInput, match="called dial gauge already") as wrong:
        instruments.add_instrument(store, Instrument(" dial gauge", Decimal("0.001")))
    assert wrong.value.field == "name"
    with pytest.raises(BadInput, match="already"):
        instruments.edit_instrument(store, Instrument("dial gauge", Decimal("0.01"), id=other))
    instruments.edit_instrument(store, Instrument("dial gauge", Decimal("0.002"), id=made))
    assert len(instruments.all_instruments(store)) == 2


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"name": ""}, "name"),
        ({"resolution": Decimal(0)}, "resolution"),
        ({"resolution": Decimal("NaN")}, "resolution"),
        ({"unit": "furlong"}, "unit"),
    ],
)
def test_what_is_no_instrument_is_refused(store, fields, field):
    with pytest.raises(BadInput) as wrong:
        services.instruments.add_instrument(
            store, replace(Instrument("caliper", Decimal("0.02")), **fields)
        )
    assert wrong.value.field == field


def test_the_likely_sheets_come_first_and_every_kind_is_there(store, log):
    def first(name):
        part = services.strip.get_removal(store, log(name))
        kinds = measuring.kinds_for(store, part)
        assert sorted(kinds) == sorted(SheetKind)
        return kinds[0]

    assert first("cylinder") is SheetKind.BORE
    assert first("top ring") is SheetKind.RING_GAP
    assert first("clutch spring") is SheetKind.SPRING
    assert first("input shaft") is SheetKind.JOURNAL
    assert first("odd thing") is SheetKind.SIZE
    assert len(measuring.kinds_for(store, None)) == len(SheetKind)


def test_every_kind_of_part_that_has_likely_sheets_is_known(store):
    known = services.kinds.of(store)
    assert [name for name in LIKELY if known.named(name) is None] == []
