"""Which tool turns a fastener: from its drive as a person wrote it."""

import re
from dataclasses import dataclass
from enum import Enum, auto

from bagtag.domain.hardware import HeldBy
from bagtag.domain.tools import ToolKind


class Form(Enum):
    """The shape that a tool grips. Hexagonal lobes are named by their letters, as ISO 10664 names
    the recess by its number."""

    HEXAGON = auto()
    TWELVE = auto()
    SPANNER = auto()
    KEY = auto()
    LOBE = auto()
    LOBE_HEAD = auto()
    CROSS = auto()
    SLOT = auto()
    SQUARE = auto()
    WRITTEN = auto()


@dataclass(frozen=True, slots=True)
class Grip:
    """What a tool must fit: a shape and its size as text ("10 mm", "9/16 in", "T30"). `note` is
    what to look at first, where it was told from the thread (`is_likely`)."""

    form: Form
    size: str = ""
    is_likely: bool = False
    note: str = ""

    @property
    def kind(self) -> ToolKind:
        return _KINDS.get(self.form, ToolKind.KEY)

    def name(self, on_wrench: bool) -> str:
        """What the tool is called; `on_wrench` where a torque wrench must drive it."""
        plain, driven = _NAMES[self.form]
        return (driven if on_wrench else plain).format(size=self.size).strip()


_KINDS = {
    Form.HEXAGON: ToolKind.SOCKET,
    Form.TWELVE: ToolKind.SOCKET,
    Form.SPANNER: ToolKind.SOCKET,
    Form.LOBE_HEAD: ToolKind.SOCKET,
    Form.WRITTEN: ToolKind.OTHER,
}
_NAMES = {
    Form.HEXAGON: ("{size} socket or spanner", "{size} socket"),
    Form.TWELVE: ("{size} 12-point socket or ring spanner", "{size} 12-point socket"),
    Form.SPANNER: ("{size} spanner", "{size} spanner"),
    Form.KEY: ("{size} hexagon key", "{size} hexagon bit for the wrench"),
    Form.LOBE: ("{size} bit", "{size} bit for the wrench"),
    Form.LOBE_HEAD: ("{size} socket", "{size} socket"),
    Form.CROSS: ("{size} cross-head screwdriver", "{size} cross-head bit for the wrench"),
    Form.SLOT: ("slotted screwdriver", "slotted bit for the wrench"),
    Form.SQUARE: ("{size} square key", "{size} square bit for the wrench"),
    Form.WRITTEN: ("{size}", "{size}"),
}

_FRACTION = r"(?:\d[- ])?\d{1,2}/(?:2|4|8|16|32|64)"
_SIZE = re.compile(
    rf"(?<![\w/.,])(?:(?P<inch>{_FRACTION})(?![\d/])|(?P<mm>\d{{1,2}}(?:[.,]\d{{1,2}})?)(?![\d/.,]))"
    r"\s*(?:(?P<unit>mm|in(?:ch)?|[\"”])(?!\w))?"
)
_FORMS = tuple(
    (re.compile(words), form)
    for words, form in (
        (r"12[- ]?point|bi-?hex|double[- ]hex", Form.TWELVE),
        (r"\ballen\b|\b(?:inner|internal)\b|\bsocket[- ]?(?:head|cap)", Form.KEY),
        (r"\bhex(?:agon)?[- ](?:key|socket|bit)\b|^hex(?:agon)?\s\d", Form.KEY),
        (r"\bspanner|\bwrench", Form.SPANNER),
        (r"\bsquare\b", Form.SQUARE),
        (r"\bhead\b|\ba/?f\b|\bacross flats\b|\bnut\b", Form.HEXAGON),
    )
)
_POINT = re.compile(r"\b(PH|PZ|JIS)(?: cross-?head)?[ -]?(?:no\.? ?)?(\d)?(?!\w)")
_NO_SIZE = re.compile(
    r"(?:hex(?:agon)?|socket|allen)?[ -]?(?:head|nut|bolt|key|socket|spanner|a/?f)?"
)
_SOCKET_HEAD = re.compile(r"\bsocket|\bcap (?:head|screw)|\bgrub|^cap\b|\bbutton|\bcountersunk")


