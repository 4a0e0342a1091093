"""A bore and a journal: their shape, and the size that work brings them to."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measuring_kit import BORE_LIMITS, WORN_BORE, figure, limits, sheet

from bagtag.domain.measuring import check, oversize
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import SheetKind

K = SheetKind
MADE = {"standard": "76.00", "oversizes": ("0.25", "0.50", "0.75")}
FIGURES = st.decimals("0", "500", allow_nan=False, allow_infinity=False, places=3)
SIZES = st.decimals("0.001", "500", allow_nan=False, allow_infinity=False, places=3)


def test_a_bore_that_is_worn_is_rebored_to_the_smallest_oversize_that_cleans_it_up():
    found = results(sheet(K.BORE, WORN_BORE, limits=BORE_LIMITS, given=MADE))
    assert found.verdict is Verdict.OUT
    assert found.advice == (
        "Largest at the top, across.",
        "Rebore to 76.50 mm (+0.50): the smallest oversize that cleans it up.",
        "That leaves 0.19 mm of diameter to take at the worst place: ask the shop whether it is "
        "enough, as wear to one side wants more.",
        "Finish it to the new piston as measured, with the clearance of the maker's manual, which "
        "also says how far the wall may be bored.",
    )
    assert {one.verdict for one in found.figures} == {Verdict.OUT}


@pytest.mark.parametrize(
    ("worst", "allowance", "expected"),
    [
        ("76.20", "0", "76.25"),
        ("76.25", "0", "76.25"),
        ("76.251", "0", "76.50"),
        ("76.24", "0.02", "76.50"),
        ("76.75", "0", "76.75"),
        ("76.751", "0", None),
    ],
)
def test_the_oversize_leaves_what_is_wanted_for_finishing(worst, allowance, expected):
    made = [Decimal(one) for one in ("0.75", "0.25", "0.50")]
    size = oversize.smallest_that_cleans(Decimal(worst), Decimal(76), made, Decimal(allowance))
    assert size == (None if expected is None else Decimal(expected))


def test_a_bore_smaller_than_its_limit_is_not_worn_and_not_rebored():
    small = sheet(K.BORE, ["75.90"] * 6, limits=BORE_LIMITS, given=MADE)
    (_, said) = results(small).advice
    assert said.startswith("It is smaller than its limit, and a bore does not wear smaller")
    fresh = sheet(K.BORE, ["76.00"] * 6, limits=BORE_LIMITS[:1], given=MADE, step="0.01")
    assert results(fresh).verdict is Verdict.CLOSE
    assert results(fresh).advice == ("Alike at all six places.",)
    big = sheet(
        K.JOURNAL,
        ["40.10"] * 4,
        limits=[limits("size", ("39.98", "40.00"), ("39.95", None))],
        given={"standard": "40.00", "undersizes": "0.25"},
    )
    (said,) = results(big).advice
    assert said.startswith("It is larger than its limit, and a journal does not wear larger")


@pytest.mark.parametrize(("step", "size"), [(None, "76.50"), ("0.001", "76.50"), ("0.01", "76.75")])
def test_a_size_cleans_up_by_more_than_a_step_of_what_it_was_read_with(step, size):
    """At 76.495 a step of 0.01 may hide 76.505, which 76.50 would not clean up."""
    kept = sheet(K.BORE, ["76.495"] * 6, limits=BORE_LIMITS, given=MADE, step=step)
    assert results(kept).advice[1].startswith(f"Rebore to {size} mm")


def test_a_bore_at_an_oversize_is_not_rebored_to_that_and_is_asked_about():
    done = sheet(K.BORE, ["76.50"] * 6, limits=BORE_LIMITS, given=MADE)
    assert results(done).advice[1].startswith("Rebore to 76.75 mm (+0.75)")
    said = "No place is left of the standard size: is it bored to 76.50 mm already?"
    assert any(one.startswith(said) for one in check.questions(done))
    worn = sheet(K.BORE, WORN_BORE, limits=BORE_LIMITS, given=MADE)
    assert not any("already" in one for one in check.questions(worn))
    ground = sheet(
        K.JOURNAL,
        ["39.74"] * 4,
        limits=[limits("size", ("39.98", "40.00"))],
        given={"standard": "40.00", "undersizes": ("0.25", "0.50")},
    )
    assert any("is it ground to 39.75 mm already?" in one for one in check.questions(ground))


def test_with_an_allowance_the_shop_is_not_asked_for_one():
    kept = sheet(K.BORE, WORN_BORE, limits=BORE_LIMITS, given={**MADE, "allowance": "0.10"})
    assert not any(one.startswith(oversize.LEAVES) for one in results(kept).advice)


def test_an_oversize_may_be_given_whole_or_in_inches():
    whole = sheet(K.BORE, WORN_BORE, limits=BORE_LIMITS, given={**MADE, "oversizes": "76.50"})
    assert "Rebore to 76.50 mm (+0.50)" in results(whole).advice[1]
    given = tuple(
        replace(one, value=Decimal("0.020"), unit="in") if one.key == "oversizes" else one
        for one in whole.given
    )
    assert "Rebore to 76.508 mm (+0.508)" in results(replace(whole, given=given)).advice[1]


def test_a_bore_no_oversize_cleans_up_is_sleeved_or_renewed():
    given = {"standard": "76.00", "oversizes": "0.25"}
    assert results(sheet(K.BORE, WORN_BORE, limits=BORE_LIMITS, given=given)).advice[1] == (
        "No oversize made cleans it up: have it sleeved, or renew it."
    )


def test_a_bore_within_its_limits_is_left_as_it_is():
    fine = ("76.02", "76.01", "76.01", "76.01", "76.01", "76.00")
    found = results(sheet(K.BORE, fine, limits=BORE_LIMITS, given=MADE, step="0.001"))
    assert found.verdict is Verdict.GOOD
    assert figure(found, "size").verdict is Verdict.NEW
    assert found.advice == ("Largest at the top, across.",)


def test_a_bore_without_limits_says_what_a_rebore_would_come_to():
    found = results(sheet(K.BORE, WORN_BORE, given=MADE))
    assert found.advice[1].startswith("If it is rebored, 76.50 mm (+0.50)")


def test_a_bore_alike_everywhere_is_worn_to_nowhere():
    assert results(sheet(K.BORE, ["76.00"] * 6)).advice == ("Alike at all six places.",)


def test_a_bore_oval_the_other_way_is_as_much_out_of_round():
    across, along = ("76.31", "76.25", "76.20"), ("76.27", "76.22", "76.19")
    one = [value for pair in zip(across, along, strict=True) for value in pair]
    other = [value for pair in zip(along, across, strict=True) for value in pair]
    found = [figure(results(sheet(K.BORE, read)), "out of round").value for read in (one, other)]
    assert found == [Decimal("0.12")] * 2


@given(st.lists(FIGURES, min_size=6, max_size=6), FIGURES)
def test_the_shape_of_a_bore_does_not_hang_on_its_size(read, more):
    one = results(sheet(K.BORE, map(str, read)))
    other = results(sheet(K.BORE, (str(value + more) for value in read)))
    for key in ("taper", "out of round"):
        assert figure(one, key).value == figure(other, key).value >= 0
    assert figure(other, "size").value == max(read) + more


def test_a_journal_that_is_worn_is_ground_to_the_largest_undersize_that_cleans_it_up():
    read = ("39.880", "39.871", "39.884", "39.862")
    told = limits("size", ("39.980", "40.000"), ("39.950", None))
    given = {"standard": "40.00", "undersizes": ("0.25", "0.50"), "allowance": "0.02"}
    assert results(sheet(K.JOURNAL, read, limits=[told], given=given)).advice == (
        "Grind to 39.75 mm (−0.25): the largest undersize that cleans it up.",
        "The maker's manual says whether it may be ground, how far, and whether it is hardened "
        "again; the fillets keep their radius.",
    )
    assert results(sheet(K.JOURNAL, read, given=given)).advice == (
        "If it is ground, 39.75 mm (−0.25) is the largest undersize that cleans it up.",
        "The maker's manual says whether it may be ground, how far, and whether it is hardened "
        "again; the fillets keep their radius.",
    )
    thin = sheet(K.JOURNAL, ["39.45"] * 4, limits=[told], given=given)
    assert results(thin).advice[0].startswith("No undersize made cleans it up")
    fine = sheet(K.JOURNAL, ["39.99"] * 4, limits=[told], given=given)
    assert results(fine).advice == ()


@given(SIZES, SIZES, st.lists(SIZES, max_size=5), SIZES)
def test_what_is_chosen_cleans_up_and_nothing_nearer_does(worst, standard, made, allowance):
    over = oversize.smallest_that_cleans(worst, standard, made, allowance)
    under = oversize.largest_that_cleans(worst, standard, made, allowance)
    whole = [one for one in made if one >= standard / 2]
    larger = {standard + one for one in made if one < standard / 2} | set(whole)
    smaller = {standard - one for one in made if one < standard / 2} | set(whole)
    assert [
        one for one in larger if worst + allowance <= one and (over is None or one < over)
    ] == []
    assert [
        one for one in smaller if one <= worst - allowance and (under is None or one > under)
    ] == []
    assert over is None or over >= worst + allowance
    assert under is None or under <= worst - allowance
