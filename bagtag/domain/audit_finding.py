"""What the strip audit is asked about, and what it can find, the worst first."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

from bagtag.domain.datum import Datum
from bagtag.domain.holes import HoleMap
from bagtag.domain.kinds import Kinds, PartKind
from bagtag.domain.model import Area, Container, Fate, Origin, Removal
from bagtag.domain.threads import Threads
from bagtag.domain.which_way import Clocking, Faces, Fact, OtherPart, SameWay, Without


class Lack(StrEnum):
    """What can be missing, the worst first: what builds the machine wrong, then what hurts parts,
    then what is only slower to find again."""

    CONTRADICTION = "contradiction"
    WAY = "way"
    SET = "set"
    MIXED = "mixed"
    DECISION = "decision"
    RENEW = "renew"
    FIGURE = "figure"
    COUNT = "count"
    HOLES = "holes"
    TORQUE = "torque"
    PASSES = "passes"
    OPENER = "opener"
    LOOSE = "loose"
    KIND = "kind"
    TAG = "tag"
    PHOTO = "photo"

    @property
    def tells_torque(self) -> bool:
        """Whether its findings give torques, and so ask for the cautions of one."""
        return self in (Lack.FIGURE, Lack.PASSES)

    @property
    def heading(self) -> str:
        """As it stands over its findings: "Which way is not said"."""
        return _HEADINGS[self]


_HEADINGS = {
    Lack.CONTRADICTION: "Cannot be true together",
    Lack.WAY: "Which way is not said",
    Lack.SET: "One of a set is not logged",
    Lack.MIXED: "In one container with parts that go back",
    Lack.DECISION: "Not decided yet",
    Lack.RENEW: "Always renewed, but down to go back",
    Lack.FIGURE: "A torque to look at again",
    Lack.COUNT: "Fasteners not counted",
    Lack.HOLES: "Holes and fasteners do not agree",
    Lack.TORQUE: "No torque",
    Lack.PASSES: "Passes that cannot be gone by",
    Lack.OPENER: "What opens it is not said",
    Lack.LOOSE: "Another part is named and not linked",
    Lack.KIND: "Kind of part not known, and nothing said of which way",
    Lack.TAG: "No tag",
    Lack.PHOTO: "No photo of how it came off",
}


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing missing, and in one sentence what to do. `removal_id` is the entry to go to, 0
    where it is an area or a container; `others` are further entries it is about; `questions` are
    the ids of a kind's questions that are open."""

    lack: Lack
    sentence: str
    removal_id: int = 0
    others: tuple[int, ...] = ()
    area_id: int = 0
    container_id: int = 0
    questions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stripped:
    """A job as it lies on the bench. `photographed` and `tagged` are ids of removals that have a
    photo of how they came off, and a tag that is printed or hung on; `away` of those at an outside
    shop; `maps` are hole maps by removal id. Without `threads` no torque is held against one."""

    removals: Sequence[Removal] = ()
    areas: Sequence[Area] = ()
    containers: Sequence[Container] = ()
    datum: Datum = field(default_factory=Datum)
    kinds: Kinds = field(default_factory=Kinds)
    photographed: frozenset[int] = frozenset()
    tagged: frozenset[int] = frozenset()
    away: frozenset[int] = frozenset()
    threads: Threads = field(default_factory=lambda: Threads(()))
    maps: Mapping[int, HoleMap] = field(default_factory=dict)


def tally(missing: int, looked_at: int) -> str:
    """ "14 things to see to in 77 entries.", or that nothing is missing."""
    entries = f"{looked_at} {'entry' if looked_at == 1 else 'entries'}"
    if not missing:
        return (
            f"Nothing is missing. {entries} looked at." if looked_at else "Nothing is logged yet."
        )
    return f"{missing} {'thing' if missing == 1 else 'things'} to see to in {entries}."


class Look:
    """What every rule looks at, told once. `log` is in the order off; `live` leaves out what is
    scrapped, `here` what is at an outside shop as well, `seen` of that only what was taken off
    there, which nobody at the bench has seen; `facts` are a removal's facts without "the same way
    as" a part that does not say."""

    def __init__(self, stripped: Stripped) -> None:
        self.stripped = stripped
        self.log = tuple(sorted(stripped.removals, key=lambda r: (r.position, r.uid)))
        self.live = tuple(r for r in self.log if r.fate is not Fate.SCRAP)
        away = stripped.away
        self.here = tuple(r for r in self.live if r.id not in away)
        self.seen = tuple(r for r in self.live if r.origin is not Origin.SHOP or r.id not in away)
        self.by_uid: Mapping[str, Removal] = {r.uid: r for r in self.log}

    @cached_property
    def kinds(self) -> dict[int, PartKind | None]:
        """The kind of each removal, by id."""
        of = self.stripped.kinds.of
        return {r.id: of(r.name, r.kind) for r in self.log}

    @cached_property
    def facts(self) -> dict[int, tuple[Fact, ...]]:
        """By id. Two parts that each sit "the same way as" the other say nothing."""
        return {
            r.id: tuple(f for f in r.which_way if not _leads_to(f, self._unsaid)) for r in self.log
        }

    def unsaid(self, removal: Removal) -> list[OtherPart]:
        """The parts that a removal sits the same way as, and that do not say how they sat."""
        facts = removal.which_way
        return [f.other for f in facts if isinstance(f, SameWay) and _leads_to(f, self._unsaid)]

    @cached_property
    def _unsaid(self) -> set[str]:
        return self.by_uid.keys() - _turned(self.log)


def _leads_to(fact: Fact, uids: set[str]) -> bool:
    return isinstance(fact, SameWay) and fact.other.uid in uids


def _turned(log: Sequence[Removal]) -> set[str]:
    """The uids of parts whose turn is said, by themselves or by another that says it for them."""
    followers: dict[str, list[str]] = {}
    for removal in log:
        for fact in removal.which_way:
            if isinstance(fact, SameWay) and fact.other.uid:
                followers.setdefault(fact.other.uid, []).append(removal.uid)
    open_ = [
        r.uid for r in log if any(isinstance(f, Faces | Clocking | Without) for f in r.which_way)
    ]
    found = set(open_)
    while open_:
        new = set(followers.get(open_.pop(), ())) - found
        found |= new
        open_ += new
    return found
