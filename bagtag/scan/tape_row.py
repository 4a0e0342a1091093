"""Where and how deep a part sat, on a tape line: place in a row, seat, hand, bare sides."""

import re
from collections.abc import Iterator

from bagtag.domain.which_way import Hand, Place, Seat, SeatKind
from bagtag.scan.tape_text import Found, fold, last, number, phrase, rx
from bagtag.scan.tape_words import Words

# --- place

_ORDINALS = [
    *("first", "second", "third", "fourth", "fifth"),
    *("sixth", "seventh", "eighth", "ninth", "tenth"),
]
NUMBERS = [
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
]
VALUES = {word: i for words in (_ORDINALS, NUMBERS) for i, word in enumerate(words, start=1)}
_ORDINAL = rf"(?:[1-9]\d{{0,2}}_(?:st|nd|rd|th)|{'|'.join(_ORDINALS)})(?!\w)"
_TOTAL = rf"(?:[1-9]\d{{0,2}}|{'|'.join(NUMBERS)})(?![\w/-]|[.,]\d)"
_FROM = r"(?: (?:counted |counting )?from (?P<{}>SIDE))"
_PLACE = (
    rf"(?<![\w.,/-])(?:the )?(?:(?P<index>{_ORDINAL}|last|[1-9]\d{{0,2}}) of (?P<of>{_TOTAL})"
    rf"{_FROM.format('rowside')}?"
    rf"|(?P<nth>{_ORDINAL})(?: one| in)?{_FROM.format('side')}"
    rf"|(?P<row>{_ORDINAL}) in (?:its|the) row)"
)
_COUNTED_THING = (
    r"(?<!\w)(?P<what>cylinder|cyl\.?|(?:(?:bolt|stud|dowel) )?hole|position|pos\.?"
    r"|journal|bore|station)"
    r" (?:no\.? |number |#)?(?P<index>[1-9]\d{0,2})(?: of (?P<of>[1-9]\d{0,2}))?"
    rf"(?![\w/]|[.,-]\d|_(?:mm|cm|x_\d)){_FROM.format('side')}?"
)
_WHOLE = {"cyl": "cylinder", "pos": "position"}


def place(text: str, words: Words) -> Iterator[Found]:
    """`2nd of 3 from the flywheel side`, `last of 4`, `third from front`."""
    for match in words.rx(_PLACE).finditer(text):
        of = _count(match["of"]) if match["of"] else None
        index = _count(match["index"] or match["nth"] or match["row"]) or of
        said = match["rowside"] or match["side"]
        side = words.side(said) if said else None
        if index:
            yield Found(match.start(), match.end(), "place", Place(index, of, side))


def counted_thing(text: str, words: Words) -> Iterator[Found]:
    """`cylinder 2`, `hole 14`, `cyl. no. 1 of 2`."""
    for match in words.rx(_COUNTED_THING).finditer(text):
        what = fold(match["what"]).rstrip(".")
        of = int(match["of"]) if match["of"] else None
        side = words.side(match["side"]) if match["side"] else None
        fact = Place(int(match["index"]), of, side, _WHOLE.get(what, what))
        yield Found(match.start(), match.end(), "place", fact)


def _count(said: str) -> int | None:
    """2 for "2nd", "second", "two" and "2"; None for "last"."""
    figures = re.match("[0-9]+", said)
    return int(figures[0]) if figures else VALUES.get(fold(said))


# --- seat

_MILLIMETRES = {"mm": 1.0, "cm": 10.0, "thou": 0.0254, "in": 25.4, "inch": 25.4, '"': 25.4}
_DEPTH = (
    r"(?<![\w.,/-])(?P<depth{n}>\d{{0,3}}[.,]\d{{1,3}}|\d{{1,3}})"
    r"_(?P<unit{n}>mm|cm|thou|inch|in|\")"
)
_PROUD = r"proud|protruding|standing out|sticking out|above(?: (?:the )?(?:face|surface))?"
_BELOW = (
    r"below(?: (?:flush|(?:the )?(?:face|surface)))?|under ?flush|sub-?flush|recessed|sunk(?:en)?"
)
_SEAT = (
    rf"(?:(?<!\w)(?:sits|sat|stands|stood|pressed(?: in)?|driven(?: in)?) )?"
    rf"{_DEPTH.format(n=1)} (?:(?P<proud1>{_PROUD})|(?P<below1>{_BELOW}))(?!\w)"
    r"|(?<!\w)(?:(?P<proud2>proud)|(?P<below2>below(?: flush)?|recessed|sunk))(?: by)?_"
    rf"{_DEPTH.format(n=2)}(?!\w)"
)
_PLAIN_SEAT = (
    r"(?P<flush>flush)(?: with (?:the )?(?:face|surface)|(?= (?:with|to) ))?"
    r"|(?P<bottomed>bottomed(?: out)?|fully home|driven home|right home)"
    r"|(?P<shoulder>(?:(?:hard|up|seated|tight) )?(?:against|to|on) (?:the |its )?shoulder)"
    r"|(?P<proud>proud)|(?P<below>recessed|below (?:flush|(?:the )?(?:face|surface)))"
)
_SITS = r"(?:(?:sits|sat|stands|stood|fitted|seated) )?"


def seat(text: str) -> Iterator[Found]:
    """`0.5 mm below`, `proud 1,2 mm`, `20 thou proud`, in millimetres."""
    for match in rx(_SEAT).finditer(text):
        n = 1 if match["depth1"] else 2
        figure = number(match[f"depth{n}"]) * _MILLIMETRES[fold(match[f"unit{n}"])]
        kind = SeatKind.PROUD if match[f"proud{n}"] else SeatKind.BELOW
        if figure > 0:
            yield Found(match.start(), match.end(), "seat", Seat(kind, round(figure, 4)))


def plain_seat(text: str) -> Iterator[Found]:
    """`flush`, `bottomed`, `against the shoulder`, `proud`, at the end of a stretch."""
    for match in rx(last(f"{_SITS}(?:{_PLAIN_SEAT})")).finditer(text):
        kinds = [kind for kind in SeatKind if match[kind.value]]
        yield Found(match.start(), match.end(), "seat", Seat(kinds[0]))


# --- hand and bare sides

_HAND = (
    r"(?:(?P<stamped>stamped|marked|letter) )?(?P<letter>(?-i:[LR]))"
    r"|(?P<word>left|right|(?-i:LH|RH)|l/h|r/h)(?:[- ]?hand(?:ed)?)?"
)


_BY_POSITION = rx(phrase(r"(?P<letter>(?-i:[LR])) by position(?: not stamped)?"))


def hand_by_position(text: str) -> Iterator[Found]:
    """`R by position, not stamped`: read before doubt is looked for."""
    for match in _BY_POSITION.finditer(text):
        yield Found(match.start("p"), match.end("p"), "hand", Hand(match["letter"]))


def hand(text: str) -> Iterator[Found]:
    """`R` or `stamped L` is the part's own letter; `left` and `RH` are by position."""
    for match in rx(phrase(_HAND)).finditer(text):
        said = match["letter"] or match["word"]
        fact = Hand(said[0].upper(), stamped=bool(match["letter"]))
        yield Found(match.start("p"), match.end("p"), "hand", fact)


def bare_side(text: str, words: Words) -> Iterator[Found]:
    """`clutch side` by itself: says which of its like the part is, so it joins the name."""
    for match in words.rx(phrase("BARE")).finditer(text):
        yield Found(match.start("p"), match.end("p"), "name", words.side(match["p"]))
