"""A file of part kinds: whole, it gives its kinds; broken, its line is named."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.kind_form import read
from bagtag.domain.kinds import Kinds, Pair, Renewal
from bagtag.domain.model import Hazard

WHOLE = """\
# Two kinds.
["oil seal"]
group = "seals"
also = ["lip seal", "shaft seal"]
asks = [
  { fact = "faces", feature = "lip", ask = "Which way does the lip face?", choices = ["inward"] },
  { fact = "seat", ask = "How deep?", must = false },
]
goes_wrong = "It leaks."
renew = "always"
why = "The lip has hardened."
home = "Flush all round."
hazards = ["sharp"]
together = ["shaft"]
pair = "alike"
threaded = true

[dowel]
goes_wrong = "It is lost."
renew = "on condition"
why = "Bent ones are scrap."
home = "It stands as logged."
"""


def broken(old: str, new: str) -> str:
    """The whole file with one thing wrong in it."""
    assert WHOLE.count(old) == 1, old
    return WHOLE.replace(old, new)


def blamed(text: str) -> str:
    with pytest.raises(BadInput) as caught:
        read(text, "mine.toml")
    return caught.value.sentence


def test_a_whole_file_gives_its_kinds():
    seal, dowel = read(WHOLE, "mine.toml", own=True)
    lip, depth = seal.asks
    assert (seal.name, seal.renew, seal.pair) == ("oil seal", Renewal.ALWAYS, Pair.ALIKE)
    assert (seal.hazards, seal.together, seal.threaded) == ((Hazard.SHARP,), ("shaft",), True)
    assert (lip.id, lip.choices, lip.must) == ("faces lip", ("inward",), True)
    assert (depth.id, depth.choices, depth.must) == ("seat", (), False)
    assert (dowel.asks, dowel.pair, dowel.threaded, dowel.own) == ((), None, False, True)
    assert seal.needs_way
    assert not dowel.needs_way


def test_an_empty_file_has_no_kinds():
    assert read("", "mine.toml") == ()
    assert read("# nothing yet\n", "mine.toml") == ()


BROKEN = {
    "no closing mark": ('group = "seals"', 'group = "seals', 3, "cannot be read"),
    "no value": ('pair = "alike"', "pair =", 15, "cannot be read"),
    "a kind twice": ("[dowel]", '["oil seal"]', 18, "cannot be read"),
    "a key twice": ('pair = "alike"', 'renew = "never"', 15, "cannot be read"),
    "no word of a kind": ('group = "seals"', 'colour = "red"', 3, "'colour' is no word"),
    "no word of the second": ("[dowel]", '[dowel]\nsise = "8"', 19, "'sise' is no word"),
    "bad renew": ('renew = "always"', 'renew = "often"', 10, "not 'often'"),
    "bad renew of the second": ('renew = "on condition"', 'renew = "maybe"', 20, "not 'maybe'"),
    "renew is no text": ('renew = "always"', "renew = 1", 10, "a text in quotation marks"),
    "bad hazard": ('["sharp"]', '["bites"]', 13, "not 'bites'"),
    "hazards are no list": ('["sharp"]', '"sharp"', 13, "a list in brackets"),
    "a list of figures": ('["shaft"]', "[1, 2]", 14, "a list of texts"),
    "an empty name in a list": ('["shaft"]', '["shaft", " "]', 14, "a list of texts"),
    "bad pair": ('"alike"', '"twins"', 15, "not 'twins'"),
    "threaded is no flag": ("threaded = true", 'threaded = "yes"', 16, "true or false"),
    "a question without its sentence": ('ask = "How deep?", ', "", 7, "on seat has no ask"),
    "an empty sentence": ('"How deep?"', '" "', 7, "on seat has no ask"),
    "faces without a feature": ('feature = "lip", ', "", 6, "on faces names its feature"),
    "a sentence that is no text": ('"How deep?"', "3", 7, "a text in quotation marks"),
    "an unknown fact": ('"seat"', '"colour"', 7, "not 'colour'"),
    "a fact that is no text": ('"seat"', "3", 7, "not 3"),
    "an unknown word in a question": ("must = false", "needed = false", 7, "each of asks is"),
    "must is no flag": ("must = false", 'must = "no"', 7, "must is true or false"),
    "choices are no list": ('["inward"]', '"inward"', 6, "a list of texts"),
    "choices are no texts": ('["inward"]', "[1]", 6, "a list of texts"),
    "text outside a kind": ("# Two kinds.", 'group = "seals"', 1, "stands outside a kind"),
}


@pytest.mark.parametrize(("old", "new", "line", "said"), BROKEN.values(), ids=BROKEN)
def test_a_broken_file_is_named_with_the_line(old, new, line, said):
    sentence = blamed(broken(old, new))
    assert sentence.startswith("mine.toml")
    assert f"line {line}" in sentence
    assert said in sentence
    assert sentence.endswith(".")


@pytest.mark.parametrize("key", ["goes_wrong", "renew", "why", "home"])
@pytest.mark.parametrize(("number", "line", "name"), [(0, 2, "oil seal"), (1, 18, "dowel")])
def test_what_is_missing_is_said_at_the_head_of_its_kind(key, number, line, name):
    lines = WHOLE.splitlines()
    places = [n for n, text in enumerate(lines) if text.startswith(f"{key} =")]
    del lines[places[number]]
    shift = 0 if places[number] >= line else 1
    assert blamed("\n".join(lines)) == (
        f"mine.toml, line {line - shift}: in [{name}], {key} is missing."
    )


def test_an_empty_text_counts_as_missing():
    sentence = blamed(broken('why = "The lip has hardened."', 'why = ""'))
    assert sentence == "mine.toml, line 11: in [oil seal], why is missing."


def test_the_line_is_that_of_the_kind_and_not_of_one_that_is_named_alike():
    text = WHOLE + WHOLE.replace('["oil seal"]', '["seal"]').replace("[dowel]", '["dowel pin"]')
    wrong = text.replace('renew = "always"', 'renew = "often"').replace("often", "always", 1)
    assert "line 32: in [seal], renew must be" in blamed(wrong)


def test_questions_on_the_line_of_asks_are_blamed_there():
    asks = 'asks = [{ fact = "seat", ask = "How deep?" }, { fact = "hand" }]'
    seal_last = broken("[dowel]", f"[dowel]\n{asks}") + WHOLE.replace("[dowel]", "[pin]").replace(
        '["oil seal"]', '["lip seal"]'
    )
    assert "mine.toml, line 19: in [dowel], the question on hand has no ask" in blamed(seal_last)


def test_a_remark_among_the_questions_does_not_move_the_line():
    text = broken("asks = [", "asks = [\n  # The lip first.\n").replace('"seat"', '"depth"')
    assert "mine.toml, line 9: in [oil seal], fact must be one of" in blamed(text)


PIECES = st.sampled_from([*WHOLE.splitlines(), "]", "[", "[[a]]", "asks = [1]", "asks = [{}]", "="])


@given(st.text() | st.lists(PIECES).map("\n".join))
@example("[a]\n[b]")
@example("a = 2020-01-01")
@example("[[oil]]")
@example("[a.b]\nrenew = 'never'")
@example('[""]\nrenew = "never"')
@example("\ufeff[a]")
@example('[a]\nasks = [{ fact = [] }]\nrenew = "never"\nwhy = "a"\nhome = "b"\ngoes_wrong = "c"')
@example("[a]\nrenew = [1]\nwhy = 1\nhome = 2\ngoes_wrong = 3")
@example("x = 1\u2028[y]")
@example("a = " + "[" * 3000)
@example("a = " + "1" * 5000)
def test_any_text_reads_or_is_refused_in_one_sentence(text):
    sentence = ""
    try:
        kinds = read(text, "mine.toml")
    except BadInput as wrong:
        sentence = wrong.sentence
    else:
        assert len(Kinds(kinds)) <= len(kinds)
    assert not sentence or (sentence.startswith("mine.toml") and sentence.endswith("."))


@given(st.text())
def test_a_text_goes_through_unchanged(text):
    quoted = "".join(f"\\U{ord(c):08x}" for c in text if not 0xD800 <= ord(c) < 0xE000)
    whole = broken('group = "seals"', f'group = "{quoted}"')
    seal, _ = read(whole, "mine.toml")
    assert seal.group == text


@pytest.mark.parametrize(
    ("fact", "choice", "said"),
    [
        ("faces", "sideways", "or part: and its name, not 'sideways'"),
        ("place", "outward", "a choice of place is left, right"),
        ("seat", "deep", "a choice of seat is flush, proud"),
    ],
)
def test_a_choice_that_no_fact_can_be_is_named(fact, choice, said):
    ask = f'asks = [{{ fact = "{fact}", feature = "lip", ask = "Which?", choices = ["{choice}"] }}]'
    whole = f'["x"]\ngoes_wrong = "a"\nrenew = "never"\nwhy = "b"\nhome = "c"\n{ask}\n'
    assert said in blamed(whole)
    assert "line 6" in blamed(whole)
