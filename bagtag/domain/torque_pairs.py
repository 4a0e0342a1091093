"""Whether two printed figures of one torque say the same."""

from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.domain.torque_words import read_off, said

_BY_WEIGHT = (TorqueUnit.KILOGRAM_METRE, TorqueUnit.KILOGRAM_CENTIMETRE)
_TEN = 10 / 9.80665
"""How much too strong a kilogram-force is that is taken for 10 N."""


def mismatch(torque: Torque, also: Torque | None) -> str:
    """One sentence where two printed figures of one torque do not convert into each other; nothing
    where they do.

    Either may be the one the other was worked out from: it is enough that one of them, converted,
    rounds to the other as far as that one's own last figure goes.
    """
    if also is None or torque.value <= 0 or also.value <= 0 or _agree(torque, also):
        return ""
    told = f"{said(torque)} and {said(also)} do not agree: {said(torque)} is "
    told += f"{read_off(torque.to(also.unit))}. "
    if _is_ten_newtons(torque, also) or _is_ten_newtons(also, torque):
        told += "It looks as if 1 kgf was taken as 10 N. "
    return told + "Look in the manual which of the two is meant."


def _agree(one: Torque, other: Torque) -> bool:
    return _rounds_to(one, other) or _rounds_to(other, one)


def _rounds_to(exact: Torque, printed: Torque) -> bool:
    """Whether a torque, converted, is what is printed, within half of the print's last figure."""
    off = abs(exact.to(printed.unit).value - printed.value)
    return off <= _last_figure(printed.value) / 2 * (1 + 1e-9)


def _last_figure(value: float) -> float:
    """What the last figure of a print is worth: 0.01 for 4.08, 1 for 354 and for 900."""
    decimals = f"{value:.10f}".rstrip("0").partition(".")[2]
    return 10.0 ** -len(decimals)


def _is_ten_newtons(weight: Torque, other: Torque) -> bool:
    """Whether the first is in kgf and is the other one if 1 kgf were 10 N."""
    if weight.unit not in _BY_WEIGHT or other.unit in _BY_WEIGHT:
        return False
    return _agree(Torque(weight.value * _TEN, weight.unit), other) or _agree(
        weight, Torque(other.value / _TEN, other.unit)
    )
