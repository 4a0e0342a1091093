"""What a torque wrench is set to: published examples, marks of a scale, and what warns of it."""

from dataclasses import replace
from datetime import date
from math import cos, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st
from torque_kit import LBFT, LBIN, N, published

from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import Adapter, Length, Torque, TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import (
    at_fastener,
    best,
    calibration,
    checked_adapter,
    checked_wrench,
    settable,
    setting,
    use,
)

PUBLISHED = published("torque")
LONG = Wrench("40–200 wrench", 40, 200, N, 1, Length(450))
SHORT = Wrench("10–60 wrench", 10, 60, N, 0.5, Length(300))
FEET = Wrench("150 wrench", 20, 150, LBFT, 1)

lengths = st.floats(50, 2000)
torques = st.floats(0.1, 2000)


def inches(row):
    return Length(row["length"], "in"), Adapter(Length(row["adapter"], "in"), row.get("angle", 0))


@pytest.mark.parametrize("row", PUBLISHED["adapter"], ids=lambda row: row["source"][:24])
def test_settings_with_an_adapter_are_the_published_ones(row):
    """T L / (L + A), with A taken off where it points back (TMs, NAVEDTRA and others)."""
    torque = Torque(row["torque"], TorqueUnit(row["unit"]))
    exact = setting(torque, *inches(row))
    print_ = row["expected"]
    last = 10 ** -len(f"{print_:g}".partition(".")[2])
    assert abs(exact.value - print_) <= row.get("within", 0.5 * last)
    assert exact.unit is torque.unit
    assert at_fastener(exact, *inches(row)).value == pytest.approx(torque.value)


@pytest.mark.parametrize("row", PUBLISHED["adapter_back"], ids=lambda row: row["source"])
def test_what_the_fastener_gets_is_the_published_one(row):
    shown = Torque(row["set"], TorqueUnit(row["unit"]))
    assert at_fastener(shown, *inches(row)).value == pytest.approx(row["expected"])


def test_drag_is_added_to_the_wanted_torque():
    """AC 43.13-1B, para 7-40 d."""
    row = PUBLISHED["drag"]
    wrench = Wrench("200 wrench", 20, 200, LBIN, 1)
    found = use(Torque(row["wanted"], LBIN), wrench, drag=Torque(row["drag"], LBIN))
    assert found.wanted == found.set_to == Torque(row["expected"], LBIN)
    other = use(Torque(10), SHORT, drag=Torque(12, LBIN))
    assert other.wanted.value == pytest.approx(10 + 12 * 0.1129848, rel=1e-6)
    assert other.set_to == Torque(11.5)


@given(torques, lengths, st.floats(0.05, 1), st.floats(0, 90))
def test_an_adapter_forwards_lowers_the_setting_and_back_again(torque, grip, share, angle):
    fitted = Adapter(Length(grip * share), angle)
    exact = setting(Torque(torque), Length(grip), fitted)
    assert exact.value <= torque
    assert exact.value == pytest.approx(torque / (1 + share * cos(radians(angle))), rel=1e-9)
    assert at_fastener(exact, Length(grip), fitted).value == pytest.approx(torque)


def test_square_to_the_wrench_nothing_changes_at_all():
    """NAVEDTRA 14008: at a right angle the value stays as it is."""
    assert setting(Torque(40), Length(300), Adapter(Length(100), 90)) == Torque(40)
    assert setting(Torque(40), Length(300)) == Torque(40)


@given(torques, st.sampled_from(TorqueUnit), st.sampled_from([0.1, 0.25, 0.5, 1, 2, 5]))
def test_the_mark_is_the_nearest_one_to_the_unrounded_value(value, unit, step):
    wrench = Wrench("w", 10 * step, 1000 * step, N, step)
    exact = Torque(value, unit).newton_metres()
    mark = settable(Torque(value, unit), wrench)
    assert mark.unit is N
    assert abs(mark.value - exact) <= step / 2 * (1 + 1e-6)
    assert abs(mark.value / step - round(mark.value / step)) < 1e-6


def test_marks_that_do_not_count_from_zero_count_from_the_lower_end():
    wrench = Wrench("w", 7, 35, N, 2)
    assert [settable(Torque(value), wrench).value for value in (10, 11.9, 12.1)] == [9, 11, 13]
    assert settable(Torque(10), replace(wrench, low=8)).value == 10
    assert settable(Torque(10.5), replace(wrench, low=8, step=1)).value == 10


