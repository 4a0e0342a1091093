"""How a part sat beside another, and what it has not, on a tape line."""

from collections.abc import Iterator

from bagtag.domain.which_way import OtherPart, SameWay, Without
from bagtag.scan.tape_text import Found, phrase, rx, tidy
from bagtag.scan.tape_way import FEATURE, LETTER, MARK, PART, STAMPED, TURNED, plain

_ROUND = r"(?: (?:round|around|up|in))?"
_SO = r"(?:(?:it |must )?(?:goes|go|fits?|sits?|faces?|turned|fitted|in) )?(?:round )?(?:the )?"
_NOT_A_PART = (
    r"(?!(?:new|before|above|below|usual|always|is|was|it|drawing|manual|photo|picture)(?!\w))"
)
_SAME = rx(
    rf"(?<![\w-]){_SO}(?:same(?: way{_ROUND}| direction)?(?: as)"
    rf"|(?P<opposite>(?:other|opposite|reverse) way{_ROUND} (?:to|from|of|than|as)"
    rf"|opposite to|reverse of)) {_NOT_A_PART}{PART}"
)


def same_way(text: str) -> Iterator[Found]:
    """`same way as the other fork`, `other way round to gear 2`."""
    for match in _SAME.finditer(text):
        fact = SameWay(OtherPart(tidy(match["part"])), opposite=bool(match["opposite"]))
        yield Found(match.start(), match.end(), "same way", fact)


_EITHER = (
    r"(?P<either>(?:(?:it )?(?:goes|fits?|can go|will go)(?: on| in)? )?either way"
    r"(?: (?:round|around|up))?)"
)
_MARKED = r"(?P<unmarked>not marked|unmarked|no markings?)"
_NONE = (
    r"(?:(?:has|there is|there are) )?(?:no|without(?: an?| any)?)"
    rf" (?P<feature>{FEATURE}|{STAMPED}|{LETTER}|{TURNED}|{MARK}|hand|place|seat|same way)"
)
_WITHOUT = rx(phrase(f"{_EITHER}|{_MARKED}|{_NONE}"))


def without(text: str) -> Iterator[Found]:
    """`either way round`, `no match mark`, `not marked`: read before doubt is looked for."""
    for match in _WITHOUT.finditer(text):
        feature = "mark" if match["unmarked"] else plain(match["feature"] or "")
        yield Found(match.start("p"), match.end("p"), "without", Without(feature))
