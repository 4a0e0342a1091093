"""Words about fasteners on a tape line: torque, drive, threadlocker."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bagtag.domain.hardware import Torque, TorqueUnit
from bagtag.scan.tape_fastener import FRACTION, INCH_SIGN, JOINED
from bagtag.scan.tape_text import Found, number, phrase, rx, tidy


@dataclass(frozen=True, slots=True)
class Drive:
    text: str


@dataclass(frozen=True, slots=True)
class Range:
    """A torque given as a range: it has no single figure, so it stays words."""

    text: str


# --- torque

FIGURES = r"(?:0,\d{1,3}|\d{1,4}(?:\.\d{1,5}|,\d{1,2})?)"
"""A comma before three figures may be of thousands: "1,200 lbf·in" stays words."""
_LB, _TIMES = r"(?:lbs?f?|pounds?)", r"\.?_[·.⋅*/-]?_"
_OZ = r"(?:ozf?|ounces?)"
_UNIT_WORDS: dict[TorqueUnit, str] = {
    TorqueUnit.NEWTON_METRE: r"N_[·.⋅*x-]?_m|newton[- ]met(?:re|er)s?",
    TorqueUnit.POUND_FOOT: rf"{_LB}{_TIMES}(?:ft|feet|foot)|(?:ft|foot|feet){_TIMES}{_LB}",
    TorqueUnit.POUND_INCH: rf"{_LB}{_TIMES}(?:in|inch(?:es)?)|(?:in|inch){_TIMES}{_LB}",
    TorqueUnit.OUNCE_INCH: rf"{_OZ}{_TIMES}(?:in|inch(?:es)?)|(?:in|inch){_TIMES}{_OZ}",
    TorqueUnit.KILOGRAM_CENTIMETRE: r"(?:kgf?|kp)_[·.⋅*-]?_cm|cm_[·.⋅*-]?_(?:kgf?|kp)",
    TorqueUnit.KILOGRAM_METRE: r"(?:kgf?|kp)_[·.⋅*-]?_m|m_[·.⋅*-]?_(?:kgf?|kp)",
    TorqueUnit.NEWTON_CENTIMETRE: r"N_[·.⋅*-]?_cm|newton[- ]centimet(?:re|er)s?",
    TorqueUnit.DECANEWTON_METRE: r"da_?N_[·.⋅*-]?_m",
}
UNITS = "|".join(f"(?P<u{n}>{said})" for n, said in enumerate(_UNIT_WORDS.values()))
_TORQUE = rx(
    r"(?:(?<!\w)(?:then|and|torqued?|tighten(?:ed)?|done up)_(?::_)?)*(?:(?<!\w)(?:to|at|@)_)?"
    rf"(?<![\w.,/-])(?P<said>(?:(?P<low>{FIGURES})_(?:-|–|to|\.\.)_)?"
    rf"(?P<value>{FIGURES})_(?:{UNITS}))"
    r"(?![\w·⋅])\.?"
)


def torque(text: str) -> Iterator[Found]:
    """`10 Nm`, `45 lbf ft`, `75 in-lb`, `2,5 kgf·m`; a range stays words."""
    for match in _TORQUE.finditer(text):
        value = number(match["value"])
        if value <= 0:
            continue
        end = match.end("said")
        if match["low"]:
            yield Found(match.start(), end, "torque", Range(match["said"]))
        else:
            yield Found(match.start(), end, "torque", torque_of(match, value))


def torque_of(match: re.Match[str], value: float) -> Torque:
    """A torque in the unit that a match of UNITS names."""
    return Torque(value, next(u for n, u in enumerate(_UNIT_WORDS) if match[f"u{n}"]))


# --- drives

_FITS = (
    r"(?:hex(?:agon)?(?: head| socket| key)?|head|AF|A/F|across flats|socket|spanner|wrench"
    r"|allen(?: key)?)"
)
_DRIVE = rx(
    rf"(?<![\w.,/-])(?:(?P<size>\d{{1,2}}(?:[.,]5)?)_(?P<mm>mm)|(?P<inch>{FRACTION})(?P<sign>{INCH_SIGN})?)_"
    rf"(?P<fits>{_FITS})(?!\w)(?! (?:gasket|stud|bolt|nut|cover|set)s?(?!\w))"
)
_JIS = r"JIS(?: cross-?head)?(?:[- ]?(?:no\.?_)?\d)?|JIS[- ]cross-?head"
_PLAIN_BIT = r"slot(?:ted)?|cross(?:-?head)?|(?:12|twelve)[- ]point|bi-?hex|hex(?:agon)? socket"
_BIT = rx(
    r"(?<!\w)(?:(?:torx )?(?P<torx>(?-i:TX?\d{1,2}))|torx (?P<size>\d{1,2})"
    r"|(?P<cross>(?-i:PH|PZ)_\d)|(?-i:E\d{1,2})"
    rf"|(?-i:{_JIS})|(?:allen(?: key)?|hex(?:agon)?) \d{{1,2}}(?:[.,]5)?(?:_mm)?)(?!\w)"
    rf"|{phrase(_PLAIN_BIT).replace('?P<p>', '?:')}"
)


def drive(text: str) -> Iterator[Found]:
    """`8mm head`, `17 mm spanner`, `9/16 AF`."""
    for match in _DRIVE.finditer(text):
        inches = f"{match['inch']} in" if match["sign"] else match["inch"]
        size = f"{match['size']} mm" if match["mm"] else inches
        shown = f"{size} {' '.join(match['fits'].split())}"
        yield Found(match.start(), match.end(), "hardware", Drive(shown))


def bit(text: str) -> Iterator[Found]:
    """`T30`, `E10`, `PH2`, `JIS 2`, `Allen 5`, `slotted`: only where there is a fastener."""
    for match in _BIT.finditer(text):
        yield Found(match.start(), match.end(), "hardware", Drive(_bit(match)), needs_hardware=True)


def _bit(match: re.Match[str]) -> str:
    """Torx by its T and cross-heads by their letters, in one word; others as they were said."""
    if match["size"]:
        return f"T{match['size']}"
    if match["cross"]:
        return re.sub(r"\s", "", match["cross"])
    return match["torx"] or tidy(match.group())


# --- threadlocker

_STRENGTH = r"(?:blue|red|green|purple|medium|med|high|low|strong|weak|permanent)(?:[- ]strength)?"
_COMPOUND = r"(?:thread[- ]?lock(?:er|ing)?(?: compound| fluid)?|locking compound|stud ?lock)"
_LOCKER = rx(
    rf"(?<!\w)(?:{JOINED}(?P<before>{_STRENGTH}) {_COMPOUND}"
    rf"|{_COMPOUND}(?:_:?_(?P<after>{_STRENGTH})| grade not given)?)(?!\w)"
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
