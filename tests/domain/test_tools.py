"""The list of what to lay out: wrenches by range, what goes on, each with its steps."""

from datetime import date, datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.fitting import TaskKind
from bagtag.domain.hardware import Adapter, HeldBy, Length, Stretch, Torque, TorqueUnit
from bagtag.domain.schedule import rounds
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.tools import ToolKind, ToolSheet, out_words, places_words
from bagtag.domain.tools_consumables import locker, lubricant, substances
from bagtag.domain.tools_work import Stage
from bagtag.domain.tools_wrench import spans, tightened
from bagtag.domain.wrench import Wrench
from tests.domain.tools_kit import names, told, work

NM = TorqueUnit.NEWTON_METRE


def bolts(torque: float, unit: TorqueUnit = NM, **more) -> HeldBy:
    return HeldBy(4, thread="M8", length=30, drive="13 mm hex", torque=Torque(torque, unit), **more)


def of(kind: ToolKind, *works, **more) -> list[str]:
    return [row.name for row in told(*works, **more).of(kind)]


# Wrenches that the bench has not


def test_a_wrench_is_asked_for_by_what_it_must_cover():
    found = told(work(1, bolts(8)), work(2, bolts(25)), work(3, bolts(40)))
    (row,) = found.of(ToolKind.TORQUE)
    assert (row.name, row.places) == ("torque wrench for 8 to 40 N·m", (1, 2, 3))
    assert found.has_torque


def test_one_wrench_covers_no_more_than_its_full_scale_down_to_a_fifth():
    """TM 1-1500-204-23-9, paragraph 8-3 and Table 8-1: from 20 % of full scale."""
    works = [work(n, bolts(torque)) for n, torque in enumerate((8, 10, 40, 50, 110), 1)]
    assert of(ToolKind.TORQUE, *works) == [
        "torque wrench for 8 to 10 N·m",
        "torque wrench for 40 to 110 N·m",
    ]


def test_torques_of_one_unit_keep_it_and_mixed_ones_are_told_in_newton_metres():
    foot = TorqueUnit.POUND_FOOT
    assert of(ToolKind.TORQUE, work(1, bolts(18, foot)), work(2, bolts(40, foot))) == [
        "torque wrench for 18 to 40 lbf·ft"
    ]
    assert of(ToolKind.TORQUE, work(1, bolts(18, foot)), work(2, bolts(40))) == [
        "torque wrench for 24.4 to 40 N·m"
    ]


def test_the_drag_of_a_self_locking_nut_is_added_and_said():
    (row,) = told(work(1, bolts(20, drag=Torque(2)))).of(ToolKind.TORQUE)
    assert row.name == "torque wrench for 22 N·m"
    assert row.steps[0].what == "4 bolts M8x30, 20 N·m and 2 N·m of drag"


@given(st.lists(st.floats(0.1, 5000), min_size=1, max_size=40))
def test_every_torque_lies_in_a_span_that_one_wrench_covers_and_no_span_is_too_many(values):
    found = spans([Torque(value) for value in values])
    for low, high in found:
        assert low.value >= high.value * 0.2 - 1e-6
    for value in values:
        assert sum(low.value <= value <= high.value for low, high in found) == 1
    for (_, small), (_, large) in pairwise(found):
        assert small.value < large.value * 0.2


# Wrenches of the bench

SMALL = Wrench("small wrench", 5, 25, step=0.5, calibrated_on=date(2026, 3, 1))
LARGE = Wrench("40 to 200", 40, 200, step=1, length=Length(500))
INCHES = Wrench("inch wrench", 30, 250, TorqueUnit.POUND_INCH, step=5)


def test_the_bench_s_own_wrenches_come_first_with_what_they_are_set_to():
    found = told(work(1, bolts(10)), work(2, bolts(110)), wrenches=[SMALL, LARGE])
    small, large = found.of(ToolKind.TORQUE)
    assert (small.name, small.steps[0].what) == ("small wrench", "4 bolts M8x30, 10 N·m")
    assert (large.name, large.steps[0].what) == ("40 to 200", "4 bolts M8x30, 110 N·m")


