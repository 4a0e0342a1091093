"""Torque wrenches for what is tightened: from the bench's own list, else by the range they need.

A torque wrench is to be trusted from 20 % of its full scale upwards (TM 1-1500-204-23-9, paragraph
8-3 and Table 8-1), so one wrench covers torques up to five times the least.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from bagtag.domain.hardware import Adapter, HeldBy
from bagtag.domain.hole_check import marked
from bagtag.domain.round_wrenches import figures, wrench_for
from bagtag.domain.schedule import lines_by_name
from bagtag.domain.tools import ToolKind, ToolNeed, ToolStep
from bagtag.domain.tools_work import Work
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.domain.torque_words import readable, said
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import (
    LEAST_SHARE,
    WrenchUse,
    calibration,
    use,
    with_drag,
)


@dataclass(frozen=True, slots=True)
class Tightened:
    """A torque that a step is tightened to, as given; drag and adapter are its line's. `through`
    are the figures of its passes: one wrench goes through all of them."""

    step: ToolStep
    torque: Torque
    through: tuple[Torque, ...] = ()
    drag: Torque | None = None
    adapter: Adapter | None = None

    @property
    def full(self) -> Torque:
        return with_drag(self.torque, self.drag)


def torque_needs(
    works: Iterable[Work], wrenches: Sequence[Wrench], today: date | None = None
) -> list[ToolNeed]:
    """The wrenches to lay out, the smallest first: those of the bench that suit, then what it has
    not. `today` adds a word on their calibration."""
    chosen: dict[Wrench, list[tuple[Tightened, WrenchUse]]] = defaultdict(list)
    without: list[Tightened] = []
    found: dict[tuple[object, ...], WrenchUse | None] = {}  # many lines have one torque
    for one in tightened(works):
        key = (one.torque, one.through, one.drag, one.adapter)
        if key not in found:
            found[key] = _best(one, wrenches, today)
        setting = found[key]
        if setting is None:
            without.append(one)
        else:
            chosen[setting.wrench].append((one, setting))
    own = [_of_bench(wrench, chosen[wrench], today) for wrench in wrenches if wrench in chosen]
    return [*own, *by_range(without)]


def tightened(works: Iterable[Work]) -> Iterator[Tightened]:
    """The torques of these steps: of their lines, and the figures of their passes."""
    for work in works:
        if work.tightens:
            yield from _of_lines(work)
            for one in work.passes:
                if one.torque is not None:
                    yield Tightened(replace(work.step, what=f"a pass of {one.torque}"), one.torque)


def _of_lines(work: Work) -> Iterator[Tightened]:
    named = lines_by_name(work.held_by)
    through = {named[name].mark: row for name, row in figures(work.rounds).items() if name in named}
    for line in marked(work.held_by):
        if line.torque is not None and line.count != 0:
            yield _of_line(work, line, line.torque, tuple(through.get(line.mark, ())))


def _of_line(work: Work, line: HeldBy, torque: Torque, through: tuple[Torque, ...]) -> Tightened:
    drag = f" and {line.drag} of drag" if line.drag else ""
    what = f"{line.called()}, {said(torque)}{drag}"
    step = replace(work.step, what=what)
    return Tightened(step, torque, through or (torque,), line.drag, line.adapter)


def _best(one: Tightened, wrenches: Sequence[Wrench], today: date | None) -> WrenchUse | None:
    """The setting on the wrench that goes through its passes, as the joint's own card says."""
    line = HeldBy(adapter=one.adapter, drag=one.drag)
    wrench = wrench_for(line, one.through or (one.torque,), wrenches, today)
    if wrench is None:
        return None
    return use(one.torque, wrench, adapter=one.adapter, drag=one.drag)


def _of_bench(
    wrench: Wrench, uses: Sequence[tuple[Tightened, WrenchUse]], today: date | None
) -> ToolNeed:
    warnings = [warning for _, use in uses for warning in use.warnings]
    dated = [calibration(wrench, today)] if today else []
    return ToolNeed(
        name=wrench.name,
        kind=ToolKind.TORQUE,
        steps=tuple(_set(one, use) for one, use in uses),
        notes=tuple(dict.fromkeys(note for note in (*warnings, *dated) if note)),
    )


def _set(one: Tightened, use: WrenchUse) -> ToolStep:
    """What the wrench is set to, where that is not the torque as it is given."""
    if use.set_to is None or use.set_to == one.torque:
        return one.step
    return replace(one.step, what=f"{one.step.what}: set it to {said(use.set_to)}")


def by_range(found: Sequence[Tightened]) -> Iterator[ToolNeed]:
    """Wrenches that the bench's list has not, by the range they must cover."""
    for low, high in spans([one.full for one in found]):
        least, most = low.newton_metres(), high.newton_metres()
        steps = [one.step for one in found if least <= one.full.newton_metres() <= most]
        yield ToolNeed(wanted_wrench(low, high), ToolKind.TORQUE, tuple(steps))


def spans(torques: Sequence[Torque]) -> list[tuple[Torque, Torque]]:
    """The least and the greatest torque for each wrench that is needed, the smallest wrench first;
    as few wrenches as will do."""
    found: list[tuple[Torque, Torque]] = []
    for torque in sorted(torques, key=Torque.newton_metres, reverse=True):
        if found and torque.newton_metres() >= found[-1][1].newton_metres() * LEAST_SHARE - 1e-9:
            found[-1] = (torque, found[-1][1])
        else:
            found.append((torque, torque))
    return found[::-1]


def wanted_wrench(low: Torque, high: Torque) -> str:
    """ "torque wrench for 8 to 40 N·m", in the unit that both are given in, else in N·m."""
    unit = low.unit if low.unit is high.unit else TorqueUnit.NEWTON_METRE
    least, most = (f"{readable(one.to(unit).value):g}" for one in (low, high))
    figures = most if least == most else f"{least} to {most}"
    return f"torque wrench for {figures} {unit.value}"
