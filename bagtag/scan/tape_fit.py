"""What goes with a fastener, on a tape line: its head, its washers, what goes on its threads."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from bagtag.scan.tape_text import Found, fold, phrase, rx, whole


@dataclass(frozen=True, slots=True)
class Head:
    """The shape of a head: "flange", "countersunk"."""

    text: str


@dataclass(frozen=True, slots=True)
class Washers:
    """Washers as said: how many, what they are; `each` where the line says that so many lie under
    each fastener. No count where it says only that they are there."""

    count: int | None
    text: str = ""
    each: bool = False


@dataclass(frozen=True, slots=True)
class Lubrication:
    """What the threads want: "oil", "dry"."""

    text: str


# --- heads

_SHAPE = (
    r"(?:hex(?:agon)?|flanged?|socket|pan|cheese|button|(?:raised )?countersunk|csk|round|domed?"
    r"|square|fillister|truss|hammer|T|(?:twelve|12)[- ]point|bi-?hex|low|low[- ]profile|wafer"
    r"|mushroom|collar|eye|oval|washer)"
)
_HEAD = rx(phrase(rf"(?P<shape>{_SHAPE}(?:[- ]{_SHAPE})?)[- ]head(?:ed)?s?"))


def head(text: str) -> Iterator[Found]:
    """`flange head`, `pan head`: only where there is a fastener."""
    for match in _HEAD.finditer(text):
        start, end = match.span("p")
        shape = Head(" ".join(match["shape"].split()))
        yield Found(start, end, "hardware", shape, needs_hardware=True)


# --- washers

_WASHER = (
    r"(?:plain|flat|spring|wave|wavy|thick|thin|hardened|large|penny|serrated|star|copper"
    r"|alumini?um|alu|alloy|brass|steel|fibre|fiber|rubber|nylon|bonded|sealing|crush|cup|conical"
    r"|belleville|split|round)"
)
_WASHERS = (
    rf"(?:(?P<count>[1-9]|an?) (?:x )?)?(?P<kind>(?:new )?(?:{_WASHER}[- ](?:and )?){{0,3}})"
    r"washers?(?P<each> each)?"
)
_AMID = rx(phrase(rf"(?:with|w/_|\+_|and|on)_{_WASHERS}"))
_AFTER = rx(rf"(?<=\0)_{_WASHERS}(?!\w)")
_ALONE = rx(phrase(_WASHERS))
_WITH_ANY = rx(phrase(r"(?:with |w/_|\+_)(?P<kind>(?:\w+ )?)washers?"))


def washers(text: str) -> Iterator[Found]:
    """`with copper washers`, `M8x30 + 2 plain washers`: said together with a fastener."""
    for pattern in (_AMID, _AFTER):
        for match in pattern.finditer(text):
            yield _washers(match, match.start(), match.end())
    for match in _WITH_ANY.finditer(text):
        value = Washers(None, " ".join(match["kind"].split()))
        yield Found(match.start("p"), match.end("p"), "hardware", value, needs_hardware=True)


def washers_alone(piece: str) -> Iterator[Found]:
    """`2 copper washers`: a whole piece, where another is the name and names a fastener."""
    match = whole(_ALONE, piece)
    if match:
        yield _washers(match, match.start("p"), match.end("p"))


def _washers(match: re.Match[str], start: int, end: int) -> Found:
    said = match["count"]
    count = None if said is None else int(said) if said.isdecimal() else 1
    value = Washers(count, " ".join(match["kind"].split()), bool(match["each"]))
    return Found(start, end, "hardware", value, needs_hardware=True)


# --- lubrication

_LUBRICANT = (
    r"(?:(?:(?:clean|engine|light|gear|motor) )*oil|oiled|dry|lubricated"
    r"|(?:(?:moly(?:bdenum)?|copper|graphite|lithium) )?(?:grease|paste)|greased|anti-?seize"
    r"|wax(?:ed)?)"
)
_WET = r"(?:lightly )?(?:oiled|greased|lubricated|dry|waxed)"
_THREADS = (
    r"(?:(?:bolt |stud )?threads?(?: and (?:under )?(?:the )?heads?)?|bolts|studs|screws|nuts)"
)
_LUBRICATION = rx(
    phrase(
        rf"threads (?P<after>(?:lightly )?{_LUBRICANT})"
        rf"|{_THREADS} (?P<oiled>{_WET})"
        rf"|(?P<before>{_WET}) {_THREADS}"
        rf"|(?:a (?:drop|smear|dab|little) of )?(?P<on>{_LUBRICANT})(?: on)?(?: the)?"
        r" (?:bolt |stud )?threads"
    )
)
_PLAINLY = {"oiled": "oil", "greased": "grease", "waxed": "wax", "lightly oiled": "light oil"}
_HERE = rx(r"(?<=\0)_(?P<said>oiled|dry|greased|lubricated|waxed)(?=[^\S\n]*(?:$|[\n\0]))")


def lubrication(text: str) -> Iterator[Found]:
    """`threads oil`, `oiled threads`, `oil on the threads`, `bolts dry`; a part without a fastener
    has it go on."""
    for match in _LUBRICATION.finditer(text):
        said = match["after"] or match["oiled"] or match["before"] or match["on"]
        yield Found(match.start("p"), match.end("p"), "hardware", _lubricated(said))
    for match in _HERE.finditer(text):
        yield Found(match.start(), match.end(), "hardware", _lubricated(match["said"]))


def _lubricated(said: str) -> Lubrication:
    plain = " ".join(said.split())
    return Lubrication(_PLAINLY.get(fold(plain), plain))
