"""What is said at sign-off, and of what was signed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bagtag.domain import asked
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.hardware import HeldBy
from bagtag.domain.phrases import listed
from bagtag.domain.standing import Hindrance, Keeps

if TYPE_CHECKING:
    from bagtag.domain.model import SignOff
    from bagtag.services.signing import SignSheet


def behind_words(sheet: SignSheet) -> tuple[str, ...]:
    """That there are parts behind it which are not in."""
    count = len(sheet.missing)
    return (f"{count} behind it {'is' if count == 1 else 'are'} not in yet",) if count else ()


def beside_what_is_behind(sheet: SignSheet) -> tuple[Hindrance, ...]:
    """What must happen first, but for what is behind it: that has a list of its own."""
    return tuple(one for one in sheet.hindrances if one.keeps is not Keeps.BEHIND)


def waits_words(sheet: SignSheet) -> tuple[str, ...]:
    """What must happen first, a sentence each."""
    beside = (hindrance.sentence for hindrance in beside_what_is_behind(sheet))
    return (*behind_words(sheet), *beside)


def hold_words(not_by: Sequence[str]) -> tuple[str, ...]:
    """Who must not sign a hold point; nothing for nobody."""
    if not not_by:
        return ()
    names = listed(not_by)
    return (f"{names} did the work it looks at. Another must sign it than {names}.",)


def asks_words(asks: tuple[Asked, ...]) -> str:
    """`end float, 0.05 to 0.20 mm`, a line each."""
    return "\n".join(", ".join(filter(None, (a.name, asked.limits(a) or a.unit))) for a in asks)


def figure_words(figure: Figure) -> str:
    """`end float 0.25 mm is above 0.2`, or `end float 0.12 mm` where it is within."""
    return asked.outside(figure) or asked.told(figure)


def signed_words(sign_off: SignOff | None, held: tuple[HeldBy, ...] = ()) -> str:
    """Who and when, then what was given, counted and said, a line each."""
    if sign_off is None:
        return ""
    said = [f"{sign_off.who}, {sign_off.at.astimezone():%d %b %Y %H:%M}"]
    said += [figure_words(figure) for figure in sign_off.figures]
    for one in sign_off.counts:
        line = held[one.held] if 0 <= one.held < len(held) else HeldBy(kind="fastener")
        said.append(f"{one.back} of {one.off} {line.size()} {line.kind}".replace("  ", " "))
    said += [f"Although: {sign_off.reason}"] if sign_off.reason else []
    return "\n".join((*said, sign_off.note) if sign_off.note else said)
