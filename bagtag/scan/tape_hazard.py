"""What can hurt, on a tape line."""

import re
from collections.abc import Iterator

from bagtag.domain.model import Hazard
from bagtag.scan.tape_text import Found, phrase, rx, whole

_SAID: dict[Hazard, str] = {
    Hazard.SPRING: (
        r"(?:is )?spring[- ]load(?:ed)?|under (?:spring )?(?:tension|load)"
        r"|(?:spring )?tension(?:ed)?"
        r"|(?:spring|it)s?(?: will| can| may)? (?:flies|fly|jumps?|pops?|shoots?)(?: out| off)?"
    ),
    Hazard.HEAVY: r"(?:very |too )?heavy(?: to lift)?|two[- ](?:man|person) lift",
    Hazard.SHARP: r"(?:very )?sharp|sharp (?:edges|corners|burrs?)",
    Hazard.FRAGILE: r"(?:very )?(?:fragile|brittle|delicate)|handle with care",
    Hazard.HOT: r"(?:very )?hot(?: when running)?|gets hot",
    Hazard.FUEL: r"(?:fuel|petrol|gasoline)(?: inside| in it| runs out| spills?)?|(?:in)?flammable",
    Hazard.PRESSURE: r"(?:under |holds |has )?(?:residual )?pressure|pressuri[sz]ed",
}
# A word that is a part's name as well: a hazard only in a piece of its own, or after a warning.
_NAMES = rx(r"(?:hot|fuel|petrol|gasoline|pressure|tension)")
_WARNING = (
    r"(?:(?:caution|careful|warning|danger|beware(?: of)?|mind|watch)"
    r"(?: the| it is| it's)?(?P<warned>_[:!]_| ))?"
)
_EACH = "|".join(f"(?P<{hazard.value}>{said})" for hazard, said in _SAID.items())
_HAZARD = rx(phrase(rf"{_WARNING}(?:{_EACH}|(?P<bare>springs?))"))


def hazard(text: str) -> Iterator[Found]:
    """`spring loaded`, `heavy`, `caution: spring`, alone in their stretch."""
    for match in _HAZARD.finditer(text):
        if match["warned"] or not (match["bare"] or _NAMES.fullmatch(match["p"])):
            yield _found(match)


def bare_hazard(piece: str) -> Iterator[Found]:
    """`hot`, `fuel`, `pressure`: a whole piece."""
    match = whole(_HAZARD, piece)
    if match and not match["bare"]:
        yield _found(match)


def _found(match: re.Match[str]) -> Found:
    said = next((hazard for hazard in Hazard if match[hazard.value]), Hazard.SPRING)
    return Found(match.start("p"), match.end("p"), "hazard", said)
