"""Hardware on a label: angle, new or not, lubrication and holes, with nothing left out unsaid."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag.domain.hardware import OVERRIDE, Adapter, HeldBy, Length, Stretch, Torque
from bagtag.paper import stock as label_stock
from bagtag.paper.label_layout import layout
from tests.paper.label_kit import STOCKS, a_label

BOLTS = HeldBy(
    10,
    "bolt",
    "M10",
    90,
    drive="17 mm hex",
    torque=Torque(54),
    grade="10.9",
    head="flange",
    washer="plain",
    lubrication="oil",
    one_time=True,
    angle=90,
    stretch=Stretch(0.13, 0.15),
    adapter=Adapter(Length(50)),
    tool="angle gauge",
)
SCREWS = HeldBy(4, "screw", "M6", 25, torque=Torque(9))
HOLES = ("A, holes 1–10", "B, holes 11–14")
SIZES = (
    "Of the hardware only number, size and holes did fit.",
    "Of the hardware only number and size did fit.",
)
LOST = {
    "Details of the hardware did not fit.",
    "The hole numbers did not fit.",
    "Hole numbers and details of the hardware did not fit.",
    "The torque did not fit.",
    "Torque and hole numbers did not fit.",
    *SIZES,
    "The hardware did not fit.",
}

KEPT = {words for words in LOST if "details" in words.casefold() or words.startswith("The hole")}
"""What may be missing beside a torque."""


def said(laid):
    return " ".join(word.text for word in laid.words).replace("\u00a0", " ")


def laid_out(stock, **changes):
    label = a_label(facts=(), held_by=(BOLTS, SCREWS), holes=HOLES)
    return layout(replace(label, **changes), label_stock.find(stock), 300)


def test_a_large_label_says_all_of_it():
    laid = laid_out("roll-4x6in")
    for part in (
        "A, holes 1–10: 10 bolts M10x90",
        "54 N·m + 90°",
        "threads oil",
        "new each time",
        "adapter 50 mm",
        "B, holes 11–14: 4 screws M6x25",
        OVERRIDE,
    ):
        assert part in said(laid)
    assert laid.left_out == ()


@pytest.mark.parametrize("stock", STOCKS)
@given(count=st.integers(1, 4), mapped=st.booleans(), many=st.integers(1, 30))
@settings(max_examples=15, deadline=None)
def test_what_a_label_leaves_out_it_names(stock, count, mapped, many):
    """On every stock: either a piece is there, or a sentence says that it is not."""
    held_by = (BOLTS, SCREWS)[:count] * ((count + 1) // 2)
    holes = tuple(f"{'AB'[n % 2]}, holes 1–{many}" for n in range(len(held_by))) if mapped else ()
    laid = laid_out(stock, held_by=held_by, holes=holes)
    words, lost = said(laid), LOST & set(laid.left_out)
    assert len(lost) <= 1
    assert lost or str(BOLTS) in words
    assert lost or all(f"{hole}: " in words for hole in holes)
    if lost & set(SIZES[:1]):
        assert all(f"{hole}: " in words for hole in holes)
    if lost & set(SIZES):
        assert "10 bolts M10x90, new each time" in words
    if "54 N·m" in words:
        assert OVERRIDE in words
        assert "54 N·m + 90°" in words
        assert "new each time" in words
    else:
        assert lost & (LOST - KEPT)


def test_the_torque_outlasts_hole_numbers_and_details():
    """Of ever smaller labels the first things to go are details, then holes, then the torque."""
    order = [
        "Details of the hardware did not fit.",
        "Hole numbers and details of the hardware did not fit.",
        "The torque did not fit.",
        "Torque and hole numbers did not fit.",
        *SIZES,
        "The hardware did not fit.",
    ]
    seen = set()
    for stock in STOCKS:
        seen |= LOST & set(laid_out(stock).left_out)
    assert seen <= set(order)
    assert len(seen) >= 2


def test_a_line_that_is_in_no_hole_stands_as_it_is():
    laid = laid_out("roll-4x6in", holes=("A, hole 3", ""))
    assert "A, hole 3: 10 bolts" in said(laid)
    assert "; 4 screws" not in said(laid)
    assert "4 screws M6x25, 9 N·m" in said(laid)
