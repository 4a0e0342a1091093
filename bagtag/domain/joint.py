"""A joint: how the fasteners of a step are tightened, and how far that has come."""

from collections.abc import Sequence
from dataclasses import dataclass

from bagtag.domain.fitting import Ref
from bagtag.domain.hardware import HeldBy
from bagtag.domain.holes import HoleMap
from bagtag.domain.schedule import Round
from bagtag.domain.tightening import Pass, PassTick
from bagtag.domain.wrench_use import WrenchUse


def tightened_alike(one: Sequence[HeldBy], other: Sequence[HeldBy]) -> bool:
    """Whether two states of a part's hardware are tightened alike: else a pass that was ticked is
    to be done again."""
    return list(map(_tightening, one)) == list(map(_tightening, other))


def _tightening(line: HeldBy) -> tuple[object, ...]:
    by = (line.torque, line.angle, line.stretch, line.drag, line.adapter)
    return line.size(), line.lubrication, *by


@dataclass(frozen=True, slots=True)
class Joint:
    """How the fasteners of a step are tightened, and how far that has come.

    `removal_id` is the part they hold, 0 for a task that tightens nothing. `rounds` are empty where
    they are only run in by hand at this step. `uses` has, for each round, the settings of the
    wrenches that reach its figures; `ticks` are the rounds that are done, by their place from 0.
    """

    ref: Ref
    job_id: int
    removal_id: int = 0
    called: str = ""
    held_by: tuple[HeldBy, ...] = ()
    hole_map: HoleMap | None = None
    passes: tuple[Pass, ...] = ()
    rounds: tuple[Round, ...] = ()
    uses: tuple[tuple[WrenchUse, ...], ...] = ()
    ticks: tuple[PassTick, ...] = ()

    @property
    def ticked(self) -> frozenset[int]:
        """The places of the rounds that are done."""
        return frozenset(tick.place for tick in self.ticks)

    @property
    def due(self) -> int | None:
        """The place of the first round that is not done; None where all are, or there are none."""
        return next((n for n in range(len(self.rounds)) if n not in self.ticked), None)

    @property
    def unticked(self) -> tuple[int, ...]:
        """The places that must be ticked before sign-off and are not: none where the part has no
        passes of its own and none was ticked."""
        if not (self.passes or self.ticks):
            return ()
        return tuple(n for n in range(len(self.rounds)) if n not in self.ticked)
