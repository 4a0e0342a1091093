"""Setting text: no line too wide, no word lost, and a cut that is always marked."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, register, tidy, width
from bagtag.paper.typeset import cut, wrap

texts = st.text(
    st.sampled_from("abcdefg WimÄß éжω<&>1 ,.-") | st.characters(codec="utf-8"), max_size=300
).map(tidy)
fonts = st.sampled_from([REGULAR, MEDIUM, BOLD])


@given(texts, fonts, st.floats(1, 40))
def test_widths_are_those_reportlab_reckons_with(text, font, size):
    register()
    assert width(text, font, size) == pytest.approx(stringWidth(text, font, size), abs=1e-6)


@given(texts, fonts, st.floats(20, 200))
def test_wrapping_loses_nothing_and_keeps_to_the_width(text, font, room):
    lines = wrap(text, font, 10, room)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    for line in lines:
        assert width(line, font, 10) <= room + 1e-6 or len(line) == 1


@given(texts, fonts, st.floats(60, 200), st.integers(1, 5), st.sampled_from(["", " × 12"]))
def test_a_cut_is_marked_and_keeps_its_tail(text, font, room, most, tail):
    lines, was_cut = cut(text, font, 10, room, most, tail=tail)
    assert len(lines) <= most
    assert all(width(line, font, 10) <= room + 1e-6 for line in lines)
    if was_cut:
        assert lines[-1].endswith("…" + tail)
    else:
        assert "".join(lines).replace(" ", "") == (text + tail).replace(" ", "")


def test_a_cut_falls_between_words_where_it_can():
    assert cut("Main bearing, clutch side", REGULAR, 10, 80, 1) == (["Main bearing…"], True)
    assert cut("Kurbelwellenhauptlager", REGULAR, 10, 60, 1) == (["Kurbelwelle…"], True)
