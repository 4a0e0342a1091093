"""A torque as it is typed, with its unit or without, and as it is written back."""

from bagtag import services
from bagtag.domain.errors import BadInput
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.ui.forms.figures import figure, written


def torque_of(text: str, unit: TorqueUnit | None = None) -> Torque | None:
    """`40 lbf·ft`, `40 Nm`; where no unit is typed it is in `unit`. None for what is no torque
    above zero, and for a figure without a unit where there is none to take it in."""
    value = figure(text)
    if value is not None:
        return Torque(value, unit) if unit is not None else None
    try:
        return services.torque.read_torque(text)
    except BadInput:
        return None


def torque_words(torque: Torque | None) -> str:
    return f"{written(torque.value)} {torque.unit.value}" if torque is not None else ""
