"""The page to lay the bench by: every tool once, with a box for each time it is counted."""

import io
from dataclasses import replace
from datetime import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import part
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.tools import COUNT, ToolKind, ToolNeed, ToolSheet, ToolStep
from bagtag.paper.checklist_page import FOOT, TOP
from bagtag.paper.tools_block import BACK, MORE, OUT, groups
from bagtag.paper.tools_page import NONE, opening_of, pages_of, tools_pdf
from tests.paper.checklist_kit import HEADER, joined

HEAD = ToolStep(part(4), 4, "42 cylinder head", "10 bolts M10x90")
COVER = ToolStep(part(9), 9, "12 cover", "4 screws M6x12")
AT = datetime(2026, 11, 25, 9, 30)
SHEET = ToolSheet(
    rows=(
        ToolNeed("17 mm socket", ToolKind.SOCKET, (HEAD,), is_likely=True),
        ToolNeed("5 mm hexagon key", ToolKind.KEY, (COVER,)),
        ToolNeed("40–200 wrench", ToolKind.TORQUE, (HEAD,), notes=("Set it to 54 N·m.",)),
        ToolNeed("T-bar <own>", ToolKind.SPECIAL, (HEAD, COVER)),
        ToolNeed("threadlocker, medium", ToolKind.CONSUMABLE, (COVER,)),
    ),
    steps=24,
    span="the whole build",
    unknown=(ToolStep(part(7), 7, "pump", "2 studs"),),
    out=(ToolOut(1, 1, "17 mm socket", 2, AT, "Ann"), ToolOut(2, 1, "mirror", 1, AT, "")),
    has_torque=True,
)


def printed(sheet):
    into = io.BytesIO()
    return tools_pdf(into, HEADER, sheet), into.getvalue()


def test_every_tool_is_there_with_what_it_is_for(words):
    count, pdf = printed(SHEET)
    pages = [joined(page) for page in words(pdf)]
    assert count == len(pages) == 1
    for part_of_it in (
        "The whole build · 24 steps still to be done",
        COUNT,
        *(row.name for row in SHEET.rows),
        *(kind.value for kind in (ToolKind.SOCKET, ToolKind.SPECIAL, ToolKind.CONSUMABLE)),
        "likely: look at it first",
        "2 out now, laid out 2026-11-25 09:30 by Ann",
        "Set it to 54 N·m.",
        "Steps 4, 9.",
        "42 cylinder head: 10 bolts M10x90; 12 cover: 4 screws M6x12",
        "2 studs Step 7, pump",
        "mirror",
        "No step of this sheet asks for it.",
        MORE,
    ):
        assert part_of_it in pages[0]


def test_what_is_used_up_is_not_counted_back():
    boxes = {title: {row.boxes for row in rows} for title, _, rows in groups(SHEET)}
    assert boxes.pop(ToolKind.CONSUMABLE.value) == {(OUT,)}
    assert set().union(*boxes.values()) == {(OUT, BACK)}


def test_a_page_with_a_torque_says_what_every_such_page_says(words):
    page = joined(words(printed(SHEET)[1])[0])
    assert all(caution in page for caution in TORQUE_CAUTIONS)
    without = joined(words(printed(replace(SHEET, has_torque=False))[1])[0])
    assert OVERRIDE in without
    assert TORQUE_CAUTIONS[1] not in without


def test_nothing_to_lay_out_says_so(words):
    count, pdf = printed(ToolSheet(span="the gearbox"))
    assert count == 1
    assert NONE in joined(words(pdf)[0])


@given(st.lists(st.integers(1, 60), max_size=60))
@settings(deadline=None)
def test_no_page_overflows_and_none_begins_without_a_heading(steps):
    """Tools for one step or for sixty: rows stay whole, and every row is on some page."""
    rows = tuple(
        ToolNeed(
            f"tool {n}", list(ToolKind)[n % 6], tuple(replace(HEAD, place=i) for i in range(k))
        )
        for n, k in enumerate(steps)
    )
    sheet = ToolSheet(rows=rows)
    pages = list(pages_of(opening_of(HEADER, sheet), sheet))
    for number, page in enumerate(pages):
        assert sum(block.height for block in page) <= TOP - FOOT + 1e-6
        assert number == 0 or page[0].heading
        assert not page[-1].heading
    printed_rows = [block for page in pages for block in page if block.boxes]
    wanted = [row for title, _, some in groups(sheet) if title != MORE for row in some]
    assert printed_rows[: len(wanted)] == wanted


def test_a_long_name_wraps_and_the_margins_stay_white(render):
    long = replace(SHEET.rows[0], name="Steckschlüssel " * 12, steps=(HEAD,) * 40)
    (page,) = render(printed(replace(SHEET, rows=(long,)))[1], 150)
    margin = round(12 / 25.4 * 150)
    assert page[:, :margin].min() == page[:, -margin:].min() == 255
    assert page[-margin // 2 :].min() == 255


def test_steps_that_find_no_room_are_pointed_to(words):
    """The places of all of them are there; what they are for is on the checklist."""
    steps = tuple(replace(HEAD, place=n, called=f"{n} cover, clutch side") for n in range(1, 90, 2))
    page = joined(words(printed(ToolSheet((replace(SHEET.rows[0], steps=steps),), 45))[1])[0])
    assert "Steps 1, 3, 5" in page
    assert "87, 89." in page
    assert "… see the others on the checklist" in page


def test_a_page_that_cannot_be_written_is_one_sentence(tmp_path):
    with pytest.raises(BadInput, match="cannot be written"):
        tools_pdf(tmp_path / "no" / "tools.pdf", HEADER, SHEET)