def test_a_setting_in_the_wrench_s_own_unit_is_said():
    """10 N·m is 88.5 lbf·in (NIST SP 811, B.8): the nearest mark of 5 is 90."""
    (row,) = told(work(1, bolts(10)), wrenches=[INCHES]).of(ToolKind.TORQUE)
    assert row.steps[0].what == "4 bolts M8x30, 10 N·m: set it to 90 lbf·in"


def test_what_no_wrench_of_the_bench_reaches_is_asked_for_by_its_range():
    works = work(1, bolts(10)), work(2, bolts(300))
    assert of(ToolKind.TORQUE, *works, wrenches=[SMALL]) == [
        "small wrench",
        "torque wrench for 300 N·m",
    ]


def test_an_adapter_changes_the_setting_and_is_laid_out():
    """T 110, L 500, A 50 straight on: 110 · 500 / 550 = 100."""
    line = bolts(110, adapter=Adapter(Length(50)))
    found = told(work(1, line), wrenches=[LARGE])
    wrench = next(row for row in found.rows if row.name == "40 to 200")
    assert wrench.steps[0].what == "4 bolts M8x30, 110 N·m: set it to 100 N·m"
    assert "adapter 50 mm for the torque wrench" in names(found)


def test_an_adapter_that_no_wrench_can_take_asks_for_another_wrench():
    line = bolts(110, adapter=Adapter(Length(600)))
    assert "torque wrench for 110 N·m" in names(told(work(1, line), wrenches=[LARGE]))


def test_a_wrench_s_calibration_is_said_where_it_is_out_of_date():
    def notes(day: date) -> tuple[str, ...]:
        return told(work(1, bolts(10)), wrenches=[SMALL], today=day).of(ToolKind.TORQUE)[0].notes

    assert notes(date(2026, 11, 25)) == ()
    assert "2026-03-01" in notes(date(2027, 3, 1))[0]


# Stages of a joint


def test_what_is_run_in_by_hand_gets_its_wrench_at_the_final_tightening():
    line = bolts(24, threadlocker="medium", angle=90)
    run_in = told(work(1, line, stage=Stage.RUN_IN))
    final = told(work(9, line, stage=Stage.TIGHTEN))
    assert names(run_in) == ["13 mm socket or spanner", "threadlocker, medium strength"]
    assert names(final) == ["13 mm socket", "torque wrench for 24 N·m", "angle gauge"]
    assert (run_in.has_torque, final.has_torque) == (False, True)


def test_a_torque_that_only_the_passes_say_has_its_cautions_too():
    assert told(work(1, passes=(Pass(torque=Torque(40)),))).has_torque


def test_a_line_of_one_size_with_another_goes_through_its_own_passes():
    nuts = HeldBy(4, "nut", "M8", 30, torque=Torque(24), drag=Torque(2))
    both = (bolts(24), nuts)
    found = list(tightened([work(1, *both, rounds=rounds(both))]))
    assert [one.through for one in found] == [(Torque(12), Torque(16), Torque(24))] * 2


def test_a_pass_by_angle_wants_the_gauge_and_its_own_figures_a_wrench():
    turn, check = Pass(PassKind.ANGLE, angle=90), Pass(PassKind.VERIFY, Torque(122))
    passes = (Pass(torque=Torque(30)), turn, check)
    found = told(work(1, bolts(25), passes=passes))
    assert of(ToolKind.TORQUE, work(1, bolts(25), passes=passes)) == [
        "torque wrench for 25 to 122 N·m",
        "angle gauge",
    ]
    assert "a pass of 122 N·m" in [step.what for row in found.rows for step in row.steps]


