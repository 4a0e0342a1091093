"""The passes that are usual where a manual says none, and those that can be chosen."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_check import marked
from bagtag.domain.holes import HoleMap
from bagtag.domain.passes import SHARES, passes
from bagtag.domain.tightening import Pass, PassKind


@dataclass(frozen=True, slots=True)
class Preset:
    """Passes by name; meant for joints of `fasteners_from` fasteners or more."""

    name: str
    passes: tuple[Pass, ...]
    fasteners_from: int = 2


def _shares(*shares: float) -> tuple[Pass, ...]:
    return tuple(Pass(share=share) for share in shares)


_ROUND = Pass(share=1.0, is_round=True)

PRESETS = (
    Preset("half, two thirds, full", _shares(*SHARES, 1.0)),
    Preset("30, 60, 100 % and once round", (*_shares(0.3, 0.6, 1.0), _ROUND), 4),
    Preset("20, 40, 80, 100 % and once round", (*_shares(0.2, 0.4, 0.8, 1.0), _ROUND), 12),
    Preset("25, 50, 100 % and once round", (*_shares(0.25, 0.5, 1.0), _ROUND), 4),
)
"""After a marine diesel service manual ("Engine reassembly"), a piping design page for 4 and 8
bolts and for 12 and more, and a gasket maker's work sheet: tests/check_values/passes.json."""


def usual(
    held_by: Sequence[HeldBy], hole_map: HoleMap | None = None, *, said: str = ""
) -> tuple[Pass, ...]:
    """Half, two thirds and full; the full torque alone where `passes.passes` gives each line one
    figure; then the angles of the lines that have one. None without a torque."""
    lines = [line for line in marked(held_by) if line.torque is not None]
    if not lines:
        return ()
    stepped = any(is_stepped(line, hole_map, said=said) for line in lines)
    return (*(_shares(*SHARES) if stepped else ()), Pass(share=1.0), *_turns(lines))


def is_stepped(line: HeldBy, hole_map: HoleMap | None = None, *, said: str = "") -> bool:
    """Whether a line usually takes part in the passes before the full torque. One odd bolt among
    others on the hole map does: it clamps the same joint."""
    if line.count == 1 and hole_map is not None and len(hole_map.holes) > 1:
        on_it = any(hole.mark == line.mark for hole in hole_map.holes)
        line = replace(line, count=None) if on_it else line
    return len(passes(line, said=said)) > 1


def _turns(lines: Sequence[HeldBy]) -> tuple[Pass, ...]:
    """One pass for all where all turn alike, else one for each line that turns."""
    angles = {line.angle for line in lines}
    if len(angles) == 1:
        return tuple(Pass(PassKind.ANGLE, angle=angle) for angle in angles if angle)
    return tuple(
        Pass(PassKind.ANGLE, angle=line.angle, group=line.mark) for line in lines if line.angle
    )
