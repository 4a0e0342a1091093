"""The joints of a job as its checklist tells them: all read at once, worked out step by step."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from bagtag.domain.cautions import has_torque
from bagtag.domain.fitting import Ref
from bagtag.domain.hardware import HeldBy
from bagtag.domain.holes import HoleMap
from bagtag.domain.joint_words import settings_said, warnings_said
from bagtag.domain.model import Removal
from bagtag.domain.round_wrenches import uses_of
from bagtag.domain.schedule import Round, rounds_of
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import WrenchUse
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.store import joints
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Joints:
    """Hole maps by part, ticked passes by step, and the torque wrenches there are."""

    maps: Mapping[int, HoleMap]
    ticks: Mapping[Ref, set[int]]
    wrenches: Sequence[Wrench]
    today: date

    def told(
        self, made: ChecklistStep, removal: Removal, ref: Ref, *, by_hand: bool, is_done: bool
    ) -> ChecklistStep:
        """A step with its part's joint. Without a map, without passes of its own and without an
        angle its torques stay in a row, and only the wrench's setting for the last is told."""
        hole_map, ticked = self.maps.get(removal.id), frozenset(self.ticks.get(ref, ()))
        tools = removal.tools if ref.removal_id is not None else ""
        with_map = replace(made, hole_map=hole_map, tools=tools)
        if by_hand or not (removal.passes or has_torque(removal.held_by)):
            return with_map
        if is_done and not ticked:
            return with_map
        if not (hole_map or removal.passes or ticked or _has_angle(removal.held_by)):
            return replace(with_map, uses=self._of_full(removal))
        found = rounds_of(removal, hole_map)
        uses = self._uses(removal.held_by, found)
        return replace(with_map, rounds=found, ticked=ticked, uses=tuple(_each_said(found, uses)))

    def _of_full(self, removal: Removal) -> tuple[str, ...]:
        """What a wrench is set to for the full torques of lines that need no more told."""
        if not self.wrenches:
            return ()
        found = rounds_of(removal, None)
        full = self._uses(removal.held_by, found)[-1:]
        return tuple(words for words in _each_said(found[-1:], full) if words)

    def _uses(
        self, held_by: Sequence[HeldBy], found: Sequence[Round]
    ) -> tuple[tuple[WrenchUse, ...], ...]:
        if not self.wrenches:
            return ()
        return uses_of(held_by, found, self.wrenches, self.today)


def joints_of(store: Store, job_id: int, removal_ids: Sequence[int]) -> Joints:
    """What is known of the joints of a job, in three readings however many there are."""
    with store.read() as connection:
        return Joints(
            joints.maps_of(connection, removal_ids),
            joints.ticks_of_job(connection, job_id),
            joints.wrenches(connection),
            date.today(),
        )


def _has_angle(held_by: Iterable[HeldBy]) -> bool:
    return any(line.angle is not None for line in held_by)


def _each_said(found: Iterable[Round], uses: Iterable[Sequence[WrenchUse]]) -> Iterable[str]:
    """The settings of each round in a line; what warns of a wrench only the first time."""
    known: set[str] = set()
    for one, some in zip(found, uses, strict=False):  # no uses at all where there is no wrench
        warned = [warning for warning in warnings_said(some) if warning not in known]
        known.update(warned)
        yield " ".join([*settings_said(one, some), *warned])
