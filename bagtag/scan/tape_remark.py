"""Remarks on fasteners on a tape line: grade, what keeps them from turning, the thread's hand.

Strength classes as ISO 898-1 (8.8) and ISO 3506-1 (A2-70) mark them, grades as SAE J429 does.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bagtag.scan.tape_fastener import CLASSES
from bagtag.scan.tape_text import Found, fold, phrase, rx


@dataclass(frozen=True, slots=True)
class Remark:
    """A word on the fasteners that has no field of its own: hand tight, left-hand thread."""

    text: str


@dataclass(frozen=True, slots=True)
class Grade:
    """A strength class or grade: "8.8", "grade 5", "A2-70"."""

    text: str


@dataclass(frozen=True, slots=True)
class Locking:
    """What keeps a fastener from turning: "staked", "lock wired"."""

    text: str


_CLASS = "(?:" + "|".join(map(re.escape, CLASSES)) + ")"
_GRADES = (
    rf"(?:(?:(?:property |strength )?class|grade|gr\.?)_)?(?P<class>{_CLASS})"
    r"|(?:grade|gr\.?|(?-i:G))_(?P<grade>[1-9](?:\.[12])?)"
    r"|(?:stainless(?: steel)? )?(?P<steel>(?-i:A[1-5])_-_(?:50|70|80|100))"
    r"(?: stainless(?: steel)?)?"
)
_GRADE = rx(phrase(_GRADES))
_GRADE_HERE = rx(rf"(?<=\0)_(?:{_GRADES})(?=[^\S\n]+[^\W0-9])(?!_(?:mm|in|inch)(?!\w))")


def grade(text: str) -> Iterator[Found]:
    """`8.8`, `class 10.9`, `gr 8`, `A2-70`: only where there is a fastener."""
    for match in _GRADE.finditer(text):
        yield _graded(match, match.start("p"), match.end("p"))


def grade_here(text: str) -> Iterator[Found]:
    """`M10x65 10.9 zinc plated`: just after a fastener, whatever comes behind it."""
    for match in _GRADE_HERE.finditer(text):
        yield _graded(match, match.start(), match.end())


def _graded(match: re.Match[str], start: int, end: int) -> Found:
    steel = re.sub(r"\s", "", match["steel"] or "")
    said = match["class"] or steel or f"grade {match['grade']}"
    return Found(start, end, "hardware", Grade(said), needs_hardware=True)


_WASHER = r"(?:(?:lock )?tabs?|tab washers?|lock(?:ing)? (?:plate|washer)s?|washer)"
_PIN = r"(?:split|cotter)[- ]?pin(?:ned|s)?|cottered"
_LOCKING = rx(
    phrase(
        r"(?:staked|peened(?: over)?|wired(?: together)?|(?:lock|safety)[- ]?wired?"
        r"|wire[- ]locked|(?:with |\+_)?(?:lock|safety)[- ]wire"
        rf"|{_WASHER} (?:bent|knocked|folded)(?: over| up)?|(?:with |w/_|\+_)?tab washers?"
        rf"|(?:with (?:an? )?|w/_|\+_)?(?:new )?(?:{_PIN})(?: new)?)"
    )
)


def locking(text: str) -> Iterator[Found]:
    """`staked`, `lock wired`, `tab washer bent over`, `split pin`: said of a fastener."""
    for match in _LOCKING.finditer(text):
        start, end = match.span("p")
        said = re.sub(r"(?i)^(?:with (?:an? )?|w/ ?|\+ ?)", "", " ".join(match["p"].split()))
        yield Found(start, end, "hardware", Locking(said), needs_hardware=True)


_REMARK = rx(
    phrase(
        r"(?:hand[- ]tight|finger[- ]tight|stretch bolts?|as (?:in|per) the manual"
        r"|(?P<yield>torque[- ]to[- ]yield|TTY)(?: bolts?)?)"
    )
)


def remark(text: str) -> Iterator[Found]:
    """`hand tight`, `stretch bolts`, `TTY`: only where there is a fastener."""
    for match in _REMARK.finditer(text):
        start, end = match.span("p")
        shown = "torque to yield" if match["yield"] else " ".join(match["p"].split())
        yield Found(start, end, "hardware", Remark(shown), needs_hardware=True)


_LEFT_HAND = rx(r"(?<!\w)(?P<hand>left|right|LH|RH|l/h|r/h)(?:[- ]?hand(?:ed)?)? threads?(?!\w)")


def left_hand_thread(text: str) -> Iterator[Found]:
    """`LH thread`, `left-hand thread`."""
    for match in _LEFT_HAND.finditer(text):
        yield Found(match.start(), match.end(), "hardware", thread_hand(match["hand"]))


_HAND_HERE = rx(
    r"(?<=\0)_\(?(?P<hand>(?:left|right)[- ]?hand(?:ed)?|(?-i:LH|RH)|l/h|r/h)\)?"
    r"(?=[^\S\n]*(?:$|[\n\0])| (?:bolt|nut|screw|stud)s?(?!\w))"
)


def hand_of_a_thread(text: str) -> Iterator[Found]:
    """`nut M20x1.5 LH`: a hand just after a thread is the thread's own."""
    for match in _HAND_HERE.finditer(text):
        yield Found(match.start(), match.end(), "hardware", thread_hand(match["hand"]))


def thread_hand(said: str) -> Remark:
    return Remark("left-hand thread" if fold(said).startswith("l") else "right-hand thread")
