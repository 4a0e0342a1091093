"""Fasteners on a tape line: threads, lengths, kinds and counts.

Thread designations as ISO 965-1 (M10x1.25) and ASME B1.1 (3/8-16, 5/16 UNF) write them.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from bagtag.scan.tape_text import END, Found, fold, number, phrase, rx

PLAIN_KIND = "fastener"
NOT_COUNTED = "?"
CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")
_KIND = r"(?:cap_screw|set_screw|grub screw|bolt|screw|nut|stud|plug|union|fastener)s?(?!\w)"
_HELD_KIND = (
    r"(?:cap_screw|set_screw|grub screw|bolt|screw|nut|stud|circlip|snap ring|split pin"
    r"|cotter pin|cotter|roll pin|clip|clamp|rivet|dowel|fastener)s?(?!\w)"
)
_MADE = (
    r"(?:hex(?:agon)?|socket|head|flanged?|countersunk|csk|cheese|pan|button|allen|slotted|cross"
    r"|cap|set|long|short|special|shouldered|waisted|castle|castellated|lock|self-locking|dome"
    r"|banjo|nyloc|jam|hollow|wing|thin|eye"
    r"|one-time(?:-use)?|single-use)"
)
_KINDS = rf"(?:{_MADE}[- ]){{0,4}}{_KIND}"
_HELD_KINDS = rf"(?:{_MADE}[- ]){{0,4}}{_HELD_KIND}"
GRADED = r"(?:grade|gr\.?|class)_\d{1,2}(?:\.\d)?"
JOINED = r"(?:(?<!\w)(?:and|plus|with|w/|held by|by)_|[+&]_)?"
_SHORT = r"(?:csk|countersunk|allen|(?:socket|cap|pan|button|cheese)[- ]head)"
"""What is short for a screw with such a head: "3 csk M6x16"."""
_COUNT = r"(?<![\w.,/#-])(?P<count>[1-9]\d{0,3}|\?)(?:_[x×*]_| off | no\.? | pcs?\.? | )"
_BEFORE = (
    rf"(?:{JOINED}{_COUNT}(?:(?:(?P<grade>{GRADED}) )?"
    rf"(?P<kind>(?:[^\W0-9][\w-]* ){{0,2}}{_KINDS}) |(?P<short>{_SHORT}) )?|(?<![\w./#-]))"
)
_AFTER = (
    rf"(?: (?P<kind2>{_KINDS}))?"
    r"(?:_\((?P<count2>[1-9]\d{0,3})\)| (?P<count3>[1-9]\d{0,3}) off(?!\w))?"
)
_FIGURE = r"\d{1,3}(?:[.,]\d{1,2})?"
_PITCH = r"(?:0?[.,]\d{1,2}|[1-3](?:[.,]\d{1,2})?)(?![0-9.,])"
"""As after a dash: "M8-1.25 x 30"."""


@dataclass(frozen=True, slots=True)
class Fastener:
    """One fastener phrase; `said` is its kind in the line's own words, `count` None if not said."""

    count: int | None = None
    kind: str = PLAIN_KIND
    said: str = ""
    thread: str = ""
    length: float | None = None
    length_unit: str = "mm"
    grade: str = ""
    one_time: bool = False


# --- threads

_METRIC = rx(
    rf"{_BEFORE}(?P<core>M(?P<size>[1-9]\d?(?:\.\d)?)"
    rf"(?:_[x×*]_(?P<a>{_FIGURE})|-(?P<dashed>{_PITCH}))?(?:_[x×*]_(?P<b>{_FIGURE}))?)(?P<inches>_(?:\"|”|inch(?:es)?(?!\w)"
    rf"|in{END}))?(?:_mm)?(?: long(?!\w))?(?![\w]|[.,]\d){_AFTER}"
)
# Coarse pitches in mm by diameter, ISO 261: a figure up to it is a pitch, far above it a length.
_COARSE = {
    1.6: 0.35, 2: 0.4, 2.5: 0.45, 3: 0.5, 3.5: 0.6, 4: 0.7, 5: 0.8, 6: 1, 7: 1, 8: 1.25, 10: 1.5,
    12: 1.75, 14: 2, 16: 2, 18: 2.5, 20: 2.5, 22: 2.5, 24: 3, 27: 3, 30: 3.5, 33: 3.5, 36: 4,
}  # fmt: skip
_WORD_FOLLOWS = rx(r"[^\S\n](?!T\d)[^\W0-9]")


