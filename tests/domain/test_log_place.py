"""Places in the log and numbers on labels: room between any two, no number twice."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.log_place import STEP, after, between, inserted_number


@given(st.integers(-(2**40), 2**40), st.integers(1, 2**30))
def test_a_place_between_two_lies_between_or_there_is_no_room(low, gap):
    place = between(low, low + gap)
    assert place is None if gap == 1 else low < place < low + gap


@given(st.integers(-(2**40), 2**40))
def test_there_is_always_a_place_before_the_first_and_after_the_last(place):
    assert between(None, place) < place < after(place)


def test_about_twenty_lines_go_between_two_before_the_log_is_spread():
    low, high, lines = after(None), after(after(None)), 0
    while (place := between(low, high)) is not None:
        low, lines = place, lines + 1
    assert lines == 20 == STEP.bit_length() - 1


@pytest.mark.parametrize(
    ("previous", "taken", "number"),
    [
        ("27", {"27", "28"}, "27a"),
        ("27", {"27", "27a"}, "27b"),
        ("27a", {"27", "27a"}, "27b"),
        ("27b", {"27", "27b"}, "27a"),
        ("0", set(), "0a"),
        ("27", {f"27{letter}" for letter in "abcdefghijklmnopqrstuvwxyz"}, "27aa"),
    ],
)
def test_the_number_after_another(previous, taken, number):
    assert inserted_number(previous, taken) == number


@given(st.lists(st.integers(0, 50), max_size=60))
def test_numbers_put_in_anywhere_are_never_the_same(after_which):
    numbers = ["1", "2", "3"]
    for which in after_which:
        previous = numbers[which % len(numbers)]
        made = inserted_number(previous, set(numbers))
        assert made not in numbers
        assert made.rstrip("abcdefghijklmnopqrstuvwxyz") == previous.rstrip(
            "abcdefghijklmnopqrstuvwxyz"
        )
        numbers.append(made)
