"""The drawing of a wrench with its adapter."""

from math import atan2, degrees, dist

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_kit import inside, only, overlap, words

from bagtag.domain.adapter_picture import ASPECT, draw
from bagtag.domain.hardware import Adapter, Length
from bagtag.domain.picture import Box, Circle, Ink, Line, Text

grips = st.none() | st.floats(100, 1500).map(lambda value: Length(round(value)))
adapters = st.builds(
    Adapter, st.floats(10, 800).map(lambda value: Length(round(value))), st.floats(0, 180)
)


@given(grips, adapters, st.floats(2.5, 4))
def test_everything_lies_in_the_picture_and_no_lettering_overlaps(grip, adapter, aspect):
    picture = draw(grip, adapter, aspect=aspect)
    assert picture.aspect == aspect
    for item in picture.items:
        assert inside(item.bounds, 0, 0, aspect, 1), item
    texts = only(picture, Text)
    for place, text in enumerate(texts):
        for other in texts[place + 1 :]:
            assert not overlap(text.bounds, other.bounds), (text, other)


@given(grips, adapters, st.floats(2.5, 4))
def test_the_nut_stands_clear_of_the_wrench_s_head(grip, adapter, aspect):
    picture = draw(grip, adapter, aspect=aspect)
    (nut,) = [one for one in only(picture, Circle) if one.ink is Ink.PAPER]
    (head,) = [one for one in only(picture, Circle) if one.radius > nut.radius]
    apart = dist((nut.x, nut.y), (head.x, head.y))
    assert apart > nut.radius + head.radius + 0.04


@given(grips, adapters, st.floats(2.5, 4))
def test_no_letter_stands_on_the_wrench_or_the_nut(grip, adapter, aspect):
    picture = draw(grip, adapter, aspect=aspect)
    letters = [text for text in only(picture, Text) if len(text.text) == 1]
    bodies = [*only(picture, Box), *(one for one in only(picture, Circle) if one.radius > 0.05)]
    for letter in letters:
        for body in bodies:
            assert not overlap(letter.bounds, body.bounds), (letter, body)


@pytest.mark.parametrize("angle", [0, 30, 90, 120, 180])
def test_the_adapter_stands_at_its_angle(angle):
    picture = draw(Length(300), Adapter(Length(100), angle))
    (bar,) = [one for one in only(picture, Line) if one.weight > 0.03]
    assert bar.ink is Ink.ACCENT
    drawn = degrees(atan2(bar.y1 - bar.y2, bar.x2 - bar.x1))
    assert drawn == pytest.approx(angle, abs=0.01)


def test_a_longer_adapter_is_drawn_longer():
    def drawn(length):
        picture = draw(Length(300), Adapter(Length(length)))
        (bar,) = [one for one in only(picture, Line) if one.weight > 0.03]
        return dist((bar.x1, bar.y1), (bar.x2, bar.y2))

    assert drawn(120) < drawn(180) < drawn(240)


def test_each_letter_is_told_with_its_figure():
    said = words(draw(Length(12, "in"), Adapter(Length(4, "in"), 30)))
    assert {"L", "A", "a", "L  12 in", "A  4 in", "a  30°"} <= set(said)
    assert "T × L ÷ (L + A cos a)" in said
    straight = words(draw(None, Adapter(Length(50))))
    assert "a" not in straight
    assert {"L  not known", "T × L ÷ (L + A)"} <= set(straight)


def test_two_weights_for_the_parts_and_one_for_what_is_measured():
    lines = only(draw(Length(300), Adapter(Length(100), 45), aspect=ASPECT), Line)
    assert len({line.weight for line in lines}) == 3