def test_a_mark_is_never_rounded_twice():
    """44.2 N·m are 32.6 lbf·ft; 12 in of 16 make 24.45 of it, and the mark is 24. By way of the
    mark at 33 it would be 24.75, and the mark 25."""
    wrench, fitted = replace(FEET, length=Length(12, "in")), Adapter(Length(4, "in"))
    found = use(Torque(44.2), wrench, adapter=fitted)
    assert found.exact.value == pytest.approx(44.2 / 1.3558179483 * 0.75)
    assert found.set_to == Torque(24, LBFT)
    assert settable(setting(settable(Torque(44.2), wrench), wrench.length, fitted), wrench) != (
        found.set_to
    )
    assert found.reached.value == pytest.approx(24 * 4 / 3 * 1.3558179483)
    assert found.reached.unit is N


def test_a_wrench_without_marks_is_set_as_finely_as_one_reads():
    found = use(Torque(40), replace(FEET, step=None))
    assert found.set_to == Torque(29.5, LBFT)


@pytest.mark.parametrize(
    ("torque", "wrench", "more", "said"),
    [
        (Torque(60), LONG, {}, "set the 40–200 wrench to 60 N·m"),
        (Torque(24.3), SHORT, {}, "set the 10–60 wrench to 24.5 N·m, its nearest mark to 24.3 N·m"),
        (
            Torque(40, LBFT), LONG, {},
            "set the 40–200 wrench to 54 N·m, which gives 39.8 lbf·ft at the fastener",
        ),
        (
            Torque(60), LONG, {"adapter": Adapter(Length(50))},
            "set the 40–200 wrench to 54 N·m, which gives 60 N·m at the fastener",
        ),
        (
            Torque(40, LBFT), FEET, {"adapter": Adapter(Length(50))},
            "the 150 wrench cannot be set yet: its length is not known",
        ),
    ],
)  # fmt: skip
def test_a_setting_in_words(torque, wrench, more, said):
    assert use(torque, wrench, **more).said == said


def test_without_the_wrench_s_length_an_adapter_gives_no_setting():
    found = use(Torque(40, LBFT), FEET, adapter=Adapter(Length(50)))
    assert (found.exact, found.set_to, found.reached) == (None, None, None)
    assert "measure it from the middle of the grip" in found.warnings[0]
    square = use(Torque(40, LBFT), FEET, adapter=Adapter(Length(50), 90))
    assert square.set_to == Torque(40, LBFT)


@pytest.mark.parametrize(
    ("torque", "wrench", "word"),
    [
        (Torque(250), LONG, "above the scale"),
        (Torque(30), LONG, "below the scale"),
        (Torque(35), replace(LONG, low=20), "under a fifth"),
        (Torque(19, LBFT), replace(FEET, low=0), "under a fifth"),
        (Torque(12), replace(SHORT, step=2), "more than a tenth"),
    ],
)
def test_what_a_wrench_is_not_made_for_is_warned_of(torque, wrench, word):
    (warning,) = use(torque, wrench).warnings
    assert word in warning
    assert warning.endswith("wrench.")


def test_the_usable_range_is_that_of_the_published_table():
    """TM 1-1500-204-23-9, Table 8-1: right from a fifth of full scale to the whole of it."""
    row = PUBLISHED["scale"]
    wrench = Wrench("w", 0, 100, N, 1)
    assert use(Torque(100 * row["least"]), wrench).warnings == ()
    assert use(Torque(100), wrench).warnings == ()
    assert use(Torque(100 * row["least"] - 1), wrench).warnings != ()
    assert use(Torque(20), replace(wrench, step=20 * row["coarsest"])).warnings == ()


# --- which wrench


def test_the_wrench_that_suits_all_passes_is_taken():
    wide = Wrench("wide", 5, 60, N, 1)
    found = best([Torque(8), Torque(40)], [SHORT, LONG, wide])
    assert found.wrench is SHORT
    assert best([Torque(24)], [LONG, SHORT]).wrench is SHORT
    assert best([Torque(45)], [LONG, SHORT]).wrench is SHORT
    assert best([Torque(90)], [LONG, SHORT]).wrench is LONG


def test_where_both_suit_the_middle_of_the_scale_is_better():
    """TM 1-1500-204-23-9: best between 30 and 80 per cent of the range."""
    small, large = Wrench("small", 5, 50, N, 1), Wrench("large", 20, 100, N, 1)
    assert best([Torque(49)], [small, large]).wrench is large
    assert best([Torque(30)], [small, large]).wrench is small


def test_none_is_better_than_one_that_cannot_be_set():
    assert best([Torque(500)], [SHORT, LONG]) is None
    assert best([Torque(5)], [SHORT, LONG]) is None
    assert best([], [SHORT]) is None
    assert best([Torque(40)], []) is None
    bare = replace(SHORT, length=None)
    assert best([Torque(40)], [bare], adapter=Adapter(Length(50))) is None
    assert best([Torque(40)], [bare, SHORT], adapter=Adapter(Length(50))).wrench is SHORT


