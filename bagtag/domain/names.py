"""What the names of parts have in common: their hand, and the words that say what they are."""

from bagtag.domain.kinds import said

HANDS = {"l": "L", "lh": "L", "left": "L", "r": "R", "rh": "R", "right": "R"}
_BEFORE = {"the", "a", "an", "its", "this", "that"}
_OTHER = {"other", "another", "second", "mate"}


def stem(name: str) -> str:
    """What two hands of one part have in common: "shift fork L" and "left shift fork" are both
    "shift fork"."""
    words = name.casefold().replace(",", " ").split()
    if len(words) > 1 and words[-1].strip(".()") in HANDS:
        words.pop()
    elif len(words) > 1 and words[0] in HANDS:
        words.pop(0)
    return " ".join(words)


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
    if hand_in(wanted) not in ("", hand or hand_in(name)):
        return False
    asked = said(stem(_bare(wanted)))
    return bool(asked) and any(words[-len(asked) :] == asked for words in _said(name))


def last_word(name: str) -> str:
    """The last word that says what a part is: "gear" of "crank gear 3"; empty for none."""
    return (_plain(name) or ("",))[-1]


def _bare(wanted: str) -> str:
    """Without "the other" in front, and without the "one" that stands for the part itself."""
    words = wanted.split()[len(_leading(wanted)) :]
    return "" if words == ["one"] else " ".join(words)


def _leading(name: str) -> list[str]:
    words = name.casefold().split()
    count = 0
    while count < len(words) and words[count] in _BEFORE | _OTHER:
        count += 1
    return words[:count]


def _said(name: str) -> list[tuple[str, ...]]:
    return [said(stem(name)), _plain(name)]


def _plain(name: str) -> tuple[str, ...]:
    return said(stem(name), own=False)