def metric(text: str) -> Iterator[Found]:
    """`11 x M6x30`, `M10x1.25`, `3 screws M6x12`, `M10 x 1,25 x 40`, `M6x30 (11)`."""
    for match in _METRIC.finditer(text):
        bare = not (match["a"] or match["dashed"]) and not _count(match) and not match["kind2"]
        if bare and _WORD_FOLLOWS.match(text, match.end()):
            continue  # "M6 insert": the thread is part of a name
        if match["inches"] and match["a"]:
            thread = f"M{match['size']}" + (f"x{number(match['a']):g}" if match["b"] else "")
            yield _found(match, thread, number(match["b"] or match["a"]), None, "in")
        else:
            yield _found(match, *_metric_size(match))


def _metric_size(match: re.Match[str]) -> tuple[str, float | None, int | None]:
    """Thread, length and a count written last (`M6x30 x 7`)."""
    size = f"M{match['size']}"
    if match["dashed"]:
        return _dashed(match, size)
    if match["a"] is None:
        return size, None, None
    first = number(match["a"])
    if _is_pitch(float(match["size"]), first):
        length = number(match["b"]) if match["b"] else None
        return f"{size}x{first:g}", length, None
    if _is_length(float(match["size"]), first):
        if match["b"] is None:
            return size, first, None
        if match["b"].isdecimal() and int(match["b"]) and not match["count"]:
            return size, first, int(match["b"])
    return " ".join(match["core"].split()), None, None


def _dashed(match: re.Match[str], size: str) -> tuple[str, float | None, int | None]:
    length = number(match["b"]) if match["b"] else None
    return f"{size}x{number(match['dashed']):g}", length, None


def _is_pitch(diameter: float, figure: float) -> bool:
    return 0 < figure <= _COARSE.get(diameter, diameter / 6)


def _is_length(diameter: float, figure: float) -> bool:
    return figure > diameter / 2 and figure >= 2 * _COARSE.get(diameter, diameter / 6)


_INCH_FORM = r"(?:UNC|UNF|UNEF|UNS|UN|NC|NF|BSW|BSF|BSPT|BSPP|BSP|NPTF|NPT)(?!\w)"
FRACTION = r"(?:\d[- ])?\d{1,2}/(?:2|4|8|16|32|64)(?!\d)"
INCH_SIGN = r"(?:_(?:\"|”|inch(?:es)?(?!\w)|in(?!\w)))"
_PART = r"\d{1,2}/[1-9]\d?"
_LENGTH = (
    rf"(?P<length>\d{{1,2}}[- ]{_PART}|{_PART}|\d{{0,3}}\.\d{{1,3}}|\d{{1,3}})"
    rf"(?![0-9/.])(?:{INCH_SIGN}|_(?P<mm>mm)(?!\w))?"
)
_INCH = rx(
    rf"{_BEFORE}(?P<core>"
    rf"(?:{FRACTION}|#\d{{1,2}}){INCH_SIGN}?_-_\d{{1,2}}(?!(?![x×])[\w/])(?:_{_INCH_FORM})?"
    rf"|(?:no\.?_)?(?:4-40|6-32|8-32|10-24|10-32|12-24)(?!(?![x×])[\w/-])(?:_{_INCH_FORM})?"
    rf"|1-(?:8|12|14)(?:_{_INCH_FORM}|(?=_[x×*]_\d))"
    rf"|(?:{FRACTION}|#\d{{1,2}}|G_{FRACTION}){INCH_SIGN}?_{_INCH_FORM})"
    rf"(?:_[x×*]_{_LENGTH}(?: long(?!\w))?)?(?!\w){_AFTER}"
)