def test_a_wrench_in_date_is_taken_before_one_that_is_not():
    """Both suit 24 N·m without a warning; the finer one was last calibrated two years ago."""
    finer = Wrench("finer", 10, 60, step=0.2, calibrated_on=date(2024, 11, 1))
    in_date = Wrench("in date", 10, 60, step=1, calibrated_on=date(2026, 6, 1))
    for today, wanted in ((None, "finer"), (date(2026, 11, 25), "in date")):
        found = best([Torque(24)], [finer, in_date], today=today)
        assert found is not None
        assert found.wrench.name == wanted


@given(st.lists(torques, min_size=1, max_size=4))
def test_the_best_wrench_can_always_be_set_to_the_highest(values):
    found = best([Torque(value) for value in values], [SHORT, LONG, FEET])
    if found is None:
        assert not any(
            one.low <= settable(Torque(max(values)), one).value <= one.high
            for one in (SHORT, LONG, FEET)
        )
    else:
        assert found.wanted == Torque(max(values))
        assert found.wrench.low <= found.set_to.value <= found.wrench.high


# --- calibration


@pytest.mark.parametrize(
    ("on", "word"),
    [
        (None, "Nobody noted"),
        (date(2026, 11, 26), "still to come"),
        (date(2026, 11, 25), ""),
        (date(2025, 11, 26), ""),
        (date(2025, 11, 25), "12 months ago or more"),
        (date(2020, 1, 1), "2020-01-01"),
    ],
)
def test_a_calibration_lasts_twelve_months(on, word):
    """ISO 6789-1:2017, from memory."""
    today = date(2026, 11, 25)
    said = calibration(replace(LONG, calibrated_on=on), today)
    assert word in said
    assert bool(said) == bool(word)
    warned = use(Torque(100), replace(LONG, calibrated_on=on), today=today).warnings
    assert warned == ((said,) if said else ())
    assert use(Torque(100), LONG).warnings == ()


# --- what cannot be


@pytest.mark.parametrize(
    ("change", "field", "word"),
    [
        ({"name": "  "}, "name", "name"),
        ({"low": 200, "high": 40}, "low", "wrong way round"),
        ({"low": 40, "high": 40}, "low", "starts and ends at 40"),
        ({"low": -1}, "low", "zero"),
        ({"low": float("nan")}, "low", "zero"),
        ({"low": 0, "high": 0}, "high", "above zero"),
        ({"high": float("inf")}, "high", "above zero"),
        ({"step": 0}, "step", "apart"),
        ({"step": -1}, "step", "apart"),
        ({"step": 300}, "step", "apart"),
        ({"length": Length(0)}, "length", "above zero"),
        ({"length": Length(450, "in")}, "length", "450 in"),
        ({"length": Length(4, "ft")}, "length", "mm or in"),
    ],
)
def test_a_wrench_that_cannot_be(change, field, word):
    with pytest.raises(BadInput) as refused:
        checked_wrench(replace(LONG, **change))
    assert refused.value.field == field
    assert word in refused.value.sentence


def test_a_wrench_that_can_be_is_kept_with_its_texts_clean():
    assert checked_wrench(replace(LONG, name=" 40–200  wrench ", note="a\r\nb")) == replace(
        LONG, note="a\nb"
    )
    assert checked_wrench(replace(LONG, low=0, step=None, length=None)).low == 0


@pytest.mark.parametrize(
    ("adapter", "word"),
    [
        (Adapter(Length(400)), "longer than the wrench itself"),
        (Adapter(Length(300), 180), "pointing back reaches to the grip"),
        (Adapter(Length(400), 150), "pointing back reaches to the grip"),
        (Adapter(Length(0)), "above zero"),
        (Adapter(Length(-50)), "above zero"),
        (Adapter(Length(float("nan"))), "above zero"),
        (Adapter(Length(5000)), "cannot be 5000 mm"),
        (Adapter(Length(50), 181), "180 degrees"),
        (Adapter(Length(50), -10), "0 (straight on)"),
        (Adapter(Length(50), float("nan")), "degrees"),
    ],
)
def test_an_adapter_that_cannot_be(adapter, word):
    for check in (
        lambda: checked_adapter(adapter, Length(300)),
        lambda: setting(Torque(40), Length(300), adapter),
        lambda: at_fastener(Torque(40), Length(300), adapter),
    ):
        with pytest.raises(BadInput) as refused:
            check()
        assert word in refused.value.sentence
        assert refused.value.field == "adapter"


def test_without_the_wrench_only_what_no_adapter_can_be_is_refused():
    assert checked_adapter(Adapter(Length(400), 180)).angle == 180


@pytest.mark.parametrize("value", [20, 0.4, 210])
def test_a_wrench_is_never_said_to_be_set_to_what_is_not_on_its_scale(value):
    found = use(Torque(value), Wrench("forty to two hundred", 40, 200, step=1))
    assert f"cannot be set to {value:.0f} N·m" in found.said
    assert len(found.warnings) == 1
    assert "take another wrench" in found.warnings[0]
