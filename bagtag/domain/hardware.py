"""What held a part: fasteners with thread, length, drive, count, torque and threadlocker."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class TorqueUnit(StrEnum):
    NEWTON_METRE = "N·m"
    POUND_FOOT = "lbf·ft"
    POUND_INCH = "lbf·in"
    KILOGRAM_METRE = "kgf·m"
    KILOGRAM_CENTIMETRE = "kgf·cm"
    OUNCE_INCH = "ozf·in"
    NEWTON_CENTIMETRE = "N·cm"
    DECANEWTON_METRE = "daN·m"


# One inch is 0.0254 m, one pound 0.45359237 kg, standard gravity 9.80665 m/s² (NIST SP 811, B.8).
_NEWTON_METRES = {
    TorqueUnit.NEWTON_METRE: 1.0,
    TorqueUnit.POUND_FOOT: 0.3048 * 0.45359237 * 9.80665,
    TorqueUnit.POUND_INCH: 0.0254 * 0.45359237 * 9.80665,
    TorqueUnit.KILOGRAM_METRE: 9.80665,
    TorqueUnit.KILOGRAM_CENTIMETRE: 0.0980665,
    TorqueUnit.OUNCE_INCH: 0.0254 * 0.45359237 * 9.80665 / 16,
    TorqueUnit.NEWTON_CENTIMETRE: 0.01,
    TorqueUnit.DECANEWTON_METRE: 10.0,
}

OVERRIDE = "The maker's manual overrides every torque given here."


@dataclass(frozen=True, slots=True)
class Torque:
    """A tightening torque in the unit the manual gives it in."""

    value: float
    unit: TorqueUnit = TorqueUnit.NEWTON_METRE

    def newton_metres(self) -> float:
        """The torque in N·m, by the exact inch, pound and standard gravity."""
        return self.value * _NEWTON_METRES[self.unit]

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit.value}"


@dataclass(frozen=True, slots=True)
class HeldBy:
    """One line of hardware: `count` fasteners of one kind, None while nobody has counted them.

    `length` is in `length_unit`; `grade` is the strength class or grade as marked ("8.8", "grade
    5"); `locking` is what keeps it from turning besides threadlocker ("staked", "lock wired").
    """

    count: int | None = 1
    kind: str = "bolt"
    thread: str = ""
    length: float | None = None
    length_unit: str = "mm"
    drive: str = ""
    torque: Torque | None = None
    threadlocker: str = ""
    note: str = ""
    grade: str = ""
    locking: str = ""

    def size(self) -> str:
        """`M6x30`, `3/8-16 x 1.25 in`, `M8`, or nothing."""
        if self.length is None:
            return self.thread
        joiner, unit = ("x", "") if self.length_unit == "mm" else (" x ", " in")
        return (
            f"{self.thread}{joiner}{self.length:g}{unit}"
            if self.thread
            else (f"{self.length:g} {self.length_unit}")
        )

    def __str__(self) -> str:
        """`4 bolts M6x30, 8.8, 8 mm hex, 10 N·m, threadlocker medium, staked`."""
        kind = self.kind or "fastener"
        plural = kind if self.count == 1 or kind.endswith("s") else f"{kind}s"
        count = "?" if self.count is None else str(self.count)
        parts = [f"{count} {plural} {self.size()}".strip(), self.grade, self.drive]
        parts += [str(self.torque) if self.torque else ""]
        parts += [f"threadlocker {self.threadlocker}" if self.threadlocker else ""]
        parts += [self.locking, self.note]
        return ", ".join(part for part in parts if part)


def to_data(lines: Iterable[HeldBy]) -> list[dict[str, Any]]:
    """Hardware lines as plain JSON data."""
    return [_line_data(line) for line in lines]


def _line_data(line: HeldBy) -> dict[str, Any]:
    data: dict[str, Any] = {
        "count": line.count,
        "kind": line.kind,
        "thread": line.thread,
        "length": line.length,
        "length_unit": line.length_unit if line.length is not None else None,
        "drive": line.drive,
        "torque": [line.torque.value, line.torque.unit.value] if line.torque else None,
        "threadlocker": line.threadlocker,
        "note": line.note,
        "grade": line.grade,
        "locking": line.locking,
    }
    kept = {key: value for key, value in data.items() if value not in (None, "")}
    return kept if line.count is not None else kept | {"count": None}


def from_data(data: Iterable[Mapping[str, Any]]) -> tuple[HeldBy, ...]:
    """The hardware lines in plain JSON data."""
    return tuple(_line(item) for item in data)


def _line(item: Mapping[str, Any]) -> HeldBy:
    fields = dict(item)
    torque = fields.pop("torque", None)
    return HeldBy(**fields, torque=Torque(torque[0], TorqueUnit(torque[1])) if torque else None)
