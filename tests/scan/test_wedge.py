"""The recogniser of scanner keystrokes: a scan is known, and a person never loses a letter."""

import random
from dataclasses import dataclass, field

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from bagtag.domain import codes
from bagtag.scan.wedge import HICCUPS, PACE_MS, PAUSE_MS, Verdict, Wedge


@dataclass
class Field:
    """An entry field and the window's filter, as the module's docstring asks for it."""

    wedge: Wedge = field(default_factory=Wedge)
    text: str = ""
    scans: list[str] = field(default_factory=list)
    entered: list[str] = field(default_factory=list)
    noted: list[str] = field(default_factory=list)
    now: int = 1000

    def key(self, gap: int, text: str) -> Verdict:
        self.now += gap
        verdict = self.wedge.feed(self.now, text)
        self.act_on(verdict)
        if not verdict.swallow and text in ("\r", "\n", "\t"):
            self.entered.append(self.text)
            self.text = ""
        elif not verdict.swallow:
            if text:
                self.noted.append(self.text)
            self.text += text
        return verdict

    def pause(self, gap: int) -> Verdict:
        verdict = self.wedge.flush(self.now + gap)
        self.act_on(verdict)
        return verdict

    def act_on(self, verdict: Verdict) -> None:
        if verdict.code:
            self.scans.append(verdict.code)
            self.text = self.noted[-verdict.take_back]

    def keys(self, gaps: list[int], text: str) -> None:
        for gap, character in zip(gaps, text, strict=True):
            self.key(gap, character)


VALID = (
    st.randoms(use_true_random=False)
    .map(lambda chance: codes.draw(chance.choice))
    .filter(lambda code: len(set(code)) > 1)
)
SCANNER = st.integers(0, int(PACE_MS))  # events carry whole milliseconds
PERSON = st.integers(int(PACE_MS) + 1, 2000)
HICCUP = st.integers(int(PACE_MS) + 1, int(PAUSE_MS) - 1)
ANY_TEXT = st.text(st.characters(exclude_categories=["Cs"]) | st.sampled_from("\r\n\t \b"))


@st.composite
def scan(draw, end: str = "\r"):
    """The keys of one scan, printed any way it may be, with their gaps: some late, never long."""
    code = draw(VALID)
    text = draw(st.sampled_from([code, codes.show(code), code.lower(), f"{code[:2]} {code[2:]}"]))
    gaps = [draw(SCANNER) for _ in text + end]
    for place in draw(st.sets(st.integers(1, len(gaps) - 1), max_size=HICCUPS)):
        gaps[place] = draw(HICCUP)
    return code, gaps, text + end


@given(text=ANY_TEXT, data=st.data())
def test_what_a_person_types_stays_as_it_is(text, data):
    wedge, now = Wedge(), 0
    for character in text:
        now += data.draw(PERSON)
        assert wedge.feed(now, character) == Verdict(None, False, 0)
        assert wedge.flush(now + data.draw(PERSON)) == Verdict(None, False, 0)


@given(code=VALID, gaps=st.lists(PERSON, min_size=7, max_size=7))
def test_a_code_typed_by_a_person_is_no_scan(code, gaps):
    entry = Field()
    entry.keys(gaps, code + "\r")
    assert (entry.scans, entry.entered) == ([], [code])


@given(scanned=scan(), before=st.text("ABC 123", max_size=12), pace=PERSON)
def test_a_scan_is_known_and_leaves_the_field_as_it_was(scanned, before, pace):
    code, gaps, text = scanned
    entry = Field()
    entry.keys([pace] * len(before), before)
    entry.keys([pace, *gaps[1:]], text)
    assert (entry.scans, entry.text, entry.entered) == ([code], before, [])


@given(scans=st.lists(st.sampled_from(["\r", "\n", "\t"]).flatmap(scan), min_size=2, max_size=5))
def test_scan_after_scan(scans):
    entry = Field()
    for _, gaps, text in scans:
        entry.keys(gaps, text)
    assert entry.scans == [code for code, _, _ in scans]
    assert (entry.text, entry.entered) == ("", [])


@given(text=st.text(codes.SYMBOLS + "10 -.", max_size=20), data=st.data())
@example(text="P52SA9P52SA9", data=None)
@example(text="1P52SA9", data=None)
@example(text="P52SA91", data=None)
@example(text="X.P52SA9", data=None)
def test_fast_keys_that_are_no_code_stay_whole_and_in_order(text, data):
    if codes.is_valid(codes.bare(text)):
        text += "2"
    entry = Field()
    for character in text:
        entry.key(data.draw(SCANNER) if data else 5, character)
    assert entry.text == text
    entry.key(5, "\r")
    assert (entry.scans, entry.entered) == ([], [text])


