"""Valve clearances, and the plan of their shims in words."""

from decimal import Decimal

from sheet_kit import sheet

from bagtag.domain.measuring import check, valves
from bagtag.domain.measuring.check import checked
from bagtag.domain.measuring.forms import form
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import SheetKind

RANGE = {"inlet": ("0.18", "0.22"), "exhaust": ("0.23", "0.27")}
MADE = {"series from": "2.00", "series to": "2.98", "series step": "0.02"}
TWO = {"cylinders": "2"}


def read(*pairs: tuple[str, str, str]) -> dict[str, str]:
    clearances = {f"{name}, clearance": clearance for name, clearance, _ in pairs}
    return clearances | {f"{name}, shim": shim for name, _, shim in pairs if shim}


SWAP = read(
    ("1 inlet", "0.30", "2.40"),
    ("1 exhaust", "0.25", "2.44"),
    ("2 inlet", "0.10", "2.50"),
    ("2 exhaust", "0.35", "2.30"),
)


def test_two_swap_one_is_at_hand_none_is_bought():
    one = checked(sheet(SheetKind.VALVES, SWAP, RANGE, TWO | MADE | {"at hand": ["2.40", "2.62"]}))
    found = results(one)
    assert [figure.verdict for figure in found.figures] == [
        Verdict.OUT, Verdict.NEW, Verdict.OUT, Verdict.OUT,
    ]  # fmt: skip
    assert found.advice == (
        "1 inlet: put in the 2.50 mm from 2 inlet; its clearance is 0.20 mm then.",
        "2 inlet: put in the 2.40 mm from 1 inlet; its clearance is 0.20 mm then.",
        "2 exhaust: put in 2.40 mm, at hand, for the 2.30; its clearance is 0.25 mm then.",
        "Buy none; swapping saves 2 shims.",
        "Left over: 2.30 mm. Mark the size on the bag.",
        "Turn the engine over by hand and measure every clearance again before it runs.",
    )


def test_what_is_to_be_bought_and_what_cannot_be_had():
    given_ = TWO | {"series from": "2.30", "series to": "2.42", "series step": "0.02"}
    said = results(checked(sheet(SheetKind.VALVES, SWAP, RANGE, given_))).advice
    assert "Buy 1: 2.40 mm; swapping saves 1 shim." in said  # 2.50 for 1 inlet is not made
    lone = read(("1 inlet", "0.60", "2.40"))
    alone = results(sheet(SheetKind.VALVES, lone, RANGE)).advice
    assert "1 inlet wants 2.80 mm, 2.78 to 2.82, and none at hand fits." in alone
    assert "1 exhaust is left out of the plan: clearance, shim or range is not given." in alone


def test_a_valve_without_clearance_keeps_its_shim_and_is_read_again():
    one = sheet(
        SheetKind.VALVES, read(("1 inlet", "0", "2.60"), ("1 exhaust", "0.50", "2.35")), RANGE
    )
    found = valves.plan_of(checked(one))
    assert [place.name for place in found.impossible] == ["1 exhaust"]
    assert "No clearance at 1 inlet" in results(one).advice[0]


def test_screw_adjusters_need_no_shims():
    found = results(
        sheet(SheetKind.VALVES, read(("1 inlet", "0.20", ""), ("1 exhaust", "0.25", "")))
    )
    assert (found.is_measured, found.advice) == (True, ())


def test_four_valves_to_a_cylinder_clearances_are_read_before_shims():
    one = sheet(SheetKind.VALVES, None, None, {"inlet": "2", "exhaust": "2"})
    places = form(one).places
    assert [place.row for place in places[:4]] == [
        "1 inlet a", "1 inlet b", "1 exhaust a", "1 exhaust b",
    ]  # fmt: skip
    assert [place.number for place in places] == list(range(1, 9))
    assert {place.column for place in places[4:]} == {"shim"}


def test_clearances_in_inches_and_shims_in_millimetres_make_one_plan():
    """0.012 in is 0.3048 mm; 0.20 mm is wanted, so 2.40 + 0.1048 = 2.5048, and 2.50 is made."""
    one = sheet(
        SheetKind.VALVES,
        {"1 inlet, clearance": "0.012", "1 inlet, shim": "2.40 mm"},
        {"inlet": ("0.007", "0.009")},
        {key: f"{said} mm" for key, said in MADE.items()},
        unit="in",
    )
    (move,) = valves.plan_of(checked(one)).moves
    assert (move.to_shim, move.clearance_after) == (Decimal("2.50"), Decimal("0.2048"))


def test_a_series_turned_round_is_said_and_stops_nothing():
    wrong = MADE | {"series from": "2.98", "series to": "2.00"}
    said = results(sheet(SheetKind.VALVES, SWAP, RANGE, TWO | wrong)).advice
    assert "from its thinnest to its thickest" in said[0]
    assert any("2 inlet" in one for one in said[1:])


def test_a_shim_with_its_point_in_the_wrong_place_is_asked_about():
    one = sheet(SheetKind.VALVES, SWAP | {"1 inlet, shim": "24.0"}, RANGE, TWO | MADE)
    (said,) = check.questions(one)
    assert said.startswith("1 inlet, shim: 24.0 mm beside shims of 2.30 to 2.50 mm: was 2.4 meant?")
    assert check.questions(sheet(SheetKind.VALVES, SWAP, RANGE, TWO | MADE)) == ()


def test_one_too_close_to_its_limit_is_read_again_before_its_shim_stays():
    """At 0.18 with feelers of 0.01 mm nobody can say that it is in its range."""
    near = read(("1 inlet", "0.18", "2.40"), ("1 exhaust", "0.25", "2.44"))
    found = results(sheet(SheetKind.VALVES, near, RANGE, step="0.01"))
    assert found.figures[0].verdict is Verdict.CLOSE
    assert found.advice[0].startswith("1 inlet stands too close to a limit to call: read again")
    finer = results(sheet(SheetKind.VALVES, near, RANGE))
    assert finer.advice == ("Every clearance is in its range: every shim stays.",)


def test_shims_in_millimetres_on_a_sheet_in_inches_are_told_as_they_are_marked():
    one = sheet(
        SheetKind.VALVES,
        {"1 inlet, clearance": "0.012", "1 inlet, shim": "0.0945"},
        {"inlet": ("0.007", "0.009")},
        {"at hand": "2.50 mm"},
        unit="in",
    )
    assert "put in 2.50 mm, at hand" in " ".join(results(checked(one)).advice)
