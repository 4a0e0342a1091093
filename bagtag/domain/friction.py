"""How hard a thread turns: the nut factor K of T = K d F by what is on the thread.

0.20 for plain and 0.15 for plated steel, each within a quarter (IFI standards, 5th edition, in a
machine maker's manual); a tenth less with engine oil (TM 9-2320-362-14&P, App. F). 0.1 to 0.3 is
all that Speck reckons with (Mechanical Fastening, Joining, and Assembly, p. 85). That moly paste,
anti-seize and wax run at about 0.12 is common practice, no source.
"""

import re
from dataclasses import dataclass

SPREAD = 0.25


@dataclass(frozen=True, slots=True)
class Friction:
    """The nut factor on a thread as it is called: usually `usual`, from `low` to `high`."""

    called: str
    low: float
    usual: float
    high: float


def _about(called: str, usual: float) -> Friction:
    return Friction(called, usual * (1 - SPREAD), usual, usual * (1 + SPREAD))


UNKNOWN = Friction("dry or oiled threads", 0.1, 0.2, 0.3)
DRY = _about("dry threads", 0.2)
PLATED = _about("plated threads", 0.15)
OILED = _about("oiled threads", 0.18)
SLICK = _about("threads with paste, grease or wax", 0.12)

_PLATED = re.compile(r"plated|zinc|galvani|cadmium|phosphat")
_WORDS = (
    (SLICK, r"moly|molyb|mos2|anti-?\s?seize|copper|paste|grease|wax|nickel|graphite|ptfe"),
    (OILED, r"oil|lubric|threadlock|locker|sealant"),
    (PLATED, _PLATED.pattern),
    (DRY, r"dry|clean|no oil|unlubricated|without"),
)
_NOT_OILED = re.compile(
    r"\b(?:no|not|never|do not|don['’]?t|without|un|free of|free from)[- ]?(?:any )?"
    r"(?:oil|lubric|grease|paste|wax|anti-?seize)|(?:oil|grease)[- ]free|degreas"
)


def friction(lubrication: str) -> Friction:
    """The friction that words for lubrication mean; the widest range where they say nothing."""
    said = lubrication.casefold()
    if _NOT_OILED.search(said):
        return PLATED if _PLATED.search(said) else DRY
    for found, words in _WORDS:
        if re.search(words, said):
            return found
    return UNKNOWN
