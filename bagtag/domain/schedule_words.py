"""A pass in words."""

from bagtag.domain.phrases import capital
from bagtag.domain.tightening import Pass, PassKind

_FRACTIONS = {1 / 3: "one third", 2 / 3: "two thirds"}


def said(step: Pass, *, group: str | None = None, figures: str = "") -> str:
    """`Torque to 60 %`, `A: turn 90° further`, `Loosen in reverse order until free`.

    `group` is what its group is called, where that is not the group itself; `figures` are what a
    share comes to: `Torque to 60 % = 24 N·m, all the way round`.
    """
    name = step.group if group is None else group
    share = f" = {figures}" if figures and step.share is not None else ""
    words = f"{_WORDS[step.kind](step)}{share}{_way(step)}{_end(step)}"
    words = f"{name}: {words}" if name else capital(words)
    return f"{words} ({step.note})" if step.note else words


def share_words(share: float) -> str:
    """`60 %`, `two thirds`."""
    return _FRACTIONS.get(share) or f"{round(share * 100, 1):g} %"


def _torque(step: Pass) -> str:
    figure = str(step.torque) if step.torque is not None else share_words(step.share or 1.0)
    return f"torque to {figure}"


def _angle(step: Pass) -> str:
    return f"turn {step.angle or 0:g}° further"


def _verify(step: Pass) -> str:
    return f"check: at least {step.torque}"


_WORDS = {
    PassKind.TORQUE: _torque,
    PassKind.ANGLE: _angle,
    PassKind.LOOSEN: lambda _: "loosen",
    PassKind.VERIFY: _verify,
}


def _way(step: Pass) -> str:
    if step.kind is PassKind.LOOSEN:
        return " in reverse order" if step.is_reversed else ""
    round_about = ", all the way round" if step.is_round else ""
    return f"{round_about}{', in reverse order' if step.is_reversed else ''}"


def _end(step: Pass) -> str:
    if step.kind is PassKind.LOOSEN:
        return f" by {step.angle:g}°" if step.angle else " until free"
    return ", or renew the bolt" if step.kind is PassKind.VERIFY else ""
