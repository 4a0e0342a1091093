"""How a joint is tightened: the passes of a manual, step by step, as they are kept."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from bagtag.domain.torque import Torque, TorqueUnit


class PassKind(StrEnum):
    TORQUE = "torque"
    ANGLE = "angle"
    LOOSEN = "loosen"
    VERIFY = "verify"


@dataclass(frozen=True, slots=True)
class Pass:
    """One time over the fasteners of a joint.

    A torque is a figure, or a `share` of each line's full torque, above 0 and at most 1. An angle
    is in degrees; to loosen without one is to loosen until free. To verify is to reach at least
    `torque` without turning further. `group` is a group of holes or the mark of a line of hardware,
    empty for all of them. `is_reversed` goes through the order backwards, `is_round` from one to
    its neighbour all the way round, instead of crosswise.
    """

    kind: PassKind = PassKind.TORQUE
    torque: Torque | None = None
    share: float | None = None
    angle: float | None = None
    group: str = ""
    is_reversed: bool = False
    is_round: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class PassTick:
    """One pass of a step that is done: which in turn (from 0), by whom."""

    id: int
    place: int
    who: str


def to_data(passes: Iterable[Pass]) -> list[dict[str, Any]]:
    """Passes as plain JSON data; what was not said is left out."""
    return [_data(one) for one in passes]


def _data(one: Pass) -> dict[str, Any]:
    torque = [one.torque.value, one.torque.unit.value] if one.torque else None
    data: dict[str, Any] = {
        "kind": one.kind.value,
        "torque": torque,
        "share": one.share,
        "angle": one.angle,
        "group": one.group,
        "is_reversed": one.is_reversed or None,
        "is_round": one.is_round or None,
        "note": one.note,
    }
    return {key: value for key, value in data.items() if value not in (None, "")}


def from_data(data: Iterable[Mapping[str, Any]]) -> tuple[Pass, ...]:
    """The passes in plain JSON data."""
    return tuple(_pass(item) for item in data)


def _pass(item: Mapping[str, Any]) -> Pass:
    given = dict(item)
    kind, torque = PassKind(given.pop("kind")), given.pop("torque", None)
    made = Torque(torque[0], TorqueUnit(torque[1])) if torque else None
    return Pass(kind, made, **given)
