"""What is laid out for a build: tools, wrenches and what goes on, each with the steps it is for."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from bagtag.domain.fitting import Ref
from bagtag.domain.kinds import fold
from bagtag.domain.phrases import spanned
from bagtag.domain.tool_out import ToolOut

COUNT = "What was laid out is counted back before anything is closed over it."
"""Public maintenance manuals have every tool accounted for after a task (NAVEDTRA 14018, tool
control); consumables are listed apart from tools there, and so they are here."""


class ToolKind(StrEnum):
    """What lies together on the bench; the value is its heading."""

    SOCKET = "Sockets and spanners"
    KEY = "Keys, bits and drivers"
    TORQUE = "Torque wrenches and gauges"
    OTHER = "Other tools"
    SPECIAL = "Special tools"
    CONSUMABLE = "What goes on"

    @property
    def is_counted(self) -> bool:
        """Whether it is counted back: a tool is, what is used up is not."""
        return self is not ToolKind.CONSUMABLE


@dataclass(frozen=True, slots=True)
class ToolStep:
    """A step that something is needed for. `place` is its place in the plan, from 1; `what` is what
    it is needed for there: "4 bolts M10x30"."""

    ref: Ref
    place: int
    called: str
    what: str = ""


@dataclass(frozen=True, slots=True)
class ToolNeed:
    """One thing to lay out. `steps` are in the order of the plan, one for each line of hardware;
    `is_likely` where it was told from the thread or the kind of part and nobody wrote it; `notes`
    are sentences: what a wrench is set to, what to look at first."""

    name: str
    kind: ToolKind
    steps: tuple[ToolStep, ...]
    is_likely: bool = False
    notes: tuple[str, ...] = ()

    @property
    def places(self) -> tuple[int, ...]:
        """The steps it is for, by their place, each once."""
        return tuple(dict.fromkeys(step.place for step in self.steps))


@dataclass(frozen=True, slots=True)
class ToolSheet:
    """What to lay out for some steps of a job, grouped by kind in the order of `ToolKind`.

    `span` says which steps in words ("the whole build"), `steps` is how many of them are still to
    be done; `unknown` are fasteners that nothing tells a tool for; `out` is what is laid out now
    and not counted back; `has_torque` asks for the cautions of a torque.
    """

    rows: tuple[ToolNeed, ...] = ()
    steps: int = 0
    span: str = ""
    unknown: tuple[ToolStep, ...] = ()
    out: tuple[ToolOut, ...] = ()
    has_torque: bool = False

    def of(self, kind: ToolKind) -> tuple[ToolNeed, ...]:
        return tuple(row for row in self.rows if row.kind is kind)

    def is_out(self, name: str) -> ToolOut | None:
        """The laying out of a tool of that name that is not counted back, None where none is."""
        return next((one for one in self.out if same_name(one.name, name)), None)

    @property
    def extra(self) -> tuple[ToolOut, ...]:
        """What is laid out though no step of the sheet asks for it."""
        named = {fold(row.name) for row in self.rows}
        return tuple(one for one in self.out if fold(one.name) not in named)


def same_name(one: str, other: str) -> bool:
    """Whether two names mean one tool: capitals and spaces do not tell them apart."""
    return fold(one) == fold(other)


def out_words(out: Iterable[ToolOut]) -> str:
    """ "10 mm socket, 2 × 13 mm spanner"; nothing for none."""
    return ", ".join(f"{one.count} × {one.name}" if one.count > 1 else one.name for one in out)


def places_words(places: Sequence[int]) -> str:
    """ "step 4", "steps 4, 7, 9–12": steps by their place, those in a row together."""
    return f"step{'' if len(places) == 1 else 's'} {spanned(places)}"
