"""What a measuring sheet says: figures computed from its readings, each against its limits."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from bagtag.domain.measuring.sheet import Limits


class Verdict(StrEnum):
    """How a figure stands to its limits. A sheet has the worst of its figures."""

    NEW = "as new"
    GOOD = "worn, within limits"
    UNKNOWN = "no limit given"
    CLOSE = "too close to call"
    OUT = "out of limits"

    @property
    def is_doubted(self) -> bool:
        """Whether it speaks against the part: out of its limits, or too close to one to call."""
        return self in (Verdict.CLOSE, Verdict.OUT)


@dataclass(frozen=True, slots=True)
class Result:
    """One figure of a sheet: a taper, a clearance, a gap.

    `resolution` is how far off it may be by the steps of the instruments it was read with, in
    `unit`, by those that are known; None where none is. `margin` is what is left to the nearest
    limit that decides, negative beyond it, None without one. `said` is the whole of it as one
    sentence: "taper 0.03 mm, at most 0.05: within limits, 0.02 to spare".
    """

    key: str
    name: str
    value: Decimal
    unit: str = "mm"
    resolution: Decimal | None = None
    limits: Limits | None = None
    verdict: Verdict = Verdict.UNKNOWN
    margin: Decimal | None = None
    said: str = ""


@dataclass(frozen=True, slots=True)
class Results:
    """What a sheet says as it stands. `missing` are the places still to be read, by name;
    `advice` what follows ("rebore to 76.50 mm"), a sentence each. Of these `work` are what a shop
    is asked to do, and `moves` which shim goes where."""

    figures: tuple[Result, ...] = ()
    missing: tuple[str, ...] = ()
    advice: tuple[str, ...] = ()
    work: tuple[str, ...] = ()
    moves: tuple[str, ...] = ()

    @property
    def verdict(self) -> Verdict:
        """The worst of the figures that have a limit; unknown where none has."""
        rank = list(Verdict)
        judged = (one.verdict for one in self.figures if one.verdict is not Verdict.UNKNOWN)
        worst = max((rank.index(one) for one in judged), default=None)
        return Verdict.UNKNOWN if worst is None else rank[worst]

    @property
    def is_measured(self) -> bool:
        """Whether every place was read and a figure came of it."""
        return bool(self.figures) and not self.missing
