"""The lines that the lists of the build are made of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bagtag.domain.fitting import Ref, TaskKind, task
from bagtag.domain.phrases import listed
from bagtag.domain.standing import Standing

if TYPE_CHECKING:
    from bagtag.services.board import Freed, Step
    from bagtag.services.rules import RuleRow

Area = int | None
Key = tuple[str, object]


@dataclass(frozen=True, slots=True)
class Heading:
    """Over the lines of an area: its path, and how many can go in."""

    text: str
    count: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """A quiet line between others."""

    text: str


@dataclass(frozen=True, slots=True)
class FreedLine:
    """A step that keeps others out by itself."""

    freed: Freed


@dataclass(frozen=True, slots=True)
class Fold:
    """Stands for the steps of an area that wait, until it is opened."""

    area: Area
    text: str
    is_open: bool


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step, `depth` bench builds deep. Without `under` its part says what stands there."""

    step: Step
    depth: int = 0
    under: str = ""
    word: str = ""
    area: Area = None


@dataclass(frozen=True, slots=True)
class RuleLine:
    """A rule of the mechanic's, in words."""

    row: RuleRow


Line = Heading | Said | FreedLine | Fold | StepLine | RuleLine


def key_of(line: Line) -> Key | None:
    """The same for the same thing, before and after something was done; None for what cannot be
    chosen."""
    match line:
        case StepLine():
            return "step", line.step.ref
        case FreedLine():
            return "frees", line.freed.ref
        case Fold():
            return "fold", line.area
        case RuleLine():
            return "rule", line.row.rule.id
        case _:
            return None


def ref_of(line: Line | None) -> Ref | None:
    """The step that a line leads to."""
    match line:
        case StepLine():
            return line.step.ref
        case FreedLine():
            return line.freed.ref
        case RuleLine():
            return line.row.rule.members[0]
        case _:
            return None


def spoken(line: Line) -> str:
    """What a screen reader says for a line."""
    match line:
        case Heading():
            return ", ".join(filter(None, (line.text, line.count)))
        case FreedLine():
            return f"{line.freed.called}, {line.freed.why}: {frees_words(line.freed)}"
        case StepLine():
            word = line.word or line.step.standing.value
            return ", ".join(filter(None, (line.step.called, line.under, word)))
        case Fold():
            return f"{line.text}, {'open' if line.is_open else 'folded'}"
        case RuleLine():
            return f"{line.row.words}, {force_words(line.row)}"
        case Said():
            return line.text


def force_words(row: RuleRow) -> str:
    """ "in force", or why it is not."""
    return "in force" if row.in_force else f"out of force: {row.why_not}"


def frees_words(freed: Freed) -> str:
    """ "24 steps wait for it alone"."""
    others = freed.alone - 1
    steps = f"{others} steps wait" if others > 1 else "1 step waits"
    return f"{steps} for it alone"


def along_words(step: Step, called: Mapping[Ref, str]) -> str:
    names = [called[ref] for ref in step.along if ref in called]
    return f"goes in with {listed(names)}" if names else ""


def pieces_words(build: Step, pieces: Sequence[Step]) -> str:
    """ "4 of 7 pieces in"; nothing for what is no bench build."""
    if build.task is None or build.task.kind is not TaskKind.BENCH_BUILD:
        return ""
    done = sum(piece.standing is Standing.IN for piece in pieces)
    return f"{done} of {len(pieces)} pieces in" if pieces else "no pieces yet"


def pieces_by_build(steps: Sequence[Step]) -> dict[Ref, list[Step]]:
    """The pieces of each bench build that is in the plan."""
    builds: dict[Ref, list[Step]] = {
        step.ref: [] for step in steps if step.task and step.task.kind is TaskKind.BENCH_BUILD
    }
    for step in steps:
        if step.build_id is not None and task(step.build_id) in builds:
            builds[task(step.build_id)].append(step)
    return builds