def test_a_stretch_is_measured():
    line = HeldBy(2, thread="M8", stretch=Stretch(0.13, 0.15))
    assert "micrometer for the bolts' length" in names(told(work(1, line)))


# What else is laid out


def test_ways_of_locking_want_their_tools():
    found = told(
        work(
            1,
            HeldBy(1, "nut", "M18", locking="staked"),
            HeldBy(2, thread="M6", locking="lock wired"),
        ),
        work(
            2, HeldBy(1, "split pin"), HeldBy(2, "circlip"), HeldBy(1, "nut", "M12", washer="tab")
        ),
    )
    assert {row.name for row in found.of(ToolKind.OTHER)} == {
        "hammer and centre punch",
        "lock-wire pliers",
        "pliers and side cutters",
        "circlip pliers",
        "hammer and drift for the tab washer",
    }
    assert "lock wire" in [row.name for row in found.of(ToolKind.CONSUMABLE)]


def test_special_tools_are_those_noted_of_the_part_and_of_its_hardware():
    line = HeldBy(1, "nut", "M18", drive="27 mm hex", tool="flywheel holder")
    found = told(work(4, line, tools="flywheel puller, thread protector"))
    assert {row.name for row in found.of(ToolKind.SPECIAL)} == {
        "flywheel holder",
        "flywheel puller",
        "thread protector",
    }


def test_the_kind_of_a_part_has_likely_tools():
    found = told(work(1, part="oil seal"), work(2, part="circlip"), work(3, part="bearing cap"))
    assert [(row.name, row.is_likely) for row in found.rows] == [
        ("circlip pliers", True),
        ("seal driver", True),
    ]
    noted = told(work(1, part="oil seal", tools="seal sleeve"))
    assert names(noted) == ["seal sleeve"]


def test_a_task_brings_its_own():
    found = told(work(1, task=TaskKind.END_FLOAT), work(2, task=TaskKind.FILL_OIL))
    assert names(found) == ["dial gauge on its stand", "funnel", "oil, as the manual says"]


def test_a_tool_that_a_drive_names_is_the_one_that_the_fastener_needs():
    found = told(work(1, HeldBy(1, "circlip", drive="Circlip pliers")), work(2, part="circlip"))
    (row,) = found.rows
    assert (row.name, row.places, row.is_likely) == ("Circlip pliers", (1, 2), False)


# What goes on


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("engine oil", ("engine oil",)),
        ("oil; grease to hold it", ("oil, as the manual says", "grease, as the manual says")),
        ("oil on the seat alone; no solvent near it", ("oil, as the manual says",)),
        ("nothing", ()),
        ("nothing: no oil on the rubber", ()),
        ("nothing: dry and free of oil, never kinked or turned inside out", ()),
        ("nothing inside; thread sealant only where it screws in", ("thread sealant",)),
        ("no oil, no grease", ()),
        ("a smear of soap for a rubber grip, no oil", ("soapy water",)),
        ("thread seal that stands oil and coolant", ("thread sealant",)),
        ("new gaskets, dry; no sealant", ()),
        ("blind holes blown dry, oil ways brushed and flushed, bores oiled",
         ("oil, as the manual says",)),
        ("oil on seats; a trace of high-melting grease on a dry clutch's spline",
         ("oil, as the manual says", "high-melting grease")),
        ("assembly lubricant on the lobes, engine oil on the journals",
         ("assembly lubricant", "engine oil")),
        ("threadlocker on its screws; sealant on the rubber of its lead",
         ("threadlocker, grade as the manual says", "sealant")),
        ("grease behind the lip, oil on the shaft, the housing clean",
         ("grease, as the manual says", "oil, as the manual says")),
    ],
)  # fmt: skip
def test_what_goes_on_is_told_from_a_part_s_words(words, found):
    assert substances(words) == found


