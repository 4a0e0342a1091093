"""A sheet in one line, for lists and cards."""

import pytest
from measuring_kit import limits, sheet

from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.measuring.text import summary

K = SheetKind
WORN = ("76.31", "76.27", "76.25", "76.22", "76.20", "76.19")


@pytest.mark.parametrize(
    ("kept", "said"),
    [
        (sheet(K.BORE), "6 readings to take"),
        (sheet(K.END_FLOAT), "1 reading to take"),
        (sheet(K.BORE, WORN[:2]), "4 of 6 readings still to take"),
        (
            sheet(K.BORE, WORN, limits=[limits("size", wear=(None, "76.20"))]),
            "worn: bore 76.31 mm, at most 76.20",
        ),
        (
            sheet(K.BORE, WORN, limits=[limits("size", (None, "76.20"))]),
            "out of limits: bore 76.31 mm, at most 76.20",
        ),
        (
            sheet(K.BORE, WORN, limits=[limits("size", wear=(None, "76.31"))], step="0.01"),
            "too close to call: bore 76.31 mm, at most 76.31",
        ),
        (
            sheet(K.BORE, WORN, limits=[limits("size", wear=(None, "76.40"))]),
            "measured, within limits; no limit given for taper and out of round",
        ),
        (
            sheet(K.END_FLOAT, ["0.10"], limits=[limits("end float", ("0.05", "0.20"))]),
            "measured, as new",
        ),
        (
            sheet(K.END_FLOAT, ["0.10"], limits=[limits("end float", wear=("0.05", "0.20"))]),
            "measured, within limits",
        ),
        (sheet(K.END_FLOAT, ["0.10"]), "measured, no limit given: end float 0.10 mm"),
        (
            sheet(K.RING_GAP, ["0.10"], limits=[limits("gap", ("0.25", "0.40"))]),
            "out of limits: gap of ring 1 0.10 mm, 0.25 to 0.40; 2 of 3 readings still to take",
        ),
        (
            sheet(K.VALVES, ("0.10", "0.20"), limits=[limits("inlet", wear=("0.18", "0.22"))]),
            "out of limits: 1 inlet 0.10 mm, 0.18 to 0.22",
        ),
    ],
)
def test_one_line_says_how_it_stands(kept, said):
    assert summary(kept) == said
