"""What goes on a part, how many, and where it went, on a tape line."""

from collections.abc import Iterator, Mapping

from bagtag.domain.model import ContainerKind
from bagtag.scan.tape_text import END, Found, fold, last, phrase, rx, stretches

# --- what goes on

_STUFF = (
    r"(?:(?:engine|gear(?:box)?|clean|assembly|two-stroke|motor|light) oil|oil"
    r"|(?:moly(?:bdenum)?|silicone|copper|lithium|rubber|white|assembly) grease|grease"
    r"|(?:thread |silicone |liquid )?sealant|sealer|sealing compound|jointing compound"
    r"|liquid gasket|gasket (?:compound|cement|goo)|RTV|(?:assembly|cam|moly) (?:lube|paste)"
    r"|retaining compound|anti-?seize|petroleum jelly|oiled|greased|PTFE tape"
    r"|(?:fit(?:ted)? )?dry)"
)
_WHERE = (
    r"(?: (?:on|to|under|in|inside|over) (?:the )?[^\n\0]{1,60}"
    r"|(?: the)? (?:lips?|threads?|teeth|bore|splines|face|seat|shaft|both (?:sides|faces|ends)))?"
)
_GOES_ON = rx(
    phrase(
        r"(?:(?:with|use|apply|fit with|add|a (?:drop|smear|dab|little)(?: of)?|light|fresh"
        rf"|(?:lots|plenty) of|a) )*{_STUFF}(?:(?: and |_&_|_\+_){_STUFF})*{_WHERE}"
    )
)


def goes_on(text: str) -> Iterator[Found]:
    """`oil`, `grease on lip`, `sealant both faces`, alone in their piece."""
    for match in _GOES_ON.finditer(text):
        yield Found(match.start("p"), match.end("p"), "goes on", match["p"])


# --- counts

_COUNT = rx(
    last(
        r"(?:(?<!\w)[x×*]_(?P<times>[1-9]\d{0,3})|(?:qty|quantity)_[.:]?_(?P<qty>[1-9]\d{0,3})"
        r"|(?P<off>[1-9]\d{0,3}) (?:off|pcs?\.?|pieces))"
    )
)
_UNITS = (
    r"(?:mm|cm|m|in|inch|thou|ml|l|litres?|liters?|tooth|teeth|t|v|volt|speed|stroke|way|start|cyl"
    r"|hp|kw|deg|degrees?|percent|row|piece|part|gauge|ply|point|st|nd|rd|th)"
)
_NUMBERS = [
    *("two", "three", "four", "five", "six", "seven"),
    *("eight", "nine", "ten", "eleven", "twelve"),
]
_FIRST = rx(
    r"(?P<times>[1-9]\d{0,3})(?:_[x×*]_| off | pcs?\.? )(?=[^\W0-9])"
    rf"|(?P<plain>[1-9]\d?) (?!(?:x|{_UNITS})(?!\w))(?=[^\W0-9])"
    rf"|(?P<word>{'|'.join(_NUMBERS)}) (?!{_UNITS}(?!\w))(?=[^\n]*[^s\W]s$)"
)


_TWO = rx(r"\d[x×*][\d.,]+_$".replace(r"[\d", "[0-9"))


def count(text: str) -> Iterator[Found]:
    """`x3`, `qty 4`, `3 off`, at the end of a stretch; not the `x 2` of `O-ring 20 x 2`."""
    for match in _COUNT.finditer(text):
        start, end = match.span("p")
        spaced = match["times"] and text[start + 1 : start + 2].isspace()
        if spaced and text[:start].rstrip()[-1:].isdigit() and not _TWO.search(text[:start]):
            continue
        yield Found(start, end, "count", int(match["times"] or match["qty"] or match["off"]))


def count_before(name: str) -> tuple[int, int] | None:
    """The count that a name begins with and where the name goes on: "3 springs" -> (3, 2)."""
    match = _FIRST.match(name)
    if match is None:
        return None
    if match["word"]:
        return _NUMBERS.index(fold(match["word"])) + 2, match.end()
    return int(match["times"] or match["plain"]), match.end()


# --- containers and areas

_KINDS = "|".join(kind.value for kind in ContainerKind)
_CONTAINER = rx(
    r"(?<!\w)(?:(?:goes |put )?(?:in|into|on|to) (?:the )?)?"
    rf"(?P<kind>{_KINDS})(?: |(?=\d))(?:no\.?_|number |nr\.?_|#_)?"
    rf"(?P<name>\d{{1,6}}[a-z]?(?!\w)|(?-i:[A-Z]\d{{0,4}}(?!\w))|[a-z]\d{{1,4}}(?!\w)|[a-z]{END})"
    r"(?![/]|[.,-]\d|_(?:mm|cm)(?!\w))"
)


def container(text: str) -> Iterator[Found]:
    """`bag 12`, `in tray 3`, `shelf B`; the value is its label."""
    for match in _CONTAINER.finditer(text):
        label = f"{fold(match['kind'])} {match['name'].upper()}"
        yield Found(match.start(), match.end(), "container", label)


def known_container(text: str, labels: Mapping[str, str]) -> Iterator[Found]:
    """A container by the label it has, alone in its piece; `labels` by their folded form."""
    for span in stretches(text):
        label = labels.get(fold(text[span.start : span.end]))
        if label is not None:
            yield Found(span.start, span.end, "container", label)


_IN_AREA = rx(r"(?<!\w)(?:from|in|out of|inside|off)(?: the)? ")


def area(text: str, areas: Mapping[str, int]) -> Iterator[Found]:
    """An area by its name, alone in its piece or after "in" or "from"; `areas` by folded names."""
    for span in stretches(text):
        said = text[span.start : span.end]
        starts = [0] + [m.end() for m in _IN_AREA.finditer(said)]
        heads = [0] + [m.start() for m in _IN_AREA.finditer(said)]
        for head, start in zip(heads, starts, strict=True):
            if fold(said[start:]) in areas:
                yield Found(span.start + head, span.end, "area", areas[fold(said[start:])])
                break
