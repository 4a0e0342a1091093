"""The words of one datum, compiled once: what its sides are called, and which way a word points."""

import re
from functools import lru_cache

from bagtag.domain.datum import Datum, Side
from bagtag.domain.which_way import Outness, Toward
from bagtag.scan.tape_text import END, fold, rx

_PLAIN = {side.value: side for side in Side} | {"back": Side.REAR}
_SHORT = {"lh": Side.LEFT, "rh": Side.RIGHT}
_POINTING: dict[str, Toward] = {
    "out": Outness.OUTWARD,
    "outside": Outness.OUTWARD,
    "in": Outness.INWARD,
    "inside": Outness.INWARD,
    "up": Side.TOP,
    "down": Side.BOTTOM,
    "for": Side.FRONT,
    "back": Side.REAR,
    "rear": Side.REAR,
}
_LONG = r"(?:out|in|up|down|for|back|rear)wards?(?!\w)"


class Words:
    """Patterns for one datum.

    In a template SIDE is a side by any of its names, WAY a direction, and BARE a side that needs
    no other word beside it: "clutch side" and "left", but not "clutch", which is a part too.
    """

    def __init__(self, names: dict[Side, str]) -> None:
        self._sides = _PLAIN | _SHORT
        for side, name in names.items():
            if _base(name):
                self._sides[_base(name)] = side
        named = "|".join(_spaced(n) for n in sorted(self._sides, key=len, reverse=True))
        self._side = rf"(?:(?:the )?(?:{named})(?:(?:[- ]hand)?[- ](?:side|end))?(?!\w))"
        sure = rf"(?:the )?(?:{named})(?:[- ]hand)?[- ](?:side|end)(?!\w)"
        short = (
            rf"(?:out(?:side)?|in(?:side)?|up|down|{self._side})(?!\w)(?:{END}|(?= (?:and|with) ))"
        )
        self._way = rf"(?:{_LONG}|{sure}|{short})"
        self._bare = rf"(?:{sure}|(?:{'|'.join(_PLAIN)}))"
        self._compiled: dict[str, re.Pattern[str]] = {}

    def rx(self, template: str) -> re.Pattern[str]:
        """The template compiled for this datum, once."""
        known = self._compiled.get(template)
        if known is None:
            filled = template.replace("SIDE", self._side).replace("WAY", self._way)
            known = rx(filled.replace("BARE", self._bare))
            self._compiled[template] = known
        return known

    def side(self, text: str) -> Side | None:
        """The side that the text names."""
        return self._sides.get(_base(text))

    def toward(self, text: str) -> Toward | None:
        """The side or direction that the text names."""
        word = fold(text).removeprefix("the ")
        if word in ("out", "in", "up", "down", "inside", "outside"):
            return _POINTING[word]
        stem = re.sub("wards?$", "", word)
        return _POINTING.get(stem) if stem != word else self.side(text)


def _base(name: str) -> str:
    bare = fold(name).removeprefix("the ")
    return re.sub(r"(?:[- ]hand)?[- ](?:side|end)$", "", bare)


def _spaced(name: str) -> str:
    return " ".join(re.escape(word).replace("_", r"\x5f") for word in name.split())


def words_of(datum: Datum) -> Words:
    """The words of a datum; built once for each set of names."""
    return _built(tuple(sorted(datum.names.items())))


@lru_cache(maxsize=32)
def _built(names: tuple[tuple[Side, str], ...]) -> Words:
    return Words(dict(names))
