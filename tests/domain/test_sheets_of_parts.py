"""What the sheets of a job say of its parts: which hold one back, and which ask for a new one."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from bagtag.domain.measuring.sheet import Decision, Limits, MeasureSheet, Reading, SheetKind
from bagtag.domain.model import Fate
from bagtag.domain.sheets_of_parts import decided_to_renew, open_by_part, out_of_limits

AT = datetime(2026, 11, 3, 9, tzinfo=UTC)
HELD = (Limits("end float", new_high=Decimal("0.20")),)
FLOAT = MeasureSheet(1, "u", 1, SheetKind.END_FLOAT, removal_id=7, limits=HELD)
SHAFT = MeasureSheet(2, "v", 1, SheetKind.SIZE, removal_id=7)
TO_WORK = Decision(Fate.DECIDE, "Ada", AT, work="Grind it.")


def read(value: str) -> MeasureSheet:
    return replace(FLOAT, readings=(Reading("end float", Decimal(value)),))


@pytest.mark.parametrize(
    ("sheet", "holds"), [(FLOAT, False), (read("0.15"), False), (read("0.25"), True), (SHAFT, True)]
)
def test_what_is_set_at_the_build_holds_a_part_back_only_where_it_is_out(sheet, holds) -> None:
    assert [one.holds for one in open_by_part([sheet], {})[7]] == [holds]


@pytest.mark.parametrize(("hours", "is_worked"), [(None, False), (-1, False), (1, True)])
def test_what_is_worked_first_is_worked_once_it_is_back_since(hours, is_worked) -> None:
    back = {} if hours is None else {7: AT + timedelta(hours=hours)}
    (one,) = open_by_part([replace(SHAFT, decision=TO_WORK)], back)[7]
    assert (one.work, one.is_worked) == ("Grind it", is_worked)


def test_sheets_of_no_part_hold_none_and_those_of_one_come_together() -> None:
    found = open_by_part([FLOAT, replace(SHAFT, removal_id=None), SHAFT], {})
    assert {of: len(sheets) for of, sheets in found.items()} == {7: 2}


def test_out_of_limits_asks_for_a_new_part_until_it_is_decided() -> None:
    out = read("0.25")
    renew = replace(out, decision=Decision(Fate.RENEW, "Ada", AT, why="bent", said="0.25 mm"))
    assert out_of_limits([out]) == {7: "out of limits: end float 0.25 mm, at most 0.20"}
    assert out_of_limits([read("0.15"), replace(out, removal_id=None)]) == {}
    assert out_of_limits([renew]) == {}
    assert decided_to_renew([renew, out]) == {7: "0.25 mm"}
    assert decided_to_renew([replace(out, decision=TO_WORK)]) == {}


@pytest.mark.parametrize(
    ("change", "is_again"),
    [
        ({}, True),
        ({"readings": ()}, False),
        ({"removal_id": 8}, False),
        ({"kind": SheetKind.RUN_OUT}, False),
        ({"id": 0}, False),
    ],
)
def test_a_later_sheet_of_its_kind_takes_the_place_of_one_that_asked_for_work(change, is_again):
    asked = replace(read("0.25"), decision=TO_WORK)
    later = replace(read("0.10"), **({"id": 9} | change))
    ids = [one.said for one in open_by_part([asked, later], {}).get(7, ())]
    assert any(said.startswith("out of limits") for said in ids) is not is_again
