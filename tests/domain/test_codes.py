"""Tag codes against ISO/IEC 7064 MOD 37-2: stored vectors and python-stdnum as a second opinion."""

import json
import random
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_2

from bagtag.domain import codes
from bagtag.domain.errors import BadInput

VALUES = json.loads((Path(__file__).parents[1] / "check_values" / "codes.json").read_text("utf-8"))
VECTORS = [v for v in VALUES["values"] if v["topic"] == "ISO/IEC 7064 MOD 37-2"]
BY_ID = {v["id"]: v for v in VALUES["values"]}
SAMPLES = BY_ID["sample codes"]["expected"]
SYMBOLS = st.sampled_from(codes.SYMBOLS)
PAYLOADS = st.text(SYMBOLS, min_size=5, max_size=5)


def refused(text):
    with pytest.raises(BadInput) as bad:
        codes.parse(text)
    assert bad.value.field == "code"
    return bad.value.sentence


@pytest.mark.parametrize("vector", VECTORS, ids=lambda v: v["id"])
def test_check_character_of_the_vectors(vector):
    assert codes.check_character(vector["inputs"]) == vector["expected"]


def test_the_alphabet_is_the_one_the_vectors_were_made_with():
    assert BY_ID["sample codes"]["inputs"] == {
        "alphabet": codes.SYMBOLS,
        "system": "ISO/IEC 7064 MOD 37-2",
        "n": codes.LENGTH,
    }


@given(PAYLOADS)
def test_check_character_agrees_with_stdnum(payload):
    assert codes.check_character(payload) == mod_37_2.calc_check_digit(payload)


@given(st.text(SYMBOLS, min_size=6, max_size=6))
def test_a_code_stands_where_stdnum_says_so(code):
    assert codes.is_valid(code) == mod_37_2.is_valid(code)


@given(st.text("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=1, max_size=20))
def test_check_character_agrees_over_the_whole_standard_alphabet(payload):
    assert codes.check_character(payload) == mod_37_2.calc_check_digit(payload)


@pytest.mark.parametrize("code", SAMPLES)
def test_sample_codes_stand(code):
    assert codes.parse(code) == code


@pytest.mark.parametrize(("payload", "check"), BY_ID["sample codes"]["skipped"])
def test_a_payload_whose_check_character_cannot_be_typed_is_drawn_again(payload, check):
    assert codes.check_character(payload) == check
    picks = iter(payload + SAMPLES[0])
    assert codes.draw(lambda _: next(picks)) == SAMPLES[0]


@given(st.integers())
def test_drawn_codes_stand(seed):
    assert codes.is_valid(codes.draw(random.Random(seed).choice))


@pytest.mark.parametrize("code", SAMPLES)
def test_every_single_wrong_character_is_refused(code):
    wrong = [
        code[:place] + symbol + code[place + 1 :]
        for place in range(codes.LENGTH)
        for symbol in codes.SYMBOLS
        if symbol != code[place]
    ]
    assert len(wrong) == 180
    assert not [text for text in wrong if codes.is_valid(text)]


@pytest.mark.parametrize("code", SAMPLES)
def test_every_swap_of_two_is_refused(code):
    for a, b in combinations(range(codes.LENGTH), 2):
        letters = list(code)
        letters[a], letters[b] = letters[b], letters[a]
        assert codes.is_valid("".join(letters)) == (code[a] == code[b])


@given(PAYLOADS, st.data())
def test_one_wrong_character_or_one_swap_is_refused_in_any_code(payload, data):
    check = codes.check_character(payload)
    assume(check in codes.SYMBOLS)
    code = list(payload + check)
    a, b = data.draw(st.tuples(st.integers(0, 5), st.integers(0, 5)))
    symbol = data.draw(SYMBOLS)
    one_wrong, swapped = code.copy(), code.copy()
    one_wrong[a] = symbol
    swapped[a], swapped[b] = swapped[b], swapped[a]
    assert codes.is_valid("".join(one_wrong)) == (symbol == code[a])
    assert codes.is_valid("".join(swapped)) == (code[a] == code[b])


@pytest.mark.parametrize(
    "text",
    ["K8RPRA", "k8rpra", "K8R-PRA", "k8r pra", " K8R\u2013PRA ", "K-8-R-P-R-A", "K8R\u00a0PRA"],
)
def test_case_spaces_and_hyphens_do_not_matter(text):
    assert codes.parse(text) == "K8RPRA"


def test_printed_three_and_three():
    assert codes.show("K8RPRA") == "K8R-PRA"


@given(st.text(max_size=12))
def test_length_is_said_before_anything_else(text):
    length = len(codes.bare(text))
    assume(length != codes.LENGTH)
    assert refused(text).startswith(f"A tag code has 6 characters; this has {length}.")


@pytest.mark.parametrize("symbol", "01ILO")
@pytest.mark.parametrize("place", range(6))
def test_the_five_left_out_are_named_with_their_place(symbol, place):
    sentence = refused("K8RPRA"[:place] + symbol + "K8RPRA"[place + 1 :])
    assert f"Character {place + 1} reads {symbol}," in sentence
    assert "never use 0, 1, I, L or O" in sentence
    assert "Look at the label again" in sentence


@pytest.mark.parametrize("symbol", ["*", "Ж", "É", "/"])
def test_any_other_character_is_named(symbol):
    assert f"Character 5 reads {symbol!r}" in refused(f"K8RP{symbol}A")


@pytest.mark.parametrize("text", ["K8RPAR", "K8RPRB"])
def test_a_wrong_code_is_shown_as_it_would_be_printed(text):
    assert refused(text).startswith(f"{text[:3]}-{text[3:]} is no tag: one character is wrong")
