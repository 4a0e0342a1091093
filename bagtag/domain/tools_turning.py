"""What turns the fasteners of some steps: sockets, spanners, keys, bits, each size once."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from bagtag.domain.hardware import HeldBy
from bagtag.domain.threads import Threads
from bagtag.domain.tools import ToolKind, ToolNeed, ToolStep
from bagtag.domain.tools_drive import Form, Grip, by_drive, by_size
from bagtag.domain.tools_likely import likely
from bagtag.domain.tools_work import Work, of_line

_TURNED_BY_NOTHING = frozenset({"dowel", "roll pin", "clip", "clamp"})


@dataclass(frozen=True, slots=True)
class Turned:
    """A line of hardware, in one step, and what grips it; None where nothing tells."""

    step: ToolStep
    line: HeldBy
    grip: Grip | None
    on_wrench: bool


def turned(works: Iterable[Work], threads: Threads) -> list[Turned]:
    """Every line of hardware of these steps."""
    return [
        Turned(
            replace(work.step, what=line.called()),
            line,
            grip_of(line, threads),
            line.torque is not None and work.tightens,
        )
        for work in works
        for line in work.lines
    ]


def grip_of(line: HeldBy, threads: Threads) -> Grip | None:
    """What the drive says, else what fits the thread's usual head."""
    thread = threads.find(line.thread) if line.thread else None
    written = by_drive(line, key=thread.key if thread else "")
    if written is None or written.form is Form.WRITTEN:
        return written or likely(line, thread)
    return written


def turning(found: Sequence[Turned]) -> Iterator[ToolNeed]:
    """The tools by size. One that a torque wrench drives anywhere is one for the wrench."""
    by_grip: dict[tuple[Form, str], list[tuple[Turned, Grip]]] = defaultdict(list)
    for one in found:
        if one.grip is not None:
            by_grip[one.grip.form, one.grip.size].append((one, one.grip))
    for form, size in sorted(by_grip, key=lambda key: (by_size(key[1]), key[0].value, key[1])):
        yield _need(by_grip[form, size])


def _need(uses: Sequence[tuple[Turned, Grip]]) -> ToolNeed:
    grip = uses[0][1]
    notes = dict.fromkeys(grip.note for _, grip in uses if grip.note)
    return ToolNeed(
        name=grip.name(any(one.on_wrench for one, _ in uses)),
        kind=grip.kind,
        steps=tuple(one.step for one, _ in uses),
        is_likely=all(grip.is_likely for _, grip in uses),
        notes=tuple(notes),
    )


def unknown(works: Iterable[Work], found: Iterable[Turned]) -> tuple[ToolStep, ...]:
    """Fasteners that nothing tells a tool for: no drive, no known thread, no tool of their kind."""
    by_step = {work.step.ref: work for work in works}
    return tuple(
        one.step
        for one in found
        if one.grip is None and not _needs_none(by_step[one.step.ref], one.line)
    )


def _needs_none(work: Work, line: HeldBy) -> bool:
    by_hand = {ToolKind.OTHER, ToolKind.SPECIAL}
    has_tool = any(want.kind in by_hand for want in of_line(work, line))
    return has_tool or bool(work.tools) or line.kind.casefold() in _TURNED_BY_NOTHING