@given(st.lists(st.tuples(st.integers(0, 300), st.sampled_from("P52SA9-7\r")), max_size=60))
def test_every_key_is_in_a_scan_or_in_the_field_and_nowhere_else(keys):
    """Whatever comes at whatever pace: taken out and kept make up all that was typed."""
    entry, kept = Field(), ""
    for gap, text in keys:
        verdict = entry.key(gap, text)
        if verdict.code:
            taken = kept[-verdict.take_back :]
            assert codes.bare(taken) == verdict.code
            kept = kept[: -verdict.take_back]
        if not verdict.swallow:
            kept += text
    assert "\r".join([*entry.entered, entry.text]) == kept


@given(scanned=scan(end=""), early=st.integers(0, int(PAUSE_MS) - 1))
def test_a_scanner_without_an_end_key(scanned, early):
    code, gaps, text = scanned
    entry = Field()
    entry.keys(gaps, text)
    assert entry.pause(early) == Verdict()
    assert entry.pause(PAUSE_MS) == Verdict(code, False, len(text))
    assert entry.pause(PAUSE_MS) == Verdict()
    assert entry.text == ""


@given(scanned=scan(), place=st.integers(0, 5), late=st.integers(int(PAUSE_MS), 5000))
def test_a_pause_told_late_in_the_middle_of_a_scan_breaks_nothing(scanned, place, late):
    """The window was busy: its timer fires before the rest of the keys have reached it."""
    code, gaps, text = scanned
    entry = Field()
    for count, (gap, character) in enumerate(zip(gaps, text, strict=True)):
        entry.key(gap, character)
        if count == place and not codes.is_valid(codes.bare(text[: count + 1])):
            entry.pause(late)
    assert (entry.scans, entry.text, entry.entered) == ([code], "", [])


def test_the_end_key_that_comes_after_the_pause_presses_nothing():
    entry = Field()
    entry.keys([5] * 6, "P52SA9")
    assert entry.pause(500).code == "P52SA9"
    assert entry.key(8, "\r") == Verdict(None, True, 0)
    assert entry.entered == []


def test_a_scanner_that_sends_both_cr_and_lf():
    entry = Field()
    entry.keys([5] * 8, "P52SA9\r\n")
    assert (entry.scans, entry.entered) == (["P52SA9"], [])
    assert not entry.key(PAUSE_MS, "\r").swallow


def test_a_key_after_a_scan_and_then_enter_is_a_persons():
    entry = Field()
    entry.keys([5] * 7, "P52SA9\r")
    entry.keys([60, 50], "x\r")
    assert entry.entered == ["x"]


def test_modifiers_and_other_keys_without_a_text_count_for_nothing():
    entry = Field()
    for character in "P52SA9":
        entry.key(2, "")
        entry.key(2, character)
    entry.key(2, "")
    assert entry.key(2, "\r") == Verdict("P52SA9", True, 6)


@pytest.mark.parametrize("between", ["\b", "\x1b", "\x16", "漢字"])
def test_an_editing_key_or_an_input_method_ends_the_burst(between):
    entry = Field()
    entry.keys([5] * 3, "P52")
    entry.key(5, between)
    entry.keys([5] * 4, "SA9\r")
    assert entry.scans == []
    entry.key(5, between)
    entry.keys([5] * 7, "MF324G\r")
    assert entry.scans == ["MF324G"]


def test_a_clock_that_jumps_back_neither_joins_nor_blocks():
    wedge = Wedge()
    for time, character in zip([90, 95, 100, 1, 6, 11], "P52SA9", strict=True):
        wedge.feed(time, character)
    assert wedge.feed(16, "\r") == Verdict()
    for time, character in enumerate("ABC"):
        wedge.feed(4_294_967_290 + time, character)
    for time, character in enumerate("P52SA9"):
        wedge.feed(time * 5, character)
    assert wedge.feed(30, "\r") == Verdict("P52SA9", True, 6)


@pytest.mark.parametrize("symbol", codes.SYMBOLS)
def test_a_key_held_down_is_no_scan(symbol):
    """It repeats at about 33 ms (common practice, no source), and AAAAAA is a valid code."""
    entry = Field()
    for count in range(30):
        entry.key(33, symbol)
        assert entry.text == symbol * (count + 1)
        assert entry.pause(500) == Verdict()


def test_a_misread_is_no_scan():
    chance = random.Random(4)
    for _ in range(200):
        code = codes.draw(chance.choice)
        place = chance.randrange(6)
        wrong = chance.choice(codes.SYMBOLS.replace(code[place], ""))
        entry = Field()
        entry.keys([8] * 7, code[:place] + wrong + code[place + 1 :] + "\r")
        assert len(entry.entered) == 1
        assert entry.scans == []
