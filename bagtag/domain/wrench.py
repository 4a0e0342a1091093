"""A torque wrench: its scale, its graduation, its length."""

from dataclasses import dataclass
from datetime import date

from bagtag.domain.torque import Length, Torque, TorqueUnit


@dataclass(frozen=True, slots=True)
class Wrench:
    """A torque wrench of the bench. Its scale runs from `low` to `high` in `unit`, in steps of
    `step`; `length` is from the middle of the grip to the middle of its square drive."""

    name: str
    low: float
    high: float
    unit: TorqueUnit = TorqueUnit.NEWTON_METRE
    step: float | None = None
    length: Length | None = None
    calibrated_on: date | None = None
    note: str = ""
    id: int = 0

    @property
    def full_scale(self) -> Torque:
        return Torque(self.high, self.unit)
