"""Which shims give an end float: the fewest, nearest the middle; checked against every choice."""

from dataclasses import replace
from decimal import Decimal
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheet_kit import sheet

from bagtag.domain.measuring.check import checked
from bagtag.domain.measuring.forms import form
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.measuring.stack import choose, plan_of

FLOAT = {"end float": ("0.10", "0.20")}


def stack(readings, **given_):
    named = {key.replace("_", " "): said for key, said in given_.items()}
    return checked(sheet(SheetKind.STACK, readings, FLOAT, named))


def test_the_fewest_shims_that_give_the_float():
    found = plan_of(stack({"end float": "0.45"}, in_now="0.50", at_hand=["0.10", "0.20", "0.80"]))
    assert (found.shims, found.after) == ((Decimal("0.80"),), Decimal("0.15"))
    assert (found.added, found.removed) == ((Decimal("0.80"),), (Decimal("0.50"),))
    swapped = results(stack({"end float": "0.45"}, in_now="0.50", at_hand="0.80"))
    assert swapped.advice == (
        "Take out 0.50 mm and put in 0.80 mm: the float is 0.15 mm then.",
        "Read the float again before it is closed up.",
    )
    assert (
        results(stack({"end float": "0.45"}, in_now="0.50", at_hand=["0.20", "0.10"])).advice[0]
        == "Put in 0.20 and 0.10 mm, 0.80 in all: the float is 0.15 mm then."
    )


def test_what_does_already_stays():
    one = stack({"end float": "0.20"}, in_now="0.50", at_hand="0.55")
    assert plan_of(one).stays
    assert results(one).advice == ("What is in now gives a float within the range: leave it.",)


def test_a_float_too_close_to_its_limit_is_not_left():
    near = sheet(SheetKind.STACK, {"end float": "0.20"}, FLOAT, step="0.01")
    assert results(near).figures[0].verdict is Verdict.CLOSE
    (said,) = results(near).advice
    assert "too close to its limit to call: read it again" in said


def test_shims_in_millimetres_fill_a_gap_in_inches_to_its_very_limit():
    """0.95 mm less 0.75 mm is 0.20 mm, its limit: nothing may be lost by turning units."""
    one = sheet(
        SheetKind.STACK,
        {"end float": "0.95 mm"},
        {"end float": ("0.20", "0.20")},
        {"at hand": ["0.75 mm", "0.80 mm"]},
    )
    inches = replace(one, unit="in")
    assert plan_of(inches).shims == plan_of(one).shims == (Decimal("0.75"),)
    assert results(inches).advice[0] == "Put in 0.75 mm: the float is 0.20 mm then."


def test_the_float_may_be_reckoned_from_a_depth_and_a_height():
    """Gap = depth + gasket - height: 40.00 + 0.30 - 39.35 = 0.95, so 0.80 of shims leave 0.15."""
    one = stack({"depth": "40.00", "height": "39.35"}, gasket="0.30", at_hand="0.80")
    assert [place.key for place in form(one).places if place.needed] == ["depth", "height"]
    found = results(one)
    assert (found.figures[0].value, found.figures[0].verdict) == (Decimal("0.95"), Verdict.OUT)
    assert found.advice[0] == "Put in 0.80 mm: the float is 0.15 mm then."
    assert results(stack({"depth": "40.00"})).missing == ("height of what goes in",)
    assert results(stack({})).missing == ("end float, as it is",)


def test_how_far_off_a_reckoned_float_may_be_is_both_steps():
    read = {"depth": "40.00", "height": "39.85"}
    found = results(sheet(SheetKind.STACK, read, FLOAT, step="0.02"))
    assert found.figures[0].resolution == Decimal("0.04")


@pytest.mark.parametrize(
    ("readings", "given_", "said"),
    [
        ({"end float": "0.90"}, {"at_hand": "0.50"}, "Shims of 0.70 to 0.80 mm in all are"),
        ({"depth": "39.00", "height": "39.35"}, {}, "There is no room: without any shim the float"),
        ({"end float": "0.05"}, {"in_now": "0.10"}, "Take out 0.10 mm: the float is 0.15 mm"),
    ],
)  # fmt: skip
def test_what_else_it_says(readings, given_, said):
    assert said in results(stack(readings, **given_)).advice[0]


def test_without_a_range_there_is_a_figure_and_no_plan():
    one = sheet(SheetKind.STACK, {"end float": "0.30"})
    assert plan_of(one) is None
    assert results(one).is_measured


SHIM = st.integers(5, 40).map(lambda n: Decimal(n) / 100)


@given(st.lists(SHIM, max_size=8), st.integers(0, 150), st.integers(0, 12))
def test_no_other_stack_is_better(shims, thinnest, wide):
    low, high = Decimal(thinnest) / 100, Decimal(thinnest + wide) / 100
    middle = (low + high) / 2
    every = (way for n in range(len(shims) + 1) for way in combinations(shims, n))
    fit = [way for way in every if low <= sum(way, Decimal(0)) <= high]
    found = choose(low, high, shims)
    if found is None:
        assert not fit
        return
    spare = list(shims)
    for shim in found:
        spare.remove(shim)
    assert min((len(way), abs(sum(way, Decimal(0)) - middle)) for way in fit) == (
        len(found),
        abs(sum(found, Decimal(0)) - middle),
    )
