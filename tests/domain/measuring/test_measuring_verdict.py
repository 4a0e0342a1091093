"""How a figure stands to its limits, new and worn, and how near is too near."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from measuring_kit import limits

from bagtag.domain.measuring.form import FigureSlot
from bagtag.domain.measuring.result import Result, Results, Verdict
from bagtag.domain.measuring.units import converted
from bagtag.domain.measuring.verdict import in_unit, judge, result

SLOT = FigureSlot("taper", "taper")
BOTH = limits("taper", ("0.10", "0.20"), ("0.05", "0.30"))
FIGURES = st.decimals("0", "2", allow_nan=False, allow_infinity=False, places=3)
STEPS = st.sampled_from([Decimal(one) for one in ("0.001", "0.01", "0.02", "0.05")])
LIMITS = st.lists(FIGURES, min_size=4, max_size=4).map(sorted)


def judged(value, step, held):
    verdict, margin = judge(Decimal(value), Decimal(step) if step else None, held)
    return verdict.name, None if margin is None else str(margin)


@pytest.mark.parametrize(
    ("value", "step", "expected"),
    [
        ("0.15", None, ("NEW", "0.10")),
        ("0.20", None, ("NEW", "0.10")),
        ("0.10", None, ("NEW", "0.05")),
        ("0.21", None, ("GOOD", "0.09")),
        ("0.09", None, ("GOOD", "0.04")),
        ("0.30", None, ("GOOD", "0.00")),
        ("0.05", None, ("GOOD", "0.00")),
        ("0.31", None, ("OUT", "-0.01")),
        ("0.04", None, ("OUT", "-0.01")),
        ("0.30", "0.01", ("CLOSE", "0.00")),
        ("0.295", "0.01", ("CLOSE", "0.005")),
        ("0.305", "0.01", ("CLOSE", "-0.005")),
        ("0.29", "0.01", ("GOOD", "0.01")),
        ("0.31", "0.01", ("OUT", "-0.01")),
        ("0.20", "0.01", ("NEW", "0.10")),
    ],
)
def test_two_levels_the_limit_itself_and_the_step(value, step, expected):
    assert judged(value, step, BOTH) == expected


def test_the_new_limit_decides_where_none_of_wear_is_given():
    held = limits("taper", ("0.10", "0.20"), (None, "0.30"))
    assert judged("0.09", None, held) == ("OUT", "-0.01")
    assert judged("0.25", None, held) == ("GOOD", "0.05")
    assert judged("0.21", None, limits("taper", (None, "0.20"))) == ("OUT", "-0.01")


def test_without_a_limit_nothing_is_said():
    assert judged("0.09", "0.01", limits("taper")) == ("UNKNOWN", None)


@given(FIGURES, LIMITS, STEPS)
def test_what_passes_is_within_and_what_is_called_is_a_step_away(value, four, step):
    held = limits("x", (four[1], four[2]), (four[0], four[3]))
    verdict, margin = judge(value, step, held)
    inside = four[0] <= value <= four[3]
    near = min(abs(value - four[0]), abs(four[3] - value)) < step
    assert (verdict is Verdict.CLOSE) is near
    assert (margin >= 0) is inside
    if verdict in (Verdict.NEW, Verdict.GOOD):
        assert inside
    if verdict is Verdict.NEW:
        assert four[1] <= value <= four[2]


@given(FIGURES, LIMITS)
def test_a_coarser_step_never_turns_a_doubt_into_a_verdict(value, four):
    held = limits("x", wear=(four[0], four[3]))
    fine, coarse = (judge(value, Decimal(one), held)[0] for one in ("0.01", "0.05"))
    assert coarse in (fine, Verdict.CLOSE)


@given(FIGURES, LIMITS)
def test_the_unit_of_the_limits_makes_no_difference(value, four):
    held = limits("x", (four[1], four[2]), (four[0], four[3]), "in")
    millimetres = value * Decimal("25.4")
    assert judge(value, None, held)[0] is judge(millimetres, None, in_unit(held, "mm"))[0]
    told = result(SLOT, millimetres, "mm", None, held)
    assert told.verdict is judge(value, None, held)[0]


@given(st.integers(1, 4000), st.integers(0, 60), st.integers(-1, 1))
def test_a_figure_at_its_limit_passes_in_either_unit(thousandths, under, beyond):
    """A third of an inch has no end in millimetres, nor 0.05 mm in inches: what is left over by
    turning the readings is no wear."""
    high, worn = (Decimal(one) / 1000 for one in (thousandths, thousandths + beyond))
    held = limits("x", (None, high), (None, high))
    outer, inner = (
        converted(one, "mm", "in") for one in (46 + worn - Decimal(under) / 1000, Decimal(46))
    )
    turned = outer - inner + converted(Decimal(under) / 1000, "mm", "in")
    told = result(SLOT, turned, "in", None, held)
    assert told.verdict is (Verdict.OUT if beyond > 0 else Verdict.NEW)
    assert (told.margin == 0) is (beyond == 0)
    step = converted(Decimal("0.001"), "mm", "in")
    sure = result(SLOT, turned, "in", step, held).verdict
    assert sure is {-1: Verdict.NEW, 0: Verdict.CLOSE, 1: Verdict.OUT}[beyond]


@pytest.mark.parametrize(
    ("value", "step", "held", "said"),
    [
        (
            "0.03",
            None,
            limits("taper", wear=(None, "0.05")),
            "taper 0.03 mm, at most 0.05: within limits, 0.02 to spare",
        ),
        (
            "0.05",
            None,
            limits("taper", wear=(None, "0.05")),
            "taper 0.05 mm, at most 0.05: within limits, exactly at its limit, and that passes",
        ),
        (
            "0.05",
            "0.01",
            limits("taper", wear=(None, "0.05")),
            "taper 0.05 mm, at most 0.05: too close to call, known to 0.01 mm at best; measure it "
            "with something finer",
        ),
        (
            "0.04",
            None,
            limits("taper", ("0.01", "0.02"), (None, "0.05")),
            "taper 0.04 mm, 0.01 to 0.05: worn, within limits, 0.01 to spare",
        ),
        (
            "0.02",
            None,
            limits("taper", ("0.01", "0.02"), (None, "0.05")),
            "taper 0.02 mm, 0.01 to 0.05: as new, 0.01 to spare",
        ),
        (
            "0.16",
            None,
            limits("taper", wear=("0.20", None)),
            "taper 0.16 mm, at least 0.20: out of limits by 0.04 mm",
        ),
        ("0.16", None, None, "taper 0.16 mm, no limit given"),
        (
            "0.0508",
            None,
            limits("taper", wear=(None, "0.003"), unit="in"),
            "taper 0.0508 mm, at most 0.003 in: within limits, 0.0254 mm to spare",
        ),
    ],
)
def test_the_whole_of_it_is_one_sentence(value, step, held, said):
    step = Decimal(step) if step else None
    assert result(SLOT, Decimal(value), "mm", step, held).said == said


@given(st.lists(st.sampled_from(list(Verdict)), min_size=1, max_size=5))
def test_a_sheet_has_the_worst_of_the_figures_that_have_a_limit(verdicts):
    figures = tuple(replace(Result("x", "x", Decimal(1)), verdict=one) for one in verdicts)
    worst = Results(figures).verdict
    judged = [one for one in verdicts if one is not Verdict.UNKNOWN]
    assume(judged)
    assert worst in judged
    rank = [Verdict.NEW, Verdict.GOOD, Verdict.CLOSE, Verdict.OUT]
    assert all(rank.index(one) <= rank.index(worst) for one in judged)


def test_without_any_limit_a_sheet_says_nothing():
    assert Results((Result("x", "x", Decimal(1)),)).verdict is Verdict.UNKNOWN
    assert Results().verdict is Verdict.UNKNOWN