def test_threadlocker_is_named_by_its_strength_once():
    line = HeldBy(6, "screw", "M5", drive="T25", threadlocker="medium")
    found = told(work(1, line, usual="threadlocker on its screws; sealant on its lead"))
    rows = found.of(ToolKind.CONSUMABLE)
    assert [(row.name, row.is_likely) for row in rows] == [
        ("sealant", True),
        ("threadlocker, medium strength", False),
    ]
    assert (locker("blue"), locker("grade not given")) == (
        "threadlocker, blue",
        "threadlocker, grade as the manual says",
    )


def test_lubrication_is_named_and_dry_threads_want_nothing():
    assert lubricant("oil") == lubricant("oiled") == ("oil, as the manual says",)
    assert lubricant("molybdenum grease") == ("molybdenum grease",)
    assert lubricant("special paste") == ("special paste",)
    assert lubricant("dry") == lubricant("clean and dry") == lubricant("") == ()


# The sheet itself


def test_consumables_are_not_counted_back_and_tools_are():
    """NAVEDTRA 14018, tool control: consumables are defined apart from tools."""
    assert [kind for kind in ToolKind if not kind.is_counted] == [ToolKind.CONSUMABLE]


def out(name: str, count: int = 1) -> ToolOut:
    return ToolOut(1, 1, name, count, datetime(2026, 11, 25, 8), "Ada")


def test_what_is_out_is_found_by_name_however_it_is_written():
    sheet = ToolSheet(told(work(1, bolts(20))).rows, out=(out("13 MM  socket"), out("lamp")))
    assert sheet.is_out("13 mm socket") == sheet.out[0]
    assert sheet.is_out("torque wrench for 20 N·m") is None
    assert [one.name for one in sheet.extra] == ["lamp"]
    assert out_words([out("lamp"), out("13 mm spanner", 2)]) == "lamp, 2 × 13 mm spanner"
    assert out_words([]) == ""


def test_steps_are_named_by_their_places():
    assert places_words([4]) == "step 4"
    assert places_words([9, 4, 5]) == "steps 4, 5, 9"
    assert places_words([4, 5, 6, 9]) == "steps 4–6, 9"


line = st.builds(
    HeldBy,
    count=st.integers(0, 12),
    kind=st.sampled_from(["bolt", "screw", "nut", "stud", "circlip"]),
    thread=st.sampled_from(["", "M6", "M8", "M10", "3/8-16", "M9.5"]),
    drive=st.sampled_from(["", "10 mm hex", "5 mm allen", "T30", "slot", "odd tool"]),
    torque=st.none() | st.builds(Torque, st.floats(0.5, 400), st.sampled_from(TorqueUnit)),
    drag=st.none() | st.builds(Torque, st.floats(0.1, 5)),
    threadlocker=st.sampled_from(["", "medium"]),
    lubrication=st.sampled_from(["", "dry", "oil"]),
)
wrench = st.builds(
    lambda name, low, times, step: Wrench(name, low, low * times, step=step),
    st.sampled_from(["a", "b", "c"]),
    st.floats(1, 50),
    st.floats(2, 10),
    st.sampled_from([None, 0.5, 1.0]),
)


@given(
    st.lists(st.lists(line, max_size=4), max_size=6),
    st.lists(wrench, max_size=3, unique_by=lambda one: one.name),
)
def test_every_torque_has_a_wrench_and_no_name_stands_twice(joints, wrenches):
    works = [work(n, *lines) for n, lines in enumerate(joints, 1)]
    found = told(*works, wrenches=wrenches)
    for one in works:
        torques = sum(line.torque is not None for line in one.lines)
        rows = [r for r in found.of(ToolKind.TORQUE) if "gauge" not in r.name]
        steps = [s for row in rows for s in row.steps if s.place == one.step.place]
        assert len(steps) == torques
    kinds = list(ToolKind)
    order = [kinds.index(row.kind) for row in found.rows]
    assert order == sorted(order)
    plain = [(r.kind, r.name) for r in found.rows if r.kind is not ToolKind.TORQUE]
    assert len(plain) == len(set(plain))
