"""What the kinds of parts ask about, on a tape line: features, turned things and counted things.

Any word can be a feature ("drain in the lower hole", "mouth outward", "valve 2"). One that some
kind asks about is read, in a piece of its own beside the name; others are left as words.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from bagtag.domain.kinds import Kinds
from bagtag.domain.which_way import Clocking, Faces, Place
from bagtag.scan.tape_text import Found, fold, phrase, rx, tidy, whole
from bagtag.scan.tape_way import PART, plain
from bagtag.scan.tape_words import Words


@dataclass(frozen=True, slots=True)
class Asked:
    """What the questions name, folded: what faces, what is turned, what is counted."""

    faces: frozenset[str]
    turned: frozenset[str]
    counted: frozenset[str]


@lru_cache(maxsize=4)
def asked(kinds: Kinds) -> Asked:
    """What these kinds ask about."""
    named: dict[str, set[str]] = {"faces": set(), "clocking": set(), "place": set()}
    for kind in kinds.all():
        for question in kind.asks:
            if question.feature and question.fact in named:
                named[question.fact].add(fold(question.feature))
    faces, turned, counted = (frozenset(features) for features in named.values())
    return Asked(faces, turned, counted)


_FEATURE = r"(?:the )?(?P<feature>\w[\w\x20'-]{0,40}?)"
_FACES = phrase(rf"{_FEATURE} (?P<way>WAY)")
_TURNED = phrase(
    rf"{_FEATURE} (?:is )?(?P<how>in|into|to|with|over|opposite|against|away from|each side of"
    rf"|at(?= (?:the|an?|\d\S?(?: \d/\d)? turns?)(?!\w))) {PART.replace('(?:the )?', '')}"
)
_COUNTED = phrase(
    r"(?P<feature>[^\W0-9][\w\x20-]{0,30}?) (?P<index>[1-9]\d{0,2})(?: of (?P<of>[1-9]\d{0,2}))?"
    r"(?: (?:counted |counting )?from (?P<side>SIDE))?"
)


def read_asked(piece: str, words: Words, known: Asked) -> Iterator[Found]:
    """What a whole piece says of something that some kind asks about."""
    for read in (_faces, _counted, _turned):
        found = read(piece, words, known)
        if found is not None:
            yield found
            return


def _faces(piece: str, words: Words, known: Asked) -> Found | None:
    match = whole(words.rx(_FACES), piece)
    toward = words.toward(match["way"]) if match else None
    if match is None or toward is None or fold(match["feature"]) not in known.faces:
        return None
    fact = Faces(plain(match["feature"]), toward)
    return Found(match.start("p"), match.end("p"), "faces", fact)


def _counted(piece: str, words: Words, known: Asked) -> Found | None:
    match = whole(words.rx(_COUNTED), piece)
    if match is None or fold(match["feature"]) not in known.counted:
        return None
    side = words.side(match["side"]) if match["side"] else None
    of = int(match["of"]) if match["of"] else None
    fact = Place(int(match["index"]), of, side, fold(match["feature"]))
    return Found(match.start("p"), match.end("p"), "place", fact)


def _turned(piece: str, words: Words, known: Asked) -> Found | None:
    match = whole(rx(_TURNED), piece)
    if match is None or fold(match["feature"]) not in known.turned:
        return None
    how, target = fold(match["how"]), tidy(match["part"])
    said = target.removeprefix("the ") if how == "to" else f"{how} {target}"
    fact = Clocking(plain(match["feature"]), target=said)
    return Found(match.start("p"), match.end("p"), "clocking", fact)
