"""The text of a tape line as the recognisers see it: pieces, masks and spans.

A line is read on a working copy of the same length. Separators become SEP, and what a recogniser
has understood becomes MASK, so that no later one reads it again and every span is a span of the
line as typed.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

SEP, MASK, JOIN = "\n", "\0", "\t"


@dataclass(frozen=True, slots=True)
class Found:
    """What a recogniser understood: where, what kind of chip, and its value.

    `noted`: its words also stand in the note. `needs_hardware`: it means nothing where the line
    names no fastener, and stays unread there.
    """

    start: int
    end: int
    kind: str
    value: object
    noted: bool = False
    needs_hardware: bool = False

    def moved(self, by: int) -> "Found":
        """The same, `by` characters further on."""
        start, end = self.start + by, self.end + by
        return Found(start, end, self.kind, self.value, self.noted, self.needs_hardware)


@dataclass(frozen=True, slots=True)
class Span:
    start: int
    end: int

    def holds(self, found: "Found") -> bool:
        return self.start <= found.start and found.end <= self.end


@lru_cache(maxsize=512)
def rx(pattern: str) -> re.Pattern[str]:
    """A pattern in which a space is one or more spaces, `_` none or more, and \\d is 0 to 9."""
    hyphened = pattern.replace("[- ]", r"(?:-|[^\S\n]+)")
    spaced = hyphened.replace(" ", r"[^\S\n]+").replace("_", r"[^\S\n]*").replace(r"\d", "[0-9]")
    return re.compile(spaced, re.IGNORECASE)


# Nothing but signs up to the end of what is still unread here; and from its beginning.
END = r"(?=[^\w\n\0]*(?:$|[\n\0]))"
START = r"(?:^|(?<=[\n\0]))(?![\n\0])[^\w\n\0]*?"


def phrase(pattern: str) -> str:
    """The pattern as group `p`, alone in its stretch of unread text."""
    return f"{START}(?P<p>{pattern}){END}"


def whole(pattern: re.Pattern[str], piece: str) -> re.Match[str] | None:
    """What a pattern made by `phrase` is of a whole piece, whatever signs stand beside it."""
    return None if MASK in piece else pattern.match(piece)


def last(pattern: str) -> str:
    """The pattern as group `p`, at the end of its stretch of unread text."""
    return rf"(?<!\w)(?P<p>{pattern}){END}"


@lru_cache(maxsize=4096)
def fold(text: str) -> str:
    """For look-ups: without case, single spaces, the dotless and dotted i made plain."""
    return " ".join(text.replace("İ", "i").replace("ı", "i").casefold().split())


def number(text: str) -> float:
    """`1.25`, `1,25`, `3/8`, `1-1/4` and `1 1/4` as figures."""
    whole, _, fraction = text.replace("-", " ").strip().rpartition(" ")
    above, _, below = fraction.replace(",", ".").partition("/")
    return float(whole or 0) + float(above) / float(below or 1)


_BREAKS = re.compile(r"[;|\n\r\x0b\x0c\x85\u2028\u2029]|(?<=\s)[-–—](?=\s)|,")
_COUNTED = r"(?:bag|tray|tote|shelf|of|cyl(?:inder)?|hole|position|no\.?|from|qty|T|[x×*])"
_AFTER_DECIMAL = (
    r"(?:mm|cm|(?:da)?_N_[·.⋅*x-]?_c?m|newton|oz|lb|ft|in|kg|kp|mkg|mkp|thou|\"|proud|below"
    r"|o['’]?clock)"
)
_DECIMAL = rx(
    rf"(?<![\w.,/-])(?P<counted>{_COUNTED}_)?\d{{1,4}}(?P<comma>,)\d{{1,3}}(?=_{_AFTER_DECIMAL})"
    r"|(?<!\w)M\d{1,2}_[x×*]_[0-6](?P<pitch>,)\d{1,2}(?!\d)"
    r"|(?<![\w.,/-])\d{1,3}(?P<one>,)\d{1,2}_[x×*]_\d{1,3}(?P<two>,)\d{1,2}(?!\d)"
)
# What a comma joins to the words before it, as a sentence on which way does.
_JOINING = rx(
    r"(?:\d|(?:st|nd|rd|th|row)(?=,))(?P<place>,)(?= counted from )"
    r"|(?:dots?|pops?|marks?|marked|lines?|stripes?|notch(?:es)?|cuts?|paint|numbers?|letters?"
    r"|figures?)(?P<mark>,)(?= matched (?:to|with) )"
    r"|(?<=[,;.]) [^,;.\n]{1,40}(?P<other>,)(?= matched (?:to|with) )"
    r"|by position(?P<hand>,)(?= not stamped)|(?:out|in)wards?(?P<way>,)(?= to )"
)
_STOP = re.compile(r"(?<![\s.])\.(?=\s+(\S))")
_SHORTENED = re.compile(
    r"(?<![^\W_])(?:cyl|pos|nos?|nr|pcs?|qty|approx|ca|fig|dia|max|min|gr|incl|mk|e\.g|i\.e|vs)$",
    re.IGNORECASE,
)


def working_copy(line: str) -> str:
    """The line with its separators as SEP: a comma inside a figure is none, one before the rest of
    a fact becomes JOIN; a full stop before a capital or a figure is one, unless it shortens a
    word."""
    breaks = {m.start(): SEP for m in _BREAKS.finditer(line)}
    if "," in line:
        for i in _decimal_commas(line):
            breaks.pop(i, None)
        breaks |= {m.start(m.lastgroup or 0): JOIN for m in _JOINING.finditer(line)}
    if ". " in line:
        breaks |= dict.fromkeys(_full_stops(line), SEP)
    plain = list(line.replace(MASK, "\x01").replace(JOIN, " "))
    for i, sign in breaks.items():
        plain[i] = sign
    return "".join(plain)


def _decimal_commas(line: str) -> Iterator[int]:
    for match in _DECIMAL.finditer(line):
        if match["one"]:
            yield match.start("one")
            yield match.start("two")
        elif match["pitch"]:
            yield match.start("pitch")
        elif not match["counted"]:
            yield match.start("comma")


def _full_stops(line: str) -> Iterator[int]:
    for match in _STOP.finditer(line):
        ends = match[1].isupper() or match[1].isdecimal()
        if ends and not _SHORTENED.search(line, 0, match.start()):
            yield match.start()


def pieces(text: str) -> list[Span]:
    """The stretches between separators that hold something."""
    return [Span(m.start(), m.end()) for m in re.finditer(r"[^\n]+", text) if m.group().strip()]


def stretches(text: str) -> Iterator[Span]:
    """The unread stretches that have a word in them, without the signs around it."""
    for match in re.finditer(r"[^\n\0]+", text):
        inner = re.search(r"[\w#].*[\w)\"]|\w", match.group(), re.DOTALL)
        if inner:
            yield Span(match.start() + inner.start(), match.start() + inner.end())


def masked(text: str, span: Span | Found) -> str:
    return text[: span.start] + MASK * (span.end - span.start) + text[span.end :]


Recogniser = Callable[[str], Iterable[Found]]


def see(text: str, recognisers: Iterable[Recogniser]) -> tuple[str, list[Found]]:
    """What the recognisers understand, each reading what those before it have left."""
    seen: list[Found] = []
    for recognise in recognisers:
        for found in recognise(text):
            if MASK not in text[found.start : found.end]:
                seen.append(found)
                text = masked(text, found)
    return text, seen


_JOINERS = " \t-–—:+&="
_LEADING = re.compile(r"^(?:[\s–—:+&=]|-(?![0-9.,]))+")


def tidy(text: str) -> str:
    """Without the signs that joined it to its neighbours; a bracket that lost its twin goes."""
    kept = _unjoined(text)
    if kept.count("(") > kept.count(")"):
        kept = kept.removesuffix("(") if kept.endswith("(") else kept.removeprefix("(")
    if kept.count(")") > kept.count("("):
        kept = kept.removeprefix(")") if kept.startswith(")") else kept.removesuffix(")")
    return _unjoined(kept)


def _unjoined(text: str) -> str:
    return _LEADING.sub("", text).rstrip().rstrip(_JOINERS).rstrip()
