"""What the names of parts have in common: their hand, and the words that say what they are."""

from functools import lru_cache

from bagtag.domain.kinds import said

HANDS = {"l": "L", "lh": "L", "left": "L", "r": "R", "rh": "R", "right": "R"}
_BEFORE = {"the", "a", "an", "its", "this", "that"}
_OTHER = {"other", "another"}


@lru_cache(maxsize=4096)
def stem(name: str) -> str:
    """What two hands of one part have in common: "shift fork L" and "left shift fork" are both
    "shift fork"."""
    words = name.casefold().replace(",", " ").split()
    if len(words) > 1 and words[-1].strip(".()") in HANDS:
        words.pop()
    elif len(words) > 1 and words[0] in HANDS:
        words.pop(0)
    return " ".join(words)


@lru_cache(maxsize=4096)
def hand_in(name: str) -> str:
    """L or R where a name says it, else empty."""
    words = name.casefold().replace(",", " ").split()
    ends = words[-1:] + words[:1] if len(words) > 1 else []
    return next((HANDS[word.strip(".()")] for word in ends if word.strip(".()") in HANDS), "")


def is_other(name: str) -> bool:
    """Whether a name means another one of the same: "the other fork", "the other one"."""
    return any(word in _OTHER for word in _leading(name))


def are_alike(one: str, other: str) -> bool:
    """Whether two names say the same but for a hand or a number: "gear 3" and "gear 4"."""
    return bool(_plain(one)) and _plain(one) == _plain(other)


def fits(wanted: str, name: str, hand: str = "") -> bool:
    """Whether `wanted` ("the gear", "gear 3", "crank gear", "fork L") can mean the part `name`,
    whose hand is `hand`: by the last words of the name, with or without what tells it from its
    like."""
    return asked(wanted) in endings(name) and hand_in(wanted) in ("", hand or hand_in(name))


@lru_cache(maxsize=4096)
def asked(wanted: str) -> tuple[str, ...]:
    """The words by which a part is looked for, without "the other" and without its hand."""
    words = wanted.split()[len(_leading(wanted)) :]
    return () if words == ["one"] else said(stem(" ".join(words)))


@lru_cache(maxsize=4096)
def endings(name: str) -> frozenset[tuple[str, ...]]:
    """The last word of a part's name, its last two and so on, with and without its own mark."""
    ways = (said(stem(name)), _plain(name))
    return frozenset(words[start:] for words in ways for start in range(len(words)))


def _leading(name: str) -> list[str]:
    words = name.casefold().split()
    count = 0
    while count < len(words) and words[count] in _BEFORE | _OTHER:
        count += 1
    return words[:count]


@lru_cache(maxsize=4096)
def _plain(name: str) -> tuple[str, ...]:
    return said(stem(name), own=False)
