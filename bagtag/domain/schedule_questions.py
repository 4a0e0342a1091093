"""What to look at again in the passes of a joint: where they do not end at what its hardware says.

It asks and never refuses: the maker's manual overrides.
"""

from collections.abc import Mapping, Sequence

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_check import holes_of, marked
from bagtag.domain.holes import HoleMap
from bagtag.domain.schedule import Round, lines_by_name, rounds, turned
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.torque import Torque

_NEAR = 0.02
"""Figures that differ by less than this share are one, printed in two ways."""


def questions(
    held_by: Sequence[HeldBy], passes: Sequence[Pass], hole_map: HoleMap | None = None
) -> tuple[str, ...]:
    """A sentence for each line that no pass tightens, whose last passes stop short of its torque or
    go beyond it, or turn by another angle than it says. Nothing without passes of its own.

    What counts is what is done since the line was last loosened.
    """
    lines = marked(held_by) if passes else ()
    done = rounds(lines, passes, hole_map) if passes else ()
    names = {name: line.mark for name, line in lines_by_name(lines).items()}
    asked = (_asked(line, _last(line, done, hole_map), names) for line in lines if line.torque)
    return tuple(words for words in asked if words)


def _last(line: HeldBy, done: Sequence[Round], hole_map: HoleMap | None) -> list[Round]:
    """The passes that go to a line since it was last loosened."""
    groups = {hole.group for hole in holes_of(hole_map, line.mark)} if hole_map else set()
    found: list[Round] = []
    for one in done:
        if one.step.group in {"", line.mark} | groups:
            found = [] if one.step.kind is PassKind.LOOSEN else [*found, one]
    return found


def _asked(line: HeldBy, last: Sequence[Round], names: Mapping[str, str]) -> str:
    figures = [
        torque
        for one in last
        for name, torque in one.torques
        if one.step.kind is PassKind.TORQUE and names.get(name) == line.mark
    ]
    if not figures:
        return f"{line.called()}: no pass tightens them to their {line.torque}."
    words = _torque_words(line, max(figures, key=Torque.newton_metres)) or _angle_words(line, last)
    return f"{line.called()}: {words}" if words else ""


def _torque_words(line: HeldBy, most: Torque) -> str:
    full = line.torque.newton_metres() if line.torque else 0.0
    off = most.newton_metres() - full
    if abs(off) <= _NEAR * full:
        return ""
    how = "go beyond it" if off > 0 else "stop short of it"
    return f"the torque is {line.torque}, and the passes {how}, at {most}."


def _angle_words(line: HeldBy, last: Sequence[Round]) -> str:
    angle = turned([one.step for one in last])
    if line.angle is None or abs(angle - line.angle) <= _NEAR * line.angle:
        return ""
    return f"the angle is {line.angle:g}°, and the passes turn by {angle:g}° in all."
