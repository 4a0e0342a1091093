"""Passes worked out, against recipes of public manuals and published percentages."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hole_kit import bolts, head_of, maps, ring_of
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy, Torque, TorqueUnit
from bagtag.domain.hole_order import order
from bagtag.domain.hole_places import numbered, row
from bagtag.domain.holes import Hole, HoleMap, OrderKind
from bagtag.domain.passes import passes as figures_of
from bagtag.domain.schedule import PRESETS, checked, rounds, said, turned, usual
from bagtag.domain.tightening import Pass, PassKind, from_data, to_data

PUBLISHED = json.loads(
    (Path(__file__).parents[1] / "check_values" / "passes.json").read_text("utf-8")
)
RECIPES = [recipe for recipe in PUBLISHED["recipes"] if "passes" in recipe]
ANGLES = [recipe for recipe in PUBLISHED["recipes"] if "angles" in recipe]
EACH = pytest.mark.parametrize("recipe", RECIPES, ids=lambda recipe: recipe["name"])


def joint_of(recipe):
    """The head of a recipe: ten bolts, and four more where it has a second group."""
    groups = recipe.get("groups", {})
    if not groups:
        return [bolts(10, mark="A")], head_of()
    outer = numbered(head_of(), row(4, (50, 230), (410, 230)), "B")
    names = {number: name for name, numbers in groups.items() for number in numbers}
    holes = tuple(replace(hole, group=names[hole.number]) for hole in outer.holes)
    return [bolts(10, mark="A"), bolts(4, mark="B")], replace(outer, holes=holes)


@EACH
def test_a_manuals_recipe_is_taken_kept_and_worked_out(recipe):
    held_by, found = joint_of(recipe)
    steps = from_data(recipe["passes"])
    assert checked(steps, held_by, found) == steps
    assert from_data(to_data(steps)) == steps
    done = rounds(held_by, steps, found)
    assert [one.place for one in done] == list(range(len(steps)))
    assert [one.step for one in done] == list(steps)
    for one, step in zip(done, steps, strict=True):
        assert {torque for _, torque in one.torques} == ({step.torque} if step.torque else set())
        numbers = recipe.get("groups", {}).get(step.group, range(1, 11))
        assert sorted(one.order) == sorted(numbers)
    assert turned(steps) == recipe["turned"]
    assert done[-1].said == recipe.get("last_words", done[-1].said)


@EACH
def test_what_a_recipe_prints_in_two_units_agrees(recipe):
    """The printed N·m of the torques, in the order of their passes: to within 1 per cent."""
    printed = recipe.get("printed_newton_metres", [])
    torques = [step.torque for step in from_data(recipe["passes"]) if step.torque]
    for torque, newton_metres in zip(torques, printed, strict=False):
        assert torque.newton_metres() == pytest.approx(newton_metres, rel=0.01)


@pytest.mark.parametrize("recipe", ANGLES, ids=lambda recipe: recipe["name"])
def test_angles_add_up_as_printed(recipe):
    steps = [Pass(PassKind.ANGLE, angle=angle) for angle in recipe["angles"]]
    assert turned(steps) == recipe["turned"]


@pytest.mark.parametrize("row", PUBLISHED["percent"], ids=lambda row: row["name"])
def test_the_percentages_that_are_published_can_be_chosen(row):
    found = [
        preset
        for preset in PRESETS
        if [round(step.share * 100, 2) for step in preset.passes] == row["expected"]
        and preset.passes[-1].is_round == row["last_is_round"]
    ]
    assert len(found) == 1
    assert found[0].fasteners_from == row.get("fasteners_from", found[0].fasteners_from)


def test_one_preset_keeps_to_the_bands_of_the_standard():
    """ASME PCC-1, Table 2, from memory: at most 20, then 20 to 30, 50 to 70 and 100 per cent."""
    bands = PUBLISHED["bands"]["expected"]
    inside = [
        preset.name
        for preset in PRESETS
        if len(preset.passes) == len(bands) + 1
        and all(
            low <= round(step.share * 100) <= high
            for (low, high), step in zip(bands, preset.passes, strict=False)
        )
    ]
    assert "30, 60, 100 % and once round" in inside


@pytest.mark.parametrize("preset", PRESETS, ids=lambda preset: preset.name)
def test_each_preset_ends_at_the_full_torque_and_never_falls(preset):
    done = rounds([bolts(12, value=48)], preset.passes, ring_of(12))
    figures = [one.torques[0][1].value for one in done]
    assert figures == sorted(figures)
    assert done[-1].torques[0][1] == Torque(48)
    assert checked(preset.passes, [bolts(12, value=48)]) == preset.passes


def test_the_usual_passes_are_those_of_each_line():
    """Half, two thirds and the full torque: marine diesel service manual, "Engine reassembly"."""
    lines = [bolts(6, value=25, mark="A"), bolts(2, "M6", 10, mark="B")]
    done = rounds(lines, (), ring_of(8))
    assert [dict(one.torques) for one in done] == [
        {"A": a, "B": b} for a, b in zip(figures_of(lines[0]), figures_of(lines[1]), strict=True)
    ]
    assert [one.said for one in done] == [
        "Torque to 50 %",
        "Torque to two thirds",
        "Torque to 100 %",
    ]
    assert [one.figures for one in done][::2] == ["A 12 N·m, B 5 N·m", "A 25 N·m, B 10 N·m"]
    assert {one.order for one in done} == {(1, 5, 3, 7, 2, 6, 4, 8)}


def test_what_is_tightened_by_angle_has_its_torque_and_then_its_angle():
    done = rounds([bolts(10, value=40, angle=90)], (), head_of())
    assert [one.said for one in done] == ["Torque to 100 %", "Turn 90° further"]
    assert [one.figures for one in done] == ["40 N·m", "90°"]
    told = rounds([bolts(10, value=40)], (), said="new torque-to-yield bolts")
    assert [one.figures for one in told] == ["40 N·m"]


def test_lines_tightened_by_angle_wait_for_the_full_round():
    """A goes in at 40 N·m and turns on; B and the odd bolt C in passes; D: none."""
    lines = [
        bolts(4, value=40, angle=90),
        bolts(2, "M6", 10),
        bolts(1, "M8", 25),
        HeldBy(1, "stud", "M10"),
    ]
    marks = "AAAABBCD"
    found = replace(
        ring_of(8),
        holes=tuple(replace(h, mark=m) for h, m in zip(ring_of(8).holes, marks, strict=True)),
    )
    done = rounds(lines, (), found)
    assert [dict(one.torques) for one in done[:3]] == [
        {"B": Torque(5), "C": Torque(12)},
        {"B": Torque(6.5), "C": Torque(17)},
        {"A": Torque(40), "B": Torque(10), "C": Torque(25)},
    ]
    assert [one.order for one in done] == [
        (5, 7, 6),
        (5, 7, 6),
        (1, 5, 3, 7, 2, 6, 4),
        (1, 3, 2, 4),
    ]
    assert done[3].said == "A: turn 90° further"


def test_the_one_longer_bolt_of_a_cover_goes_through_the_passes_of_the_others():
    lines = [bolts(7, value=22), bolts(1, value=22)]
    holes = tuple(replace(h, mark="B" if h.number == 2 else "A") for h in ring_of(8).holes)
    done = rounds(lines, (), replace(ring_of(8), holes=holes))
    assert [one.figures for one in done] == ["11 N·m", "15 N·m", "22 N·m"]
    assert {one.order for one in done} == {(1, 5, 3, 7, 2, 6, 4, 8)}


def test_without_a_map_a_line_goes_by_its_size():
    done = rounds([bolts(4, value=40, angle=60), bolts(2, "M6", 10)])
    assert dict(done[2].torques) == {"M8x35": Torque(40), "M6x35": Torque(10)}
    assert done[3].said == "M8x35: turn 60° further"
    assert done[0].order == ()


def test_lines_of_one_size_go_by_what_they_are():
    alike = [bolts(4, value=40), HeldBy(2, "nut", "M8", 35, torque=Torque(20))]
    assert [name for name, _ in rounds(alike)[2].torques] == ["4 bolts M8x35", "2 nuts M8x35"]
    same = [bolts(4, value=40), bolts(4, value=20)]
    assert [name for name, _ in rounds(same)[2].torques] == ["A", "B"]


def test_a_line_goes_by_its_letter_where_a_map_shows_it():
    lines = [bolts(4, value=40, mark="C"), bolts(2, "M6", 10)]
    on_map = HoleMap((Hole(1, 0, 0, "C"), Hole(2, 9, 0, "C"), Hole(3, 0, 9, "A")))
    assert [name for name, _ in rounds(lines)[2].torques] == ["M8x35", "M6x35"]
    assert [name for name, _ in rounds(lines, (), on_map)[2].torques] == ["C", "A"]


def test_passes_of_its_own_go_to_all_also_to_one_bolt():
    done = rounds([bolts(1, value=40, angle=90)], (Pass(share=0.5), Pass(share=1.0)))
    assert [one.figures for one in done] == ["20 N·m", "40 N·m"]


def test_a_torque_without_hardware_is_said_all_the_same():
    (one,) = rounds([], (Pass(torque=Torque(12)),))
    assert one.torques == (("", Torque(12)),)
    assert one.figures == "12 N·m"


def test_nothing_to_go_by_no_passes():
    assert rounds([]) == ()
    assert rounds([bolts(4)], (), ring_of(4)) == ()
    assert usual([bolts(4)]) == ()


def test_shares_without_a_torque_have_an_order_and_no_figure():
    (one,) = rounds([bolts(4)], (Pass(share=0.3),), ring_of(4))
    assert (one.torques, one.figures, one.order) == ((), "", (1, 3, 2, 4))


SAID = [
    (Pass(share=0.6), "Torque to 60 %"),
    (Pass(share=2 / 3), "Torque to two thirds"),
    (Pass(torque=Torque(40), is_round=True), "Torque to 40 N·m, all the way round"),
    (Pass(torque=Torque(40), is_reversed=True), "Torque to 40 N·m, in reverse order"),
    (Pass(PassKind.ANGLE, angle=90), "Turn 90° further"),
    (Pass(PassKind.ANGLE, angle=90, group="A"), "A: turn 90° further"),
    (Pass(PassKind.LOOSEN, is_reversed=True), "Loosen in reverse order until free"),
    (Pass(PassKind.LOOSEN, angle=360), "Loosen by 360°"),
    (
        Pass(PassKind.VERIFY, torque=Torque(122)),
        "Check: at least 122 N·m, or renew the bolt",
    ),
    (Pass(share=1.0, note="engine cold"), "Torque to 100 % (engine cold)"),
]


@pytest.mark.parametrize(("step", "words"), SAID, ids=[words for _, words in SAID])
def test_a_pass_in_words(step, words):
    assert said(step) == words


def test_the_sum_of_angles_is_that_of_one_bolt():
    """Two lines with their own angles: no bolt is turned by the sum of both."""
    steps = (
        Pass(torque=Torque(40)),
        Pass(PassKind.ANGLE, angle=90, group="A"),
        Pass(PassKind.ANGLE, angle=60, group="B"),
        Pass(PassKind.ANGLE, angle=30),
    )
    assert (turned(steps, "A"), turned(steps, "B"), turned(steps)) == (120, 90, 120)
    assert turned(()) == 0


T20 = Pass(torque=Torque(20))
WRONG = [
    ((Pass(),), "needs a torque"),
    ((Pass(torque=Torque(20), share=0.5),), "not both"),
    ((Pass(torque=Torque(0)),), "above zero"),
    ((Pass(torque=Torque(float("nan"))),), "above zero"),
    ((Pass(share=1.2),), "at most 100"),
    ((Pass(share=0.0),), "more than 0"),
    ((Pass(torque=Torque(20), angle=90),), "a pass of its own"),
    ((T20, Pass(PassKind.ANGLE)), "degrees above zero"),
    ((T20, Pass(PassKind.ANGLE, angle=0)), "degrees above zero"),
    ((T20, Pass(PassKind.ANGLE, angle=float("inf"))), "degrees above zero"),
    ((T20, Pass(PassKind.ANGLE, angle=900)), "more than a full turn"),
    ((T20, Pass(PassKind.ANGLE, angle=90, torque=Torque(5))), "give the torque its own pass"),
    ((Pass(PassKind.ANGLE, angle=90),), "no torque comes before it"),
    ((T20, Pass(PassKind.LOOSEN), Pass(PassKind.ANGLE, angle=90)), "no torque comes before it"),
    (
        (Pass(torque=Torque(20), group="A"), Pass(PassKind.ANGLE, angle=90, group="B")),
        "no torque comes before it",
    ),
    ((Pass(torque=Torque(20), group="inner"),), "neither a group of holes nor the letter"),
    ((Pass(PassKind.LOOSEN, torque=Torque(5)),), "it has no torque"),
    ((Pass(PassKind.LOOSEN, angle=-90),), "degrees above zero"),
    ((Pass(PassKind.VERIFY),), "Say which it must reach"),
    ((Pass(PassKind.VERIFY, torque=Torque(-5)),), "above zero"),
    ((Pass(PassKind.VERIFY, share=0.5),), "no share"),
    ((replace(T20, note="x" * 501),), "501 characters"),
    ((T20,) * 41, "40 passes at most"),
]


@pytest.mark.parametrize(("steps", "words"), WRONG, ids=[words for _, words in WRONG])
def test_passes_that_cannot_be_are_refused_in_one_sentence(steps, words):
    """The scan of one manual turns "90°" into "900": more than a turn is a slip."""
    with pytest.raises(BadInput) as refused:
        checked(steps, [bolts(4, mark="A"), bolts(2, mark="B")], ring_of(4))
    assert words in refused.value.sentence
    assert refused.value.field == "passes"


def test_a_group_is_known_by_line_or_by_hole():
    grouped = HoleMap((Hole(1, 0, 0, "", "inner"),))
    steps = (Pass(torque=Torque(20), group=" inner "), Pass(torque=Torque(20), group="A"))
    assert [step.group for step in checked(steps, [bolts(4)], grouped)] == ["inner", "A"]


LINES = st.lists(
    st.builds(
        bolts,
        st.sampled_from([None, 1, 4]),
        st.sampled_from(["M6", "M8"]),
        st.sampled_from([None, 10, 78.5]),
        angle=st.sampled_from([None, None, 90]),
    ),
    max_size=3,
)


@given(LINES, maps(), st.sampled_from([(), *(preset.passes for preset in PRESETS)]))
def test_each_fastener_with_a_torque_gets_its_full_figure_and_its_turn(lines, found, steps):
    done = rounds(lines, steps, found)
    torqued = [line for line in lines if line.torque]
    full = [one for one in done if one.step.share == 1.0]
    assert bool(full) == bool(torqued or steps)
    for one in full:
        assert [torque for _, torque in one.torques] == [line.torque for line in torqued]
    for one in done:
        assert set(one.order) <= set(order(found, is_reversed=one.step.is_reversed))
        assert len(set(one.order)) == len(one.order)
        assert one.said


@given(st.sampled_from(TorqueUnit), st.floats(0.5, 2000).map(lambda v: float(f"{v:.4g}")))
def test_a_share_is_in_the_unit_of_the_line_and_near_its_share(unit, value):
    """TM 1-1500-204-23-9: a wrench is right to within 4 per cent of what it is set to."""
    line = HeldBy(6, "bolt", "M8", torque=Torque(value, unit))
    for one in rounds([line], PRESETS[2].passes):
        (_, torque) = one.torques[0]
        assert torque.unit is unit
        assert abs(torque.value - one.step.share * value) < 0.04 * value


@given(st.floats(0.001, 1), st.floats(0.5, 2000).map(lambda v: float(f"{v:.4g}")))
def test_the_smallest_share_is_never_nothing(share, value):
    """Our own choice of marks: to within an eighth of the share, and a fortieth of the full."""
    ((_, torque),) = rounds([bolts(6, value=value)], (Pass(share=share),))[0].torques
    assert 0 < torque.value <= value
    assert abs(torque.value - share * value) <= min(share / 8, 1 / 40) * value * (1 + 1e-4)


def test_the_order_of_a_pass_follows_its_own_words():
    head = head_of()
    lines = [bolts(10, value=98.1)]
    steps = (
        Pass(share=1.0),
        Pass(PassKind.LOOSEN, is_reversed=True),
        Pass(share=1.0, is_round=True),
    )
    first, loose, about = rounds(lines, steps, head)
    assert loose.order == tuple(reversed(first.order))
    assert about.order == order(head, is_round=True)
    assert first.order == order(replace(head, order=OrderKind.CENTRE))


def test_a_pass_is_said_with_its_figure_though_its_note_holds_one_like_it():
    line = HeldBy(4, thread="M8", torque=Torque(8))
    (one,) = rounds((line,), (Pass(share=0.5, is_round=True, note="never above 24 N·m"),))
    assert one.said == "Torque to 50 %, all the way round (never above 24 N·m)"
    assert one.words == "Torque to 50 % = 4 N·m, all the way round (never above 24 N·m)"
