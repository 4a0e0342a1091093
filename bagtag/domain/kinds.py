"""Part kinds: what the trade knows of a kind of part, and which kind a name means.

A kind says what to ask when such a part comes off, what usually goes wrong with it, whether it is
renewed, what goes on it, how to tell that it is home, what can hurt, and what it stays with.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from bagtag.domain.model import Hazard

NO_KIND = "none"
"""What `Removal.kind` holds when a person said that its name's kind is not meant."""


class Renewal(StrEnum):
    """Whether a part of a kind is renewed when it has been off."""

    ALWAYS = "always"
    CONDITION = "on condition"
    NEVER = "never"


class Pair(StrEnum):
    """How the left and the right one of a kind stand to each other."""

    ALIKE = "alike"
    MIRROR = "mirror"


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to ask of a part that comes off.

    `fact` is a fact's name as in `which_way.to_data`; `feature` is what faces or is turned, what is
    counted ("cylinder"), or the match mark looked for; `choices` are the answers of the kind's file
    (see docs/kinds.md); a question that is not `must` is asked, and the audit does not insist.
    """

    fact: str
    sentence: str
    feature: str = ""
    choices: tuple[str, ...] = ()
    must: bool = True

    @property
    def id(self) -> str:
        """`faces lip`: what is remembered when the question is skipped."""
        return f"{self.fact} {self.feature}".strip()


@dataclass(frozen=True, slots=True)
class PartKind:
    """A kind of part. `also` are its other names in the trade, British and American; `size` says
    what the figures of its size are ("inside x outside x width", in mm); `threaded` kinds need a
    torque. `source` names where renewal and company were taken from."""

    name: str
    group: str = ""
    also: tuple[str, ...] = ()
    asks: tuple[Question, ...] = ()
    goes_wrong: str = ""
    renew: Renewal = Renewal.CONDITION
    why: str = ""
    goes_on: str = ""
    home: str = ""
    hazards: tuple[Hazard, ...] = ()
    together: tuple[str, ...] = ()
    together_why: str = ""
    pair: Pair | None = None
    size: str = ""
    threaded: bool = False
    source: str = ""
    own: bool = False

    @property
    def needs_way(self) -> bool:
        """Whether such a part can go in wrong, so that its entry needs a which-way fact."""
        return any(question.must for question in self.asks)


def is_always_renewed(kind: PartKind | None) -> bool:
    """Whether a part of this kind never goes back in a full build."""
    return kind is not None and kind.renew is Renewal.ALWAYS


@dataclass(frozen=True, slots=True)
class KindFound:
    """A kind in a name: `start` to `end` are the words that say it."""

    kind: PartKind
    start: int
    end: int


class Kinds:
    """The kinds of a store. Of two with one name the later holds, so that a user's own goes first.

    The kind of a name is said by its last words before a comma, a bracket or "for": a gearbox
    cover gasket is a gasket, and "gear 3" a gear.
    """

    def __init__(self, kinds: Iterable[PartKind] = ()) -> None:
        self.by_name = {fold(kind.name): kind for kind in kinds}
        self._by_words: dict[tuple[str, ...], PartKind] = {}
        for kind in self.by_name.values():
            for name in (*kind.also, kind.name):
                self._by_words[tuple(_stems(name))] = kind
        self._longest = max((len(words) for words in self._by_words), default=0)

    def __len__(self) -> int:
        return len(self.by_name)

    def all(self) -> tuple[PartKind, ...]:
        return tuple(self.by_name.values())

    def named(self, name: str) -> PartKind | None:
        """The kind of this very name, or one of its other names."""
        return self._by_words.get(tuple(_stems(name)))

    def of(self, name: str, chosen: str = "") -> PartKind | None:
        """The kind of a part by its name, or the one a person chose."""
        if chosen == NO_KIND:
            return None
        if chosen:
            return self.named(chosen)
        found = self.find(name)
        return found.kind if found else None

    def find(self, name: str) -> KindFound | None:
        """The kind that a part's name says, and where it says it."""
        words = _words(name)
        while words and _is_own(words[-1].stem):
            words.pop()
        for count in range(min(self._longest, len(words)), 0, -1):
            kind = self._by_words.get(tuple(word.stem for word in words[-count:]))
            if kind is not None:
                return KindFound(kind, words[-count].start, words[-1].end)
        return None


def goes_on(said: str, kind: PartKind | None) -> str:
    """What goes on a part as entered; else what usually goes on its kind, told as such."""
    usual = kind.goes_on if kind else ""
    return said or (f"usually {usual}" if usual else "")


def fold(name: str) -> str:
    """For look-ups: small letters, single spaces."""
    return " ".join(name.casefold().split())


@dataclass(frozen=True, slots=True)
class _Word:
    stem: str
    start: int
    end: int


# What follows says whose or which the part is, and no more what it is.
_CUT = re.compile(
    r"[,;:(\[/]|\s(?:for|of|from|on|with|in|at|to|and|complete|assy|assembly)\b", re.I
)
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)?")
_FRONT = {"left", "right", "lh", "rh"}


def said(name: str, *, own: bool = True) -> tuple[str, ...]:
    """The words that say what a part is, in the singular: "gear 3 for the crank" gives gear, 3.
    Without `own`, what tells it from its like is left out: gear."""
    words = [word.stem for word in _words(name)]
    while words and not own and _is_own(words[-1]):
        words.pop()
    return tuple(words)


def _words(name: str) -> list[_Word]:
    cut = _CUT.search(name)
    said = name[: cut.start()] if cut and cut.start() else name
    return [_Word(stem(m.group()), m.start(), m.end()) for m in _WORD.finditer(said)]


def _stems(name: str) -> list[str]:
    """Of a kind's own name nothing is cut: "connector to the loom" may be one."""
    return [stem(match.group()) for match in _WORD.finditer(name)]


def _is_own(word: str) -> bool:
    """A letter, a number or a side that tells one of its like from the others."""
    return len(word) == 1 or word in _FRONT or any(c.isdigit() for c in word)


@lru_cache(maxsize=4096)
def stem(word: str) -> str:
    """A word in the singular and in small letters: "bushes" and "bush" are one, and "valves"."""
    small = word.casefold()
    if len(small) > 4 and small.endswith(("shes", "ches", "xes", "sses")):
        return small[:-2]
    if len(small) > 4 and small.endswith("ies"):
        return f"{small[:-3]}y"
    if len(small) > 3 and small.endswith("s") and not small.endswith(("ss", "us", "is")):
        return small[:-1]
    return small
