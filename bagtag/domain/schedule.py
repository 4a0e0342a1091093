"""The passes of a joint worked out: what is said, which figure for which line, in which order."""

from collections.abc import Sequence
from dataclasses import dataclass

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_check import marked
from bagtag.domain.hole_order import members, order
from bagtag.domain.holes import HoleMap
from bagtag.domain.model import Removal
from bagtag.domain.passes import share_of
from bagtag.domain.schedule_check import checked
from bagtag.domain.schedule_usual import PRESETS, Preset, is_stepped, usual
from bagtag.domain.schedule_words import said
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.torque import Torque

__all__ = [
    "PRESETS",
    "Preset",
    "Round",
    "checked",
    "lines_by_name",
    "rounds",
    "rounds_of",
    "said",
    "turned",
    "usual",
]


@dataclass(frozen=True, slots=True)
class Round:
    """One time over a joint, in its `place` from 0. `said` is the pass itself, `words` has the
    figures of its shares too: "Torque to 60 % = 24 N·m".

    `torques` has the figure for each line it goes to, by the line's mark, or its size or what it is
    where no map shows the mark (`lines_by_name`); the name is empty where no hardware is logged.
    `order` is hole numbers in turn, empty without a hole map.
    """

    place: int
    step: Pass
    said: str
    words: str
    torques: tuple[tuple[str, Torque], ...] = ()
    order: tuple[int, ...] = ()

    @property
    def figures(self) -> str:
        """`24 N·m`; `A 24 N·m, B 6.5 N·m` where lines differ; `90°`; or nothing."""
        return f"{self.step.angle:g}°" if self.step.angle is not None else _listed(self.torques)


def _listed(torques: Sequence[tuple[str, Torque]]) -> str:
    if len({torque for _, torque in torques}) == 1:
        return str(torques[0][1])
    return ", ".join(f"{name} {torque}" for name, torque in torques)


def rounds(
    held_by: Sequence[HeldBy],
    passes: Sequence[Pass] = (),
    hole_map: HoleMap | None = None,
    *,
    said: str = "",
) -> tuple[Round, ...]:
    """Every pass of a joint in turn.

    Without passes of its own these are the usual ones (`usual`); `said` is what its part's name and
    note say of it. A share is set to a mark of a wrench (`passes.share_of`). The order leaves out
    the holes of lines that have no figure in this pass where others have one.
    """
    joint = _Joint(held_by, hole_map, None if passes else said)
    steps = tuple(passes) or usual(held_by, hole_map, said=said)
    return tuple(joint.round(place, step) for place, step in enumerate(steps))


def rounds_of(part: Removal, hole_map: HoleMap | None = None) -> tuple[Round, ...]:
    """The rounds of a part's joint: its name and note tell how it is tightened too."""
    said = f"{part.name} {part.note}"
    return rounds(part.held_by, part.passes, hole_map, said=said)


def turned(passes: Sequence[Pass], group: str = "") -> float:
    """How far a fastener is turned by angles in all, in degrees, since it was last loosened.

    Without a group: the furthest that any of them is turned.
    """
    if group:
        return _turned([step for step in passes if step.group in ("", group)])
    named = {step.group for step in passes if step.group}
    alone = _turned([step for step in passes if not step.group])
    return max([alone, *(turned(passes, name) for name in named)])


def _turned(passes: Sequence[Pass]) -> float:
    total = 0.0
    for step in passes:
        if step.kind is PassKind.LOOSEN:
            total = 0.0
        elif step.kind is PassKind.ANGLE:
            total += step.angle or 0.0
    return total


class _Joint:
    """The lines of a joint under the names they are shown by; `said` is None where its passes are
    its own."""

    def __init__(
        self, held_by: Sequence[HeldBy], hole_map: HoleMap | None, said: str | None
    ) -> None:
        self._lines = marked(held_by)
        self._map = hole_map if hole_map and hole_map.holes else None
        self._said = said
        self._ways: dict[tuple[str, bool, bool], tuple[int, ...]] = {}
        self._names = _names(held_by, self._map)

    def round(self, place: int, step: Pass) -> Round:
        figures = self._figures(step)
        torques = tuple((self._names.get(mark, ""), torque) for mark, torque in figures)
        group = self._names.get(step.group, step.group)
        return Round(
            place,
            step,
            said(step, group=group),
            said(step, group=group, figures=_listed(torques)),
            torques,
            self._order(step, {mark for mark, _ in figures}),
        )

    def _figures(self, step: Pass) -> list[tuple[str, Torque]]:
        if step.torque is not None:
            marks = [line.mark for line in self._of(step)] or [""]
            return [(mark, step.torque) for mark in marks]
        if step.share is None:
            return []
        return [
            (line.mark, share_of(line.torque, step.share))
            for line in self._of(step)
            if line.torque is not None and self._takes(line, step.share)
        ]

    def _takes(self, line: HeldBy, share: float) -> bool:
        return share >= 1 or self._said is None or is_stepped(line, self._map, said=self._said)

    def _of(self, step: Pass) -> list[HeldBy]:
        """The lines of a pass: all, those whose mark it names, or whose holes are in its group."""
        if not step.group:
            return list(self._lines)
        holes = members(self._map, step.group) if self._map else ()
        marks = {hole.mark for hole in holes} - {""} or {step.group}
        own = [line for line in self._lines if line.mark in marks]
        return own or list(self._lines)

    def _order(self, step: Pass, marks: set[str]) -> tuple[int, ...]:
        if self._map is None:
            return ()
        way = self._ways.get(_way(step)) or order(
            self._map, group=step.group, is_reversed=step.is_reversed, is_round=step.is_round
        )
        self._ways[_way(step)] = way
        without = {line.mark for line in self._lines} - marks if marks else set()
        left_out = {hole.number for hole in self._map.holes if hole.mark in without}
        return tuple(number for number in way if number not in left_out)


def _way(step: Pass) -> tuple[str, bool, bool]:
    return step.group, step.is_reversed, step.is_round


def _names(held_by: Sequence[HeldBy], hole_map: HoleMap | None) -> dict[str, str]:
    """What each line is called, by its mark: the mark where a map shows it, else its size, or what
    it is where another has that size too."""
    lines = marked(held_by)
    said = [words for line in lines for words in (line.size(), line.called())]
    names = {}
    for line in lines:
        own = [words for words in (line.size(), line.called()) if words and said.count(words) == 1]
        names[line.mark] = line.mark if hole_map or not own else own[0]
    return names


def lines_by_name(held_by: Sequence[HeldBy]) -> dict[str, HeldBy]:
    """The lines of a joint, each with its mark, by every name that a round may have for them."""
    lines = marked(held_by)[::-1]
    called = {line.called(): line for line in lines}
    sizes = {line.size(): line for line in lines}
    return called | sizes | {line.mark: line for line in lines}
