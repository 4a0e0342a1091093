"""What a fastener needs at the build, on a tape line: new ones, an adapter, a special tool."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bagtag.domain.hardware import Adapter, Length
from bagtag.scan.tape_text import Found, number, phrase, rx, tidy, whole


@dataclass(frozen=True, slots=True)
class OneTime:
    """New ones go in each time; `named` where the words name the fasteners."""

    named: bool = True


@dataclass(frozen=True, slots=True)
class Tool:
    """A special tool."""

    text: str


# --- new ones

_BOLTS = r"(?:bolts?|nuts?|screws?|studs?|fasteners?)"
_TIMES = r"(?:each|every) time"
_ONCE_ONLY = r"(?:one[- ]time(?:[- ]use)?|single[- ]use)"
_ONE_TIME = rx(
    phrase(
        rf"(?P<bolts>(?:new|renew|replace) (?:the )?{_BOLTS} {_TIMES}"
        rf"|{_BOLTS} (?:new|renewed|replaced) {_TIMES}"
        rf"|(?:do not|don['’]?t|never) re-?use (?:the )?(?:old )?{_BOLTS})"
        rf"|(?:new|renew(?:ed)?|replaced?) {_TIMES}"
    )
)
_NAMED = rx(phrase(rf"{_ONCE_ONLY} {_BOLTS}|{_BOLTS} (?:{_ONCE_ONLY}|always new)"))
_SINGLE = rx(rf"(?<=\0)_{_ONCE_ONLY}(?=[^\S\n]*(?:$|[\n\0]))")
_ONCE = re.compile(r"one[- ]time|single[- ]use|always new|re-?use|refit", re.IGNORECASE)


def one_time(text: str) -> Iterator[Found]:
    """`new each time`, `do not reuse bolts`: read before doubt is looked for."""
    for match in _ONE_TIME.finditer(text):
        value = OneTime(named=match["bolts"] is not None)
        yield Found(match.start("p"), match.end("p"), "hardware", value)


def one_time_here(text: str) -> Iterator[Found]:
    """`10 x M10x120 one-time`: just after a fastener."""
    for match in _SINGLE.finditer(text):
        yield Found(match.start(), match.end(), "hardware", OneTime(), needs_hardware=True)


def one_time_bolts(piece: str) -> Iterator[Found]:
    """`one-time bolts`: a whole piece, beside a name."""
    match = whole(_NAMED, piece)
    if match:
        yield Found(match.start("p"), match.end("p"), "hardware", OneTime())


def is_once(words: str) -> bool:
    """Whether the words of a fate say that the part is used only once."""
    return _ONCE.search(words) is not None


# --- adapter and special tool

MOST = {"mm": 1000.0, "in": 40.0}
"""No adapter is longer, in its unit: longer is a slip, and stays words."""

_ADAPTER_CALLED = r"(?:adapter|adaptor|crow['’]?s?[- ]?foot)"
_LONG = r"(?P<length>\d{1,3}(?:[.,]\d{1,2})?)_(?P<unit>mm|inch|in|\")"
_AT = r"(?: at (?P<angle>\d{1,3}(?:[.,]\d)?)_(?:°|deg(?:rees?)?))?"
_ADAPTER = (
    rx(phrase(rf"(?:with (?:an? )?)?{_ADAPTER_CALLED}_:?_(?:of )?{_LONG}{_AT}")),
    rx(phrase(rf"(?:with (?:an? )?)?{_LONG}_{_ADAPTER_CALLED}{_AT}")),
)
_ON_IT = r"(?<=\0)_(?:with|using|on) (?:an? )?"
_ADAPTER_HERE = (
    rx(rf"{_ON_IT}{_ADAPTER_CALLED}_:?_(?:of )?{_LONG}{_AT}(?!\w)"),
    rx(rf"{_ON_IT}{_LONG}_{_ADAPTER_CALLED}{_AT}(?!\w)"),
)
_HALF_TURN = 180


def adapter_here(text: str) -> Iterator[Found]:
    """`22 Nm with a 50 mm crowfoot`: just after a torque or a fastener."""
    for pattern in _ADAPTER_HERE:
        for match in pattern.finditer(text):
            if found := _adapter(match):
                yield Found(match.start(), match.end(), "hardware", found, needs_hardware=True)


def adapter(piece: str) -> Iterator[Found]:
    """`adapter 50 mm at 30°`, `2 in crowfoot`: a whole piece, beside a name and a fastener."""
    for pattern in _ADAPTER:
        match = whole(pattern, piece)
        found = _adapter(match) if match else None
        if match and found:
            yield Found(match.start("p"), match.end("p"), "hardware", found, needs_hardware=True)


def _adapter(match: re.Match[str]) -> Adapter | None:
    unit = "mm" if match["unit"].casefold() == "mm" else "in"
    length, angle = number(match["length"]), number(match["angle"] or "0")
    if not 0 < length <= MOST[unit] or angle > _HALF_TURN:
        return None
    return Adapter(Length(length, unit), angle)


_TOOL = rx(phrase(r"(?:(?:with )?special tool_:?|tool_:)_(?P<tool>[^\n\0]{1,120})"))


def tool(piece: str) -> Iterator[Found]:
    """`tool: pin spanner`, `special tool 12`: a whole piece, beside a name and a fastener."""
    match = whole(_TOOL, piece)
    if match and tidy(match["tool"]):
        value = Tool(tidy(match["tool"]))
        yield Found(match.start("p"), match.end("p"), "hardware", value, needs_hardware=True)
