"""Which wrench goes through the rounds of a joint, and what it is set to in each."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from math import isclose

from bagtag.domain.hardware import HeldBy
from bagtag.domain.schedule import Round, lines_by_name
from bagtag.domain.tightening import Pass
from bagtag.domain.torque import Torque
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import WrenchUse, best, use

_NO_LINE = HeldBy()


def uses_of(
    held_by: Sequence[HeldBy], rounds: Sequence[Round], wrenches: Sequence[Wrench], today: date
) -> tuple[tuple[WrenchUse, ...], ...]:
    """For each round the settings of its figures, with adapter and drag as the line of hardware
    has them. One wrench goes through all rounds of a line; a figure that none reaches has no
    setting."""
    lines = lines_by_name(held_by)
    hands = {
        name: wrench_for(lines.get(name, _NO_LINE), torques, wrenches, today)
        for name, torques in figures(rounds).items()
    }
    return tuple(tuple(_uses(one, lines, hands, today)) for one in rounds)


def figures(rounds: Sequence[Round]) -> dict[str, list[Torque]]:
    """What each line is tightened to from round to round, by the name it has in them."""
    found: dict[str, list[Torque]] = {}
    for name, torque in (pair for one in rounds for pair in one.torques):
        found.setdefault(name, []).append(torque)
    return found


def _uses(
    one: Round, lines: Mapping[str, HeldBy], hands: Mapping[str, Wrench | None], today: date
) -> Iterator[WrenchUse]:
    for name, torque in one.torques:
        line, wrench = lines.get(name, _NO_LINE), hands[name]
        if wrench is not None:
            found = use(torque, wrench, adapter=line.adapter, drag=line.drag, today=today)
            if not _is_a_mark(found):
                exact = _unrounded(one.step, line, torque)
                found = use(exact, wrench, adapter=line.adapter, drag=line.drag, today=today)
            yield replace(found, line=name)


def _is_a_mark(found: WrenchUse) -> bool:
    """Whether a figure lies on a mark of its wrench, so that setting it rounds nothing."""
    exact, mark = found.exact, found.set_to
    return exact is not None and mark is not None and isclose(exact.value, mark.value, rel_tol=1e-9)


def _unrounded(step: Pass, line: HeldBy, torque: Torque) -> Torque:
    """The share of a pass, unrounded: its figure is rounded for reading, and to a mark of the
    wrench it is to be rounded from the share and not from the figure."""
    if step.share is None or line.torque is None:
        return torque
    return Torque(line.torque.value * step.share, line.torque.unit)


def wrench_for(
    line: HeldBy,
    torques: Sequence[Torque],
    wrenches: Sequence[Wrench],
    today: date | None = None,
) -> Wrench | None:
    """The wrench to tighten a line with."""
    found = best(torques, wrenches, adapter=line.adapter, drag=line.drag, today=today)
    return found.wrench if found is not None else None
