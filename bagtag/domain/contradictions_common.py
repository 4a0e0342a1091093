"""What the rooms of contradictions share: their form, and how parts and features are named."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from bagtag.domain.model import Removal
from bagtag.domain.names import hand_in
from bagtag.domain.phrases import capital
from bagtag.domain.sentence import subject, tidy
from bagtag.domain.which_way import Fact, Hand

_F = TypeVar("_F", bound=Fact)


@dataclass(frozen=True, slots=True)
class Contradiction:
    """One plain sentence with what to do; `uids` are the removals it is about, none when it is
    all inside the one that was asked about; `kind` is a short name for it. `is_warning` where it
    may be so after all, and is worth a second look."""

    sentence: str
    uids: tuple[str, ...]
    kind: str
    is_warning: bool = False


def only(facts: Iterable[Fact], kind: type[_F]) -> list[_F]:
    return [fact for fact in facts if isinstance(fact, kind)]


def fold(text: str) -> str:
    return tidy(text).casefold().removeprefix("the ")


def named(feature: str) -> str:
    """A feature at the beginning of a sentence: "The C", "OUT"."""
    return capital(subject(feature) or "one face")


def called(part: Removal) -> str:
    """A part's name as logged, with the number on its label."""
    return f"{part.number} {part.name}"


def names(parts: Iterable[Removal]) -> list[str]:
    return [called(part) for part in parts]


def both(parts: Sequence[Removal]) -> str:
    return "both" if len(parts) == 2 else "all"


def about(
    sentence: str, parts: Iterable[Removal], kind: str, *, is_warning: bool = False
) -> Contradiction:
    """A contradiction between these parts."""
    return Contradiction(sentence, tuple(part.uid for part in parts), kind, is_warning)


def hand_of(removal: Removal) -> str:
    """L or R by its fact, else by its name; empty for neither or for both."""
    said = {fact.which.upper() for fact in only(removal.which_way, Hand)}
    if said:
        return said.pop() if len(said) == 1 and said <= {"L", "R"} else ""
    return hand_in(removal.name)
