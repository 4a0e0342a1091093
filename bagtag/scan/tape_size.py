"""Sizes of parts on a tape line: seals, bearings, O-rings, shims.

Three figures ("25x42x7") and what follows the word bearing are a size by themselves; fewer are one
only where the kind of the part has a size. The normal form is "25x42x7" in millimetres, "1.25x0.125
in", "1.55 mm", "6204 2RS". Bearing designations have the form of the basic designations to ISO 15.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bagtag.domain.kinds import PartKind
from bagtag.scan.tape_text import Found, number, phrase, rx, whole


@dataclass(frozen=True, slots=True)
class Size:
    """A size in its normal form; `figures` of it, none for a bearing's designation. `sure` when it
    needs no kind that explains it."""

    text: str
    figures: int
    sure: bool = False

    def fits(self, kind: PartKind | None) -> bool:
        """Whether a part of this kind can have this size."""
        if self.sure or kind is None or not kind.size:
            return self.sure
        if not self.figures:
            return "bearing" in kind.name.casefold() or "designation" in kind.size
        if self.figures == 1 and "thickness" in kind.size:
            return True  # of a washer one gives the one figure that differs
        return not _COUNTED.search(kind.size) and (self.figures > 1 or " x " not in kind.size)


_COUNTED = re.compile(r"\b(?:number|teeth|stamped|links)\b")  # a size that is no length
_FRACTION = r"(?:\d{1,2}[- ])?\d{1,2}/(?:2|4|8|16|32|64)"
_FIGURE = rf"(?:{_FRACTION}|\d{{0,3}}[.,]\d{{1,4}}|\d{{1,3}})(?![0-9/]|[.,]\d)"
_IN = r"_(?:\"|”|inch(?:es)?(?!\w)|in(?!\w))"
_ONE = rf"{_FIGURE}(?:{_IN}|_mm(?!\w))?"
_BY = r"_[x×*]_"
_THREE = rf"(?<![\w.,/×*-]){_ONE}{_BY}{_ONE}{_BY}{_ONE}(?![\w/-]|[.,]\d|{_BY}\d)"
_PAIR = rf"{_ONE}{_BY}{_ONE}"
_SINGLE = rf"(?:{_FIGURE}(?:{_IN}|_mm)|\d{{1,3}}_thou)"
_SHIELD = r"(?:2?RS[12RHL]?|2RZ|2Z|ZZ|Z|NR|C[2-5])"
_NUMBER = (
    r"(?:(?:NUP?|NJ|NF|NKIS?|NKS?|NK|N|RNA|NA|HK|BK|K|AXK)_\d{2,5}|\d{3,5})"
    rf"(?:(?:_-_|_/_| |){_SHIELD}(?!\w)|-?(?:TN9?|[NMEK])(?!\w))*"
)
_DESIGNATION = rf"{_NUMBER}(?![\w/]|-\d|[.,]\d|{_BY}\d\d|_(?:mm|cm|in|thou)(?!\w)|_[\"”])"
_ALONE = rf"(?P<figures>{_PAIR}|{_SINGLE})|(?P<number>{_DESIGNATION})"

_OF_THREE = rx(_THREE)
_AFTER_BEARING = rx(
    rf"(?<!\w)(?:bearings?|brgs?\.?)(?: no\.?)?_[:]?_(?<=[\s:])(?P<p>{_DESIGNATION})"
)
_WHOLE = rx(phrase(_ALONE))
_LAST = rx(rf"(?<=\w)[^\w\n\0]*[^\S\n][^\w\n\0.,]*(?P<p>{_ALONE})[^\w\n\0]*$")
_FIRST = rx(rf"^[^\w\n\0.,]*(?P<p>(?P<figures>{_SINGLE})|(?P<number>{_DESIGNATION}))(?= [^\W0-9])")


_JOINT = re.compile(r"\s*[x×*]\s*")


def three(text: str) -> Iterator[Found]:
    """`25x42x7`, `1-1/4 x 1.752 x 0.25 in`: a size whatever the part is."""
    for match in _OF_THREE.finditer(text):
        size = _measured(match.group(), sure=True)
        joints = _JOINT.findall(match.group())
        if size and len({joint.strip() == joint for joint in joints}) == 1:  # "32x2.5 x 3" is three
            yield Found(match.start(), match.end(), "size", size)


def of_bearing(text: str) -> Iterator[Found]:
    """`6204 2RS` after the word bearing."""
    for match in _AFTER_BEARING.finditer(text):
        start, end = match.span("p")
        yield Found(start, end, "size", Size(_designation(match["p"]), 0, sure=True))


def alone(piece: str) -> Iterator[Found]:
    """`32x2.5`, `1.55 mm`, `6204 2RS`: a whole piece, to be explained by the part's kind."""
    match = whole(_WHOLE, piece)
    if match:
        yield from _found(match)


def in_name(words: str) -> Found | None:
    """A size that a name ends or begins with, to be explained by the kind of the rest."""
    if not any(c.isdigit() for c in words):
        return None
    match = _LAST.search(words) or _FIRST.match(words)
    return next(_found(match), None) if match else None


def _found(match: re.Match[str]) -> Iterator[Found]:
    start, end = match.span("p")
    if match["number"]:
        yield Found(start, end, "size", Size(_designation(match["p"]), 0))
        return
    size = _measured(match["p"])
    if size:
        yield Found(start, end, "size", size)


def _designation(said: str) -> str:
    return re.sub(r"[-/\s]+", " ", said).upper()


_EACH = rx(rf"({_FIGURE})({_IN}|_mm|_thou)?")


def _measured(said: str, *, sure: bool = False) -> Size | None:
    """Figures in one unit: inches where a sign or a fraction says so, else millimetres."""
    each = [(match[1], (match[2] or "").strip().casefold()) for match in _EACH.finditer(said)]
    figures = [number(figure) * (0.001 if unit == "thou" else 1) for figure, unit in each]
    metric = any(unit == "mm" for _, unit in each)
    inches = any("/" in figure or unit not in ("", "mm") for figure, unit in each)
    if not all(figures) or (metric and inches):
        return None
    text = "x".join(f"{figure:g}" for figure in figures)
    unit = " in" if inches else " mm" if len(figures) == 1 else ""
    return Size(text + unit, len(figures), sure)
