"""What signing a step asks for, and what speaks against it, without a store."""

import re
from dataclasses import dataclass
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Anchor, Asked, Beside, Counted, Figure, Task, TaskKind, part, task
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Area, SignOff
from bagtag.domain.sign_off import SignForm, checked, is_same_person, looked_at, must_not_sign
from bagtag.domain.standing import Hindrance
from bagtag.domain.tool_out import ToolOut

FLOAT = Asked("end float", "mm", 0.1, 0.3)
BOLTS = HeldBy(6, "bolt", "M6", 25)


@dataclass(frozen=True)
class Sheet:
    called: str = "22 cover"
    asks: tuple[Asked, ...] = ()
    may_ask: tuple[Asked, ...] = ()
    held: tuple[HeldBy, ...] = ()
    hindrances: tuple[Hindrance, ...] = ()
    not_by: tuple[str, ...] = ()
    unticked: tuple[str, ...] = ()
    tools_out: tuple[ToolOut, ...] = ()


def test_a_figure_is_held_against_the_limits_of_today():
    """Whatever limits the form was filled in with: they may have been corrected since."""
    wide = Figure("end float", 0.5, "mm", 0.0, 9.0)
    with pytest.raises(BadInput, match=r"end float 0\.5 mm is above 0\.3"):
        checked(Sheet(asks=(FLOAT,)), SignForm(figures=(wide,)), "Ada")
    kept = checked(Sheet(asks=(FLOAT,)), SignForm(figures=(wide,), reason="shim on order"), "Ada")
    assert kept.figures == (Figure("end float", 0.5, "mm", 0.1, 0.3),)


def test_a_figure_that_nobody_asks_for_any_more_is_refused():
    with pytest.raises(BadInput, match="The end float is not asked for here any more"):
        checked(Sheet(), SignForm(figures=(Figure("end float", 0.2),)), "Ada")


@pytest.mark.parametrize("one", [Counted(1, 6, 6), Counted(-1, 6, 6), Counted(0, 6, -1)])
def test_counts_that_cannot_be(one):
    with pytest.raises(BadInput, match="Count them anew"):
        checked(Sheet(held=(BOLTS,)), SignForm(counts=(one,)), "Ada")


def test_what_came_off_is_what_the_log_says():
    """A form that says fewer came off does not make the count right."""
    with pytest.raises(BadInput, match="5 of 6 M6x25 bolt went back"):
        checked(Sheet(held=(BOLTS,)), SignForm(counts=(Counted(0, 5, 5),)), "Ada")
    uncounted = HeldBy(None, "bolt", "M6", 25)
    form = SignForm(counts=(Counted(0, 5, 5),))
    assert checked(Sheet(held=(uncounted,)), form, "Ada").counts == form.counts


def out(name: str, count: int = 1) -> ToolOut:
    return ToolOut(1, 1, name, count, datetime(2026, 11, 25, 9, tzinfo=UTC), "Ada")


@pytest.mark.parametrize(
    ("sheet", "said"),
    [
        (
            Sheet(unticked=("pass 2, turn 90° further",)),
            "Pass 2, turn 90° further is not ticked. Tick it, or say why it is left out.",
        ),
        (Sheet(unticked=("pass 2", "pass 3")), "Pass 2 is not ticked, nor is one after it."),
        (Sheet(unticked=("pass 1", "pass 2", "pass 3")), "nor are 2 after it"),
        (
            Sheet(tools_out=(out("10 mm socket"),)),
            "10 mm socket is laid out and not counted back. Count them back, or say where",
        ),
        (Sheet(tools_out=(out("scraper", 2),)), "2 × scraper are laid out"),
        (
            Sheet(tools_out=tuple(map(out, "abcde"))),
            "A, b, c and 2 more are laid out and not counted back",
        ),
    ],
)
def test_a_pass_left_out_and_a_tool_left_behind_want_a_reason(sheet, said):
    with pytest.raises(BadInput, match=re.escape(said)) as wrong:
        checked(sheet, SignForm(), "Ada")
    assert wrong.value.field == "reason"
    assert checked(sheet, SignForm(reason="a trial fit"), "Ada").reason == "a trial fit"


def test_tools_left_behind_are_said_before_anything_but_what_waits():
    """They hurt most: nothing is left inside (tool control of the public maintenance manuals,
    NAVEDTRA 14018)."""
    sheet = Sheet(unticked=("pass 1",), tools_out=(out("scraper"),), held=(BOLTS,))
    with pytest.raises(BadInput, match="Scraper is laid out"):
        checked(sheet, SignForm(counts=(Counted(0, 6, 5),)), "Ada")


def test_what_waits_wants_a_reason():
    sheet = Sheet(hindrances=(Hindrance("21 dowel must go behind it"),))
    with pytest.raises(BadInput, match=r"22 cover waits: 21 dowel must go behind it\. Do that"):
        checked(sheet, SignForm(reason="  "), "Ada")
    assert checked(sheet, SignForm(reason="trial fit"), "Ada").reason == "trial fit"


@given(st.text(st.characters(categories=["L", "N"]), min_size=1, max_size=12), st.data())
def test_a_name_is_one_persons_however_it_is_written(name, data):
    dots = data.draw(st.text(st.sampled_from(" .-,"), max_size=4))
    at = data.draw(st.integers(0, len(name)))
    assert is_same_person(name, name[:at] + dots + name[at:].casefold())
    assert not is_same_person(name, name + "x")


def test_a_hold_point_looks_at_its_area_what_is_below_and_the_step_beside_it():
    areas = [Area(1, 1, "engine"), Area(2, 1, "case", 1), Area(3, 1, "outside")]
    hold = Task(9, "h", 1, TaskKind.HOLD_POINT, "hold", Anchor(Beside.AFTER, part(4)), 1)
    places = {part(1): 1, part(2): 2, part(3): 3, part(4): 3, part(5): None, task(9): 1}
    work = looked_at(task(9), hold, places, areas)
    assert work == {part(1), part(2), part(4), task(9)}
    at = datetime(2026, 11, 25, tzinfo=UTC)
    names = {1: "Ada", 2: "ADA", 3: "Cy", 4: "Ben", 5: "Di"}
    signed = {part(n): SignOff(n, n, who, at) for n, who in names.items()}
    assert must_not_sign(work, signed) == ("ADA", "Ben")
