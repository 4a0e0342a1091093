"""What goes on, by the words that say it: oil, grease, sealant, threadlocker.

The words are those of hardware lines, of what a person wrote of a part, and of the kinds of parts.
"""

import re
from collections.abc import Iterator
from functools import lru_cache

_SUBSTANCES = (
    r"assembly (?:lubricant|grease|lube|paste)"
    r"|(?:high[- ]melting|heat-proof|silicone|contact|rubber|cam|moly(?:bdenum)?"
    r"(?: disul(?:ph|f)ide)?|copper|lithium|bearing|graphite) grease|mo ?s2 ?(?:grease|paste)?"
    r"|grease|petroleum jelly|anti-?seize(?: compound)?"
    r"|(?:engine|motor|gear|clutch|chain|filter|hydraulic|machine|penetrating) oil"
    r"|(?:clean )?fuel|coolant|soapy water|soap|marking paste|jointing compound"
    r"|thread[- ]?seal(?:ant|er|ing)?(?: tape)?|sealants?|sealing compound|gasket sealer"
    r"|oil(?:ed)?(?! ways?| seals?| gallery| pump| pipe)"
)
_SUBSTANCE = re.compile(rf"(?<![\w-])(?:{_SUBSTANCES})(?![\w-])", re.IGNORECASE)
_LOCKER = re.compile(r"\bthread[- ]?lock(?:er|ing compound)?\b", re.IGNORECASE)
_NOT = re.compile(r"\b(?:no|none|never|not|free of|without|nothing|washed off)\b", re.IGNORECASE)
_STANDS = re.compile(r"\bthat (?:stands|end|it will)\b.*", re.IGNORECASE)
_PLAIN = {
    "oil": "oil, as the manual says",
    "oiled": "oil, as the manual says",
    "grease": "grease, as the manual says",
    "threadlocker": "threadlocker, grade as the manual says",
    "soap": "soapy water",
    "fuel": "clean fuel",
    "motor oil": "engine oil",
    "thread seal": "thread sealant",
    "thread sealer": "thread sealant",
    "antiseize": "anti-seize",
    "anti-seize compound": "anti-seize",
    "sealants": "sealant",
}


@lru_cache(maxsize=1024)
def substances(words: str) -> tuple[str, ...]:
    """What to have at hand, from words like "oil on the seat; no solvent near it": each once. What
    stands behind a "no" or a "nothing" of its own clause is not meant."""
    return tuple(dict.fromkeys(_found(words)))


def _found(words: str) -> Iterator[str]:
    for clause in re.split(r"[;.\n]", words):
        if re.match(r"\s*nothing:", clause, re.IGNORECASE):
            continue
        for part in clause.split(","):
            said = _STANDS.sub("", part)
            refused = _NOT.search(said)
            yield from _in(said[: refused.start()] if refused else said)


def _in(said: str) -> Iterator[str]:
    found = [(match.start(), match.group()) for match in _SUBSTANCE.finditer(said)]
    found += [(match.start(), "threadlocker") for match in _LOCKER.finditer(said)]
    for _, name in sorted(found):
        small = " ".join(name.casefold().split())
        yield _PLAIN.get(small, small)


def locker(strength: str) -> str:
    """ "threadlocker, medium strength": by the strength that a line of hardware says."""
    said = " ".join(strength.split())
    if not said or said.casefold() == "grade not given":
        return _PLAIN["threadlocker"]
    strong = said.casefold() in {"low", "medium", "high", "med", "strong", "weak", "permanent"}
    return f"threadlocker, {said} strength" if strong else f"threadlocker, {said}"


def lubricant(words: str) -> tuple[str, ...]:
    """What the threads get: "oil", "oiled", "molybdenum grease"; nothing for "dry"."""
    said = words.strip()
    if not said or re.search(r"\b(?:dry|clean|none|nothing|as received)\b", said, re.IGNORECASE):
        return ()
    return substances(said) or (said,)
