"""What is measured with: its smallest step decides how near its limit a reading can be told."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Instrument:
    """A micrometer, a dial gauge, a feeler gauge of the bench. `resolution` is the smallest step
    it shows, in `unit`."""

    name: str
    resolution: Decimal
    unit: str = "mm"
    calibrated_on: date | None = None
    note: str = ""
    id: int = 0
