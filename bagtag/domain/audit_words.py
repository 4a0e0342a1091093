"""Words that the audit's rules share: lists, what a note says stays in, what a name can mean."""

import re
from collections.abc import Sequence
from functools import cached_property

from bagtag.domain.audit_finding import Look
from bagtag.domain.contradictions_common import hand_of
from bagtag.domain.kinds import said
from bagtag.domain.model import Removal
from bagtag.domain.names import fits, stem

MOST = 6
"""How many things a sentence names; the rest are counted."""

_STAYS = re.compile(
    r"\b(?:stays?|stayed|left) (?:in|on|put)\b|\bthere is (?:none|no)\b", re.IGNORECASE
)
# What is taken down to, and so has no entry (common practice, no source).
_BARE = {"body", "block", "case", "casing", "casting", "crankcase", "engine", "frame", "gearbox",
         "housing", "machine"}  # fmt: skip


def listed(words: Sequence[str], count: int = 0) -> str:
    """a and b; a, b and c; past `MOST` the rest are counted: a, b, c and 4 more. `count` is how
    many there are where not all are given."""
    count = count or len(words)
    if count > MOST:
        words = [*words[: MOST - 1], f"{count - MOST + 1} more"]
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def may_stay(removal: Removal) -> bool:
    """Whether a note says that what is not logged "stays in", or that "there is none"."""
    return bool(_STAYS.search(removal.note))


def like(name: str) -> str:
    """The same for the parts of one row: "shift fork L", "shift fork R" and "shift fork 3"."""
    return " ".join(said(stem(name), own=False)) or stem(name)


def bare(name: str) -> str:
    """What a part is, and not which: "valve, inlet" and "valve, exhaust" are valves."""
    return stem(" ".join(said(name, own=False))) or like(name)


class Known:
    """Which names lead to something: to an entry of the log, or to what stays."""

    def __init__(self, look: Look) -> None:
        self._look = look
        self._answers: dict[str, bool] = {}

    def is_fixed(self, name: str) -> bool:
        """Whether an area or a bare casting can be meant, which no entry is needed for."""
        if _BARE.intersection(said(name)[-1:]):
            return True
        return any(fits(name, area.name) for area in self._look.stripped.areas)

    def is_logged(self, name: str) -> bool:
        """Whether an entry can be meant."""
        if name not in self._answers:
            self._answers[name] = any(fits(name, logged, hand) for logged, hand in self._logged)
        return self._answers[name]

    @cached_property
    def _logged(self) -> set[tuple[str, str]]:
        return {(removal.name, hand_of(removal)) for removal in self._look.log}