def by_drive(line: HeldBy, *, key: str = "") -> Grip | None:
    """The grip that the drive of a line says, None where it says none that has a size.

    Several drives with commas between ("slotted, 8 mm head") are ways to turn one screw: the first
    that has a size counts. `key` is the key size of its thread: "8 mm hex" of an M10 screw is the
    hexagon inside its head. A drive in words that are not known is the tool's own name.
    """
    words = [word.strip() for word in re.split(r",(?!\d)|;|\bor\b", line.drive) if word.strip()]
    found = [grip for word in words if (grip := _of_word(word, line, key)) is not None]
    known = [grip for grip in found if grip.form is not Form.WRITTEN]
    return next((grip for grip in known if grip.size), next(iter(known or found), None))


def _of_word(word: str, line: HeldBy, key: str) -> Grip | None:
    lettered = _lettered(word)
    if lettered is not None:
        return lettered
    small = word.casefold()
    size = _size(small)
    if re.search(r"\bslot", small):
        return Grip(Form.SLOT)
    if re.search(r"\bcross", small):
        return Grip(Form.CROSS, _point(small))
    form = _form(small, line, size == key != "") if size else Form.WRITTEN
    if form is not Form.WRITTEN:
        return Grip(form, size)
    return None if _NO_SIZE.fullmatch(small) else Grip(form, " ".join(word.split()))


def _lettered(word: str) -> Grip | None:
    """T30, E10, PH2, PZ2, JIS 2."""
    if match := re.search(r"\b(?:TX|T)\s?(\d{1,3})\b", word):
        return Grip(Form.LOBE, f"T{match[1]}")
    if match := re.search(r"\bE(\d{1,2})\b", word):
        return Grip(Form.LOBE_HEAD, f"E{match[1]}")
    if match := _POINT.search(word):
        joiner = " " if match[1] == "JIS" else ""
        return Grip(Form.CROSS, joiner.join(part for part in match.groups() if part))
    return None


def _form(word: str, line: HeldBy, is_key: bool) -> Form:
    """The shape that a drive with a size means. "hex" alone is the outside of the head, unless the
    head is a socket head or the size is that of the thread's key."""
    told = next((form for pattern, form in _FORMS if pattern.search(word)), None)
    if told is not None:
        return told
    if re.search(r"\bhex|\bsockets?\b", word):
        return Form.KEY if is_key or _has_socket_head(line) else Form.HEXAGON
    return Form.HEXAGON if _SIZE.fullmatch(word) else Form.WRITTEN


def _has_socket_head(line: HeldBy) -> bool:
    return _SOCKET_HEAD.search(f"{line.head} {line.kind}".casefold()) is not None


def _size(word: str) -> str:
    """ "10 mm", "9/16 in", or nothing. A bare whole number is millimetres."""
    match = _SIZE.search(re.sub(r"12[- ]?point", "", word))
    if match is None:
        return ""
    if match["inch"] or (match["unit"] or "mm") != "mm":
        return f"{match['inch'] or match['mm']} in"
    return f"{float(match['mm'].replace(',', '.')):g} mm"


def _point(word: str) -> str:
    match = re.search(r"\b([0-4])\b", word)
    return f"no. {match[1]}" if match else ""


def by_size(size: str) -> float:
    """Where a size stands among others, in mm for a length; letters by their number."""
    whole = re.search(r"(?:(\d+)[- ])?(\d+)/(\d+) in", size)
    if whole:
        return 25.4 * (int(whole[1] or 0) + int(whole[2]) / int(whole[3]))
    figure = re.search(r"\d+(?:\.\d+)?", size)
    return (25.4 if size.endswith(" in") else 1) * float(figure.group()) if figure else 0.0