def inch(text: str) -> Iterator[Found]:
    """`3/8-16 x 1-1/4`, `1/4-28`, `#10-32`, `5/16 UNF x 1"`."""
    for match in _INCH.finditer(text):
        length = number(match["length"]) if match["length"] else None
        if length == 0:
            continue
        thread = re.sub(r"\s*-\s*", "-", re.sub('["”]', "", match["core"]))
        unit = "mm" if match["mm"] or length is None else "in"
        yield _found(match, " ".join(thread.split()), length, None, unit)


def _found(
    match: re.Match[str], thread: str, length: float | None, count: int | None, unit: str = "mm"
) -> Found:
    said = match["kind"] or match["kind2"] or (f"{match['short']} screw" if match["short"] else "")
    kind, once = _kind(said)
    fastener = Fastener(
        _count(match) or count, kind or PLAIN_KIND, said, thread, length, unit,
        grade_of(match["grade"] or ""), once,
    )  # fmt: skip
    return Found(match.start(), match.end(), "hardware", fastener)


def _count(match: re.Match[str]) -> int | None:
    return _number(match["count"] or match["count2"] or match["count3"])


def _number(said: str | None) -> int | None:
    return int(said) if said and said != NOT_COUNTED else None


_NOT_OF_A_KIND = (
    r"(?!(?:with|and|plus|no|not|without|missing|lost|of|the|an?|one|for|in|on|to|from|by|held|new"
    r"|old|broken|sheared|snapped|bent|stripped|rounded|damaged|worn|rusty|rusted|seized)(?!\w))"
)
_KIND_BEFORE = rx(
    rf"[^\w\n\0]*(?P<kind>(?:{_NOT_OF_A_KIND}[^\W0-9][\w-]* ){{0,2}}{_KINDS})[^\w\n\0]*$"
)


def with_kind(thread: Found, before: str) -> Found:
    """A bare thread with the kind in the words just before it: `screws M6x25`, beside the name."""
    fastener, match = thread.value, _KIND_BEFORE.match(before)
    if match is None or not isinstance(fastener, Fastener) or fastener.said:
        return thread
    said = match["kind"]
    start = thread.start - len(before) + match.start("kind")
    return replace(thread, start=start, value=replace(fastener, kind=kind_of(said), said=said))


def grade_of(said: str) -> str:
    """A strength class by its figures, a grade by its word: "class 8.8" -> "8.8", "gr 8" ->
    "grade 8"."""
    figures = re.sub("[^0-9.]", "", said).strip(".")
    is_class = fold(said).startswith("class") or figures in CLASSES
    return figures if is_class or not figures else f"grade {figures}"


_ONCE = re.compile(r"^(?:one-time(?:-use)?|single-use)[- ]")


def _kind(said: str) -> tuple[str, bool]:
    """The kind in the singular, and whether new ones go in: "one-time bolts" -> "bolt", True."""
    kind = kind_of(said)
    plain = _ONCE.sub("", kind)
    return plain, plain != kind


def kind_of(said: str) -> str:
    """The kind in the singular: "countersunk screws" -> "countersunk screw"."""
    return fold(said).removesuffix("s")


_COUNTED = rx(
    phrase(rf"{JOINED}(?P<count>[1-9]\d{{0,2}}|\?)(?:_[x×*]_| off | )(?P<kind>{_HELD_KINDS})")
)


def counted(text: str) -> Iterator[Found]:
    """`2 screws`, `1 circlip`, alone in their piece."""
    for match in _COUNTED.finditer(text):
        kind, once = _kind(match["kind"])
        fastener = Fastener(_number(match["count"]), kind, match["kind"], one_time=once)
        yield Found(match.start("p"), match.end("p"), "hardware", fastener)


_ENDS_IN_KIND = rx(rf"(?<!\w)(?:{_MADE} ){{0,4}}(?P<kind>{_KIND})$")


def kind_in_name(name: str) -> str:
    """The kind of fastener that a part's name says it is: "flywheel nut" is a nut, else ""."""
    match = _ENDS_IN_KIND.search(name)
    return kind_of(match["kind"]) if match else ""
