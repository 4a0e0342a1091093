"""A part that is back: what is looked at, and what speaks against it."""

from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.model import Away, Origin, Removal
from bagtag.domain.send_out import BackCheck, SendOut
from bagtag.domain.sending import Back, Batch, Item
from bagtag.domain.sending_back import against, checked_back, judged

OUT = datetime(2026, 11, 25, 12, tzinfo=UTC)
BORE = Asked("bore", "mm", 76.50, 76.52)
LAND = Asked("seal land", "mm")
ALL = tuple(BackCheck)


def item(*asks: Asked, back_at=None, by_shop_of=None, due=None) -> Item:
    removal = Removal(5, "u", 1, "12", 1, "cylinder barrel", origin=Origin.OFF)
    away = Away(3, 5, "Mill Lane", "rebore", OUT, due, asks=asks, back_at=back_at)
    return Item(away, removal, by_shop_of=by_shop_of)


def back(*figures: Figure, checks=ALL, **more) -> Back:
    return Back(3, checks, figures, **more)


def test_what_is_looked_at_goes_by_what_was_asked_for():
    assert item(BORE).to_check == ALL
    assert BackCheck.MEASURED not in item().to_check
    assert item(by_shop_of=4).to_check == (BackCheck.CLEAN,)


def test_nothing_speaks_against_a_part_that_is_as_wanted():
    assert against(back(Figure("bore", 76.51), Figure("seal land", 40)), item(BORE, LAND)) == ()
    assert against(back(checks=(BackCheck.CLEAN,)), item(by_shop_of=4)) == ()


@pytest.mark.parametrize("value", [76.50, 76.52])
def test_a_figure_at_its_limit_is_within_it(value):
    assert against(back(Figure("bore", value)), item(BORE)) == ()


@pytest.mark.parametrize(
    ("value", "unit", "hint"),
    [
        (3.012, "mm", "bore 3.012 mm is below 76.5. 3.012 in is 76.505 mm: look at the unit."),
        (1943.1, "in", "bore 1943.1 in is above 76.52. 1943.1 mm is 76.5 in: look at the unit."),
        (7651, "mm", "bore 7651 mm is above 76.52. 76.51 would do: look at the point."),
        (7.651, "mm", "bore 7.651 mm is below 76.5. 76.51 would do: look at the point."),
        (76.9, "mm", "bore 76.9 mm is above 76.52."),
    ],
)
def test_a_slip_of_unit_or_point_is_noticed(value, unit, hint):
    (said, _) = against(back(Figure("bore", value)), item(Asked("bore", unit, 76.5, 76.52)))
    assert said == f"12 cylinder barrel: {hint}"


@pytest.mark.parametrize(
    ("said", "of", "sentences"),
    [
        (
            back(checks=(BackCheck.WORK,)),
            item(),
            ["12 cylinder barrel is still to be looked at: debris and threads clean, plugs out."],
        ),
        (
            back(),
            item(BORE, LAND),
            [
                "12 cylinder barrel: bore is still to be measured, wanted 76.5 to 76.52 mm.",
                "12 cylinder barrel: seal land is still to be measured.",
            ],
        ),
        (
            back(Figure("bore", 76.53)),
            item(BORE),
            [
                "12 cylinder barrel: bore 76.53 mm is above 76.52.",
                "Send 12 cylinder barrel out again, or leave it to be decided.",
            ],
        ),
        (
            back(checks=(BackCheck.CLEAN, BackCheck.PLUGS)),
            item(),
            [
                "12 cylinder barrel is still to be looked at: work done.",
                "Send 12 cylinder barrel out again, or leave it to be decided.",
            ],
        ),
        (
            back(Figure("bore", 76.51), checks=(BackCheck.MEASURED,)),
            item(BORE),
            [
                "12 cylinder barrel is still to be looked at: work done, debris and threads "
                "clean, plugs out."
            ],
        ),
        (
            back(checks=()),
            item(),
            [
                "12 cylinder barrel is still to be looked at: work done, debris and threads "
                "clean, plugs out."
            ],
        ),
    ],
)
def test_what_speaks_against_it_is_said(said, of, sentences):
    assert list(against(said, of)) == sentences


@given(st.floats(0, 200), st.sets(st.sampled_from(BackCheck)))
def test_nothing_is_quiet_that_is_not_as_wanted(value, checks):
    said = against(back(Figure("bore", value), checks=tuple(checks)), item(BORE))
    is_right = 76.50 <= value <= 76.52 and checks >= set(ALL) - {BackCheck.MEASURED}
    assert (said == ()) == is_right


def test_limits_are_those_it_was_sent_with_whatever_the_figure_says():
    (kept,) = judged(back(Figure("bore", 80, "in", 0, 100)), item(BORE))
    assert kept == Figure("bore", 80, "mm", 76.50, 76.52)


def test_a_figure_nobody_asked_for_and_a_part_already_back_are_refused():
    with pytest.raises(BadInput, match="was not asked for"):
        checked_back(back(Figure("height", 80)), item(BORE))
    with pytest.raises(BadInput, match="12 cylinder barrel is back already"):
        checked_back(back(), item(back_at=OUT))


def test_a_batch_is_late_while_something_of_it_is_out():
    whole = SendOut(1, "u", 1, 1, "Mill Lane", date(2026, 11, 1), date(2026, 11, 20))
    out, here = item(), item(back_at=OUT)
    assert Batch(whole, (out, here)).days_late(date(2026, 11, 25)) == 5
    assert Batch(whole, (out, here)).days_late(date(2026, 11, 20)) == 0
    assert Batch(whole, (here,)).days_late(date(2026, 11, 25)) == 0
    loose = Batch(None, (item(due=date(2026, 11, 24)), item()))
    assert (loose.shop, loose.days_late(date(2026, 11, 25))) == ("Mill Lane", 1)


@pytest.mark.parametrize(
    ("figures", "is_measured"),
    [
        ((), False),
        ((Figure("bore", 76.53), Figure("seal land", 40)), False),
        ((Figure("bore", 76.51),), False),
        ((Figure("bore", 76.51), Figure("seal land", 40)), True),
    ],
)
def test_it_is_measured_when_each_figure_is_there_and_within(figures, is_measured):
    for ticked in (ALL, ()):
        kept = checked_back(back(*figures, checks=ticked), item(BORE, LAND))
        assert (BackCheck.MEASURED in kept.checks) == is_measured
        assert set(kept.checks) - {BackCheck.MEASURED} == set(ticked) - {BackCheck.MEASURED}
