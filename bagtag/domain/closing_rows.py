"""What the closing count is asked about, and the lines of its answer."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from bagtag.domain.fitting import Ref, Task, part, task
from bagtag.domain.model import Area, Away, Container, Removal, SignOff


@dataclass(frozen=True, slots=True)
class Closing:
    """A job as it stands before it is closed. `removals` is the whole log, what a shop took off
    and new parts too; `away` has what is away now, by removal id, `came_back` the ids of what was
    ever away and came back."""

    removals: Sequence[Removal] = ()
    sign_offs: Mapping[Ref, SignOff] = field(default_factory=dict)
    tasks: Sequence[Task] = ()
    areas: Sequence[Area] = ()
    containers: Sequence[Container] = ()
    away: Mapping[int, Away] = field(default_factory=dict)
    came_back: Collection[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Pieces:
    """How many came off, and what became of them: off + over = back + renewed + scrapped + left.

    `over` are fasteners that went in beyond those that came off; of parts there are none.
    """

    off: int = 0
    back: int = 0
    renewed: int = 0
    scrapped: int = 0
    left: int = 0
    over: int = 0

    def __add__(self, other: "Pieces") -> "Pieces":
        return Pieces(
            self.off + other.off,
            self.back + other.back,
            self.renewed + other.renewed,
            self.scrapped + other.scrapped,
            self.left + other.left,
            self.over + other.over,
        )

    @property
    def adds_up(self) -> bool:
        return not self.over and self.off == self.back + self.renewed + self.scrapped


class Outcome(StrEnum):
    """What became of a part."""

    BACK = "back"
    RENEWED = "renewed"
    SCRAPPED = "scrapped"
    LEFT = "left"


@dataclass(frozen=True, slots=True)
class ItemLine:
    """One removal of the log. A new part was never on the machine: it is in or not, never off."""

    removal_id: int
    number: str
    name: str
    quantity: int
    outcome: Outcome
    is_new: bool = False

    @property
    def pieces(self) -> Pieces:
        count = 0 if self.is_new else self.quantity
        return Pieces(off=count, **{self.outcome.value: count})


@dataclass(frozen=True, slots=True)
class FastenerLine:
    """All fasteners of one kind and size, wherever they sat. `uncounted` is at how many parts
    they were never counted, and so are not among the pieces."""

    size: str
    kind: str
    pieces: Pieces
    uncounted: int = 0


@dataclass(frozen=True, slots=True)
class ContainerLine:
    """A container, in its place in the tree. `holds` are the parts in itself that are neither in
    nor scrapped, `pieces` those in all that stands in it too."""

    container_id: int
    label: str
    depth: int
    holds: tuple[int, ...] = ()
    pieces: int = 0

    @property
    def emptied(self) -> bool:
        return not self.pieces


class Likely(StrEnum):
    """What it most likely is that does not add up, the most telling first: what is shut in, what
    is wrong at finished steps, then where parts are, then what was never signed or counted."""

    LEFT_OUT = "left out"
    SWAPPED = "swapped"
    MIXED_UP = "mixed up"
    SHORT = "short"
    OVER = "too many"
    CONTRARY = "contrary"
    IN_CONTAINER = "in its container"
    ON_BENCH = "on the bench"
    AT_SHOP = "at the shop"
    NOT_FITTED = "new part not fitted"
    UNDECIDED = "undecided"
    NOT_HERE = "new part not here"
    AWAY = "away"
    UNTIGHTENED = "not tightened"
    UNSEEN = "hold point open"
    UNDONE = "not done"
    UNCOUNTED = "never counted"


@dataclass(frozen=True, slots=True)
class Leftover:
    """One thing that does not add up: the `subject`, and what is `said` of it, most likely.

    It leads to a removal or a task, the other of them 0; `other_id` is a second removal it is
    about, `container_id` where the pieces most likely are. `pieces` is 0 where only a signature
    or a word is wanting.
    """

    likely: Likely
    subject: str
    said: str = ""
    removal_id: int = 0
    task_id: int = 0
    container_id: int = 0
    other_id: int = 0
    pieces: int = 0

    @property
    def sentence(self) -> str:
        """ "3 dowel: most likely still in bag 12, tray 3, shelf B." """
        return f"{self.subject}: {self.said}." if self.said else f"{self.subject}."

    @property
    def ref(self) -> Ref:
        """The step it leads to."""
        return task(self.task_id) if self.task_id else part(self.removal_id)
