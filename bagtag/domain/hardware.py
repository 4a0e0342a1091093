"""What held a part: fasteners with thread, length, drive, count, torque and threadlocker."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, fields
from typing import Any

from bagtag.domain.torque import Length, Torque, TorqueUnit

__all__ = [
    "OVERRIDE",
    "Adapter",
    "HeldBy",
    "Length",
    "Stretch",
    "Torque",
    "TorqueUnit",
    "from_data",
    "to_data",
]

OVERRIDE = "The maker's manual overrides every torque given here."


@dataclass(frozen=True, slots=True)
class Stretch:
    """How much longer a bolt is when it is tight: from `low` to `high`, in mm or in."""

    low: float
    high: float
    unit: str = "mm"

    def __str__(self) -> str:
        span = f"{self.low:g}" if self.low == self.high else f"{self.low:g} to {self.high:g}"
        return f"stretch {span} {self.unit}"


@dataclass(frozen=True, slots=True)
class Adapter:
    """What is set between wrench and fastener: a crowfoot or an extension across the drive.

    `length` runs from the wrench's square to the fastener; `angle` is in degrees between the
    adapter and the wrench's own line: 0 straight on, 90 square to it, 180 back to the handle.
    """

    length: Length
    angle: float = 0.0

    def __str__(self) -> str:
        turned = f" at {self.angle:g}°" if self.angle else ""
        return f"adapter {self.length}{turned}"


@dataclass(frozen=True, slots=True)
class HeldBy:
    """One line of hardware: `count` fasteners of one kind, None while nobody has counted them.

    `length` is in `length_unit`; `grade` is the strength class or grade as marked ("8.8", "grade
    5"); `locking` is what keeps it from turning besides threadlocker ("staked", "lock wired").
    `washers` lie under each fastener; `lubrication` is what the manual wants on its threads ("dry",
    "oil"); `one_time` means new ones go in. `angle` is in degrees after the torque, `also` the
    torque as the manual prints it a second time in another unit, `drag` what it takes to turn a
    self-locking nut before it seats, to be added. `tool` is a special tool it needs. `mark` is the
    letter that tells it from the other lines of its part on a hole map.
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
    head: str = ""
    washer: str = ""
    washers: int = 0
    lubrication: str = ""
    one_time: bool = False
    angle: float | None = None
    stretch: Stretch | None = None
    also: Torque | None = None
    drag: Torque | None = None
    adapter: Adapter | None = None
    tool: str = ""
    mark: str = ""

    def size(self) -> str:
        """`M6x30`, `3/8-16 x 1.25 in`, `M8`, or nothing. Only metric bolts go without a unit."""
        if self.length is None:
            return self.thread
        if self.length_unit == "mm" and self.thread[:1] in ("M", "m"):
            return f"{self.thread}x{self.length:g}"
        length = f"{self.length:g} {self.length_unit}"
        return f"{self.thread} x {length}" if self.thread else length

    def called(self) -> str:
        """`4 bolts M6x30`."""
        kind = self.kind or "fastener"
        plural = kind if self.count == 1 or kind.endswith("s") else f"{kind}s"
        count = "?" if self.count is None else str(self.count)
        return f"{count} {plural} {self.size()}".strip()

    def tightened(self) -> str:
        """`40 N·m + 90°`, the torque and the angle after it; nothing without a torque."""
        turn = f"{self.angle:g}°" if self.angle is not None else ""
        return " + ".join(part for part in (str(self.torque or ""), turn) if part)

    def washer_words(self) -> str:
        """`plain washer`, `2 copper washers`, or nothing."""
        if not (self.washer or self.washers):
            return ""
        several = self.washers > 1
        words = (str(self.washers) if several else "", self.washer, "washers" if several else "")
        said = " ".join(word for word in words if word)
        return said if several or "washer" in said else f"{said} washer".strip()

    def __str__(self) -> str:
        """`4 bolts M6x30, 8.8, 8 mm hex, 10 N·m, threadlocker medium, staked`."""
        parts = [self.called(), self.grade, f"{self.head} head" if self.head else "", self.drive]
        each = " each" if self.washers > 1 and self.count != 1 else ""
        parts += [self.washer_words() + each]
        parts += [f"threads {self.lubrication}" if self.lubrication else ""]
        parts += [self._as_printed(), f"drag {self.drag}" if self.drag else ""]
        parts += [str(self.stretch or "")]
        parts += [f"threadlocker {self.threadlocker}" if self.threadlocker else ""]
        parts += [self.locking, "new each time" if self.one_time else ""]
        parts += [str(self.adapter or ""), f"tool: {self.tool}" if self.tool else "", self.note]
        return ", ".join(part for part in parts if part)

    def _as_printed(self) -> str:
        """`53 N·m (39 lbf·ft) + 90°`: with the second figure of the manual."""
        if self.torque is None or self.also is None:
            return self.tightened()
        return self.tightened().replace(str(self.torque), f"{self.torque} ({self.also})", 1)


def to_data(lines: Iterable[HeldBy]) -> list[dict[str, Any]]:
    """Hardware lines as plain JSON data; what was not said is left out."""
    return [_line_data(line) for line in lines]


def _line_data(line: HeldBy) -> dict[str, Any]:
    data = {item.name: getattr(line, item.name) for item in fields(line)}
    data["length_unit"] = line.length_unit if line.length is not None else None
    data["washers"] = line.washers or None
    data["one_time"] = line.one_time or None
    for name, (plain, _) in _PLAIN.items():
        data[name] = plain(data[name]) if data[name] is not None else None
    kept = {key: value for key, value in data.items() if value not in (None, "")}
    return kept if line.count is not None else kept | {"count": None}


def from_data(data: Iterable[Mapping[str, Any]]) -> tuple[HeldBy, ...]:
    """The hardware lines in plain JSON data."""
    return tuple(_line(item) for item in data)


def _line(item: Mapping[str, Any]) -> HeldBy:
    given = dict(item)
    for name, (_, made) in _PLAIN.items():
        if name in given:
            given[name] = made(given[name])
    return HeldBy(**given)


def _torque_data(torque: Torque) -> list[Any]:
    return [torque.value, torque.unit.value]


def _torque(data: Any) -> Torque:
    return Torque(data[0], TorqueUnit(data[1]))


def _stretch_data(stretch: Stretch) -> list[Any]:
    return [stretch.low, stretch.high, stretch.unit]


def _adapter_data(adapter: Adapter) -> list[Any]:
    return [adapter.length.value, adapter.length.unit, adapter.angle]


_PLAIN: dict[str, tuple[Callable[[Any], Any], Callable[[Any], Any]]] = {
    **dict.fromkeys(("torque", "also", "drag"), (_torque_data, _torque)),
    "stretch": (_stretch_data, lambda data: Stretch(*data)),
    "adapter": (_adapter_data, lambda data: Adapter(Length(data[0], data[1]), data[2])),
}
