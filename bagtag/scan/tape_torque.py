"""Words about fasteners on a tape line: torque, drive, threadlocker, remarks."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bagtag.domain.hardware import Torque, TorqueUnit
from bagtag.scan.tape_fastener import FRACTION, INCH_SIGN, JOINED
from bagtag.scan.tape_text import Found, fold, number, phrase, rx, tidy


@dataclass(frozen=True, slots=True)
class Drive:
    text: str


@dataclass(frozen=True, slots=True)
class Range:
    """A torque given as a range: it has no single figure, so it stays words."""

    text: str


@dataclass(frozen=True, slots=True)
class Remark:
    """A word on the fasteners that has no field of its own: staked, left-hand thread."""

    text: str


# --- torque

_FIGURES = r"\d{1,4}(?:[.,]\d{1,3})?"
_NM = r"N_[·.⋅*x-]?_m|newton[- ]met(?:re|er)s?"
_LB, _TIMES = r"(?:lbs?f?|pounds?)", r"\.?_[·.⋅*/-]?_"
_FT = rf"{_LB}{_TIMES}(?:ft|feet|foot)|(?:ft|foot|feet){_TIMES}{_LB}"
_INLB = rf"{_LB}{_TIMES}(?:in|inch(?:es)?)|(?:in|inch){_TIMES}{_LB}"
_KGM = r"(?:kgf?|kp)_[·.⋅*-]?_m|m_[·.⋅*-]?_(?:kgf?|kp)"
_KGCM = r"(?:kgf?|kp)_[·.⋅*-]?_cm"
_UNITS = rf"(?:(?P<nm>{_NM})|(?P<ft>{_FT})|(?P<inlb>{_INLB})|(?P<kgcm>{_KGCM})|(?P<kgm>{_KGM}))"
_TORQUE = rx(
    r"(?:(?<!\w)(?:then|and|torqued?|tighten(?:ed)?|done up)_:?_)*(?:(?<!\w)(?:to|at|@)_)?"
    rf"(?<![\w.,/-])(?P<said>(?:(?P<low>{_FIGURES})_(?:-|–|to|\.\.)_)?"
    rf"(?P<value>{_FIGURES})_{_UNITS})"
    r"(?![\w·⋅])\.?(?:_(?:\+|then|plus)_(?P<angle>\d{1,3}_(?:°|deg(?:rees?)?(?!\w))))?"
)


def torque(text: str) -> Iterator[Found]:
    """`10 Nm`, `45 lbf ft`, `75 in-lb`, `2,5 kgf·m`; a range stays words, an angle a remark."""
    for match in _TORQUE.finditer(text):
        value = number(match["value"])
        if value <= 0:
            continue
        end = match.end("said")
        if match["low"]:
            yield Found(match.start(), end, "torque", Range(match["said"]))
        else:
            yield Found(match.start(), end, "torque", _torque(match, value))
        if match["angle"]:
            yield Found(end, match.end(), "torque", Remark(f"then {match['angle']}"))


def _torque(match: re.Match[str], value: float) -> Torque:
    if match["nm"]:
        return Torque(value, TorqueUnit.NEWTON_METRE)
    if match["ft"]:
        return Torque(value, TorqueUnit.POUND_FOOT)
    if match["inlb"]:
        return Torque(value, TorqueUnit.POUND_INCH)
    # Without a unit of its own: a metre has 100 centimetres.
    return Torque(value / 100 if match["kgcm"] else value, TorqueUnit.KILOGRAM_METRE)


# --- drives

_FITS = (
    r"(?:hex(?:agon)?(?: head| socket| key)?|head|AF|A/F|across flats|socket|spanner|wrench"
    r"|allen(?: key)?)"
)
_DRIVE = rx(
    rf"(?<![\w.,/-])(?:(?P<size>\d{{1,2}}(?:[.,]5)?)_(?P<mm>mm)|(?P<inch>{FRACTION}){INCH_SIGN}?)_"
    rf"(?P<fits>{_FITS})(?!\w)(?! (?:gasket|stud|bolt|nut|cover|set)s?(?!\w))"
)
_BIT = rx(
    r"(?<!\w)(?-i:TX?\d{1,2}|E\d{1,2}|PH_\d|PZ_\d)(?!\w)"
    rf"|{phrase(r'slotted|cross-?head|hex(?:agon)? head|socket head').replace('?P<p>', '?:')}"
)


def drive(text: str) -> Iterator[Found]:
    """`8mm head`, `17 mm spanner`, `9/16 AF`."""
    for match in _DRIVE.finditer(text):
        size = f"{match['size']} mm" if match["mm"] else match["inch"]
        shown = f"{size} {' '.join(match['fits'].split())}"
        yield Found(match.start(), match.end(), "hardware", Drive(shown))


def bit(text: str) -> Iterator[Found]:
    """`T30`, `E10`, `PH2`, `slotted`: a drive only where the line has a fastener."""
    for match in _BIT.finditer(text):
        said = tidy(match.group())
        yield Found(match.start(), match.end(), "hardware", Drive(said), needs_hardware=True)


# --- threadlocker and remarks

_STRENGTH = r"(?:blue|red|green|purple|medium|med|high|low|strong|weak|permanent)(?:[- ]strength)?"
_COMPOUND = r"(?:thread[- ]?lock(?:er|ing)?(?: compound| fluid)?|locking compound|stud ?lock)"
_LOCKER = rx(
    rf"(?<!\w)(?:{JOINED}(?P<before>{_STRENGTH}) {_COMPOUND}"
    rf"|{_COMPOUND}(?:_:?_(?P<after>{_STRENGTH}))?)(?!\w)"
)
_COLOUR = rx(phrase(r"(?:blue|red|green|purple|(?:medium|high|low)[- ]strength)"))
GRADE_NOT_GIVEN = "grade not given"


def threadlocker(text: str) -> Iterator[Found]:
    """`medium threadlocker`, `threadlocker, blue`."""
    for match in _LOCKER.finditer(text):
        grade = match["before"] or match["after"] or GRADE_NOT_GIVEN
        yield Found(match.start(), match.end(), "threadlocker", grade)


def locker_colour(text: str) -> Iterator[Found]:
    """`blue` alone: threadlocker only where the line has a fastener."""
    for match in _COLOUR.finditer(text):
        start, end = match.span("p")
        yield Found(start, end, "threadlocker", match["p"], needs_hardware=True)


_LEFT_HAND = rx(r"(?<!\w)(?P<hand>left|right|LH|RH|l/h|r/h)(?:[- ]?hand(?:ed)?)? threads?(?!\w)")
_REMARK = rx(
    phrase(
        r"(?:staked|peened(?: over)?|(?:lock|safety)[- ]?wired?|wire[- ]locked|hand[- ]tight"
        r"|finger[- ]tight|stretch bolts?|(?:with |w/_|\+_)(?:\w+ )?washers?"
        r"|(?:class |grade |gr\.?_)?(?:4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9)"
        r"|(?:then |\+_|plus )\d{1,3}_(?:°|deg(?:rees?)?))"
    )
)


def left_hand_thread(text: str) -> Iterator[Found]:
    """`LH thread`, `left-hand thread`."""
    for match in _LEFT_HAND.finditer(text):
        yield Found(match.start(), match.end(), "hardware", thread_hand(match["hand"]))


def thread_hand(said: str) -> Remark:
    return Remark("left-hand thread" if fold(said).startswith("l") else "right-hand thread")


def remark(text: str) -> Iterator[Found]:
    """`staked`, `wire locked`, `with copper washers`, `8.8`: only where there is a fastener."""
    for match in _REMARK.finditer(text):
        start, end = match.span("p")
        said = " ".join(match["p"].split())
        shown = re.sub(r"^\+ ?|^plus ", "then ", said) if "°" in said or "deg" in said else said
        yield Found(start, end, "hardware", Remark(shown), needs_hardware=True)
