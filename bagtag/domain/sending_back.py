"""A part that comes back from a shop: what was looked at, measured, and what speaks against it."""

from collections.abc import Iterator
from dataclasses import replace

from bagtag.domain import asked
from bagtag.domain.clean import clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.measuring.units import INCH
from bagtag.domain.send_out import BackCheck
from bagtag.domain.sending import Back, Item

_INCHES = {"mm": float(INCH), "in": 1 / float(INCH)}


def against(back: Back, item: Item) -> tuple[str, ...]:
    """What speaks against a part that is back, one sentence each. It may come back all the same:
    its note says why, or it goes out again, or it is left to be decided."""
    found = [*_unchecked(back, item), *_figures(back, item)]
    if is_wrong(back, item):
        found.append(f"Send {item.called} out again, or leave it to be decided.")
    return tuple(found)


def is_wrong(back: Back, item: Item) -> bool:
    """Whether what the shop did is not as wanted, rather than not looked at."""
    is_looked_at = any(one is not BackCheck.MEASURED for one in back.checks)
    undone = BackCheck.WORK in item.to_check and BackCheck.WORK not in back.checks
    return (is_looked_at and undone) or any(map(asked.outside, judged(back, item)))


def _unchecked(back: Back, item: Item) -> Iterator[str]:
    left = [one for one in item.to_check if one not in back.checks]
    said = [one.value for one in left if one is not BackCheck.MEASURED]  # figures speak for it
    if said:
        yield f"{item.called} is still to be looked at: {', '.join(said)}."


def _figures(back: Back, item: Item) -> Iterator[str]:
    for read in judged(back, item):
        if said := asked.outside(read):
            yield f"{item.called}: {said}.{_slip(read)}"
    given = {one.name for one in back.figures}
    for one in item.away.asks:
        if one.name not in given:
            allowed = asked.limits(one)
            wanted = f", wanted {allowed}" if allowed else ""
            yield f"{item.called}: {one.name} is still to be measured{wanted}."


def _slip(one: Figure) -> str:
    """What a figure far outside its limits most likely is: inches, or a point in another place."""
    inches = _INCHES.get(one.unit)
    if inches and _is_near(one, one.value * inches):
        other = "in" if one.unit == "mm" else "mm"
        meant = asked.shown(round(one.value * inches, 3))
        return f" {asked.shown(one.value)} {other} is {meant} {one.unit}: look at the unit."
    for factor in (0.01, 0.1, 10.0, 100.0):
        if _is_near(one, one.value * factor):
            meant = asked.shown(round(one.value * factor, 6))
            return f" {meant} would do: look at the point."
    return ""


def _is_near(one: Figure, value: float) -> bool:
    """Whether it is within the limits, or nearly: what was rounded in inches is a little off."""
    if one.low is None or one.high is None or one.low <= 0:
        return False
    return one.low * 0.998 <= value <= one.high * 1.002


def judged(back: Back, item: Item) -> tuple[Figure, ...]:
    """The figures measured, each against the limits it was sent with; BadInput for one that was
    not asked for."""
    asks = {one.name: one for one in item.away.asks}
    return tuple(asked.figure(_asked(asks, one), one.value) for one in back.figures)


def _asked(asks: dict[str, Asked], given: Figure) -> Asked:
    if given.name not in asks:
        raise BadInput(
            f"{given.name} was not asked for when this part went out. Write it in the note.",
            field="figures",
        )
    return asks[given.name]


def checked_back(back: Back, item: Item) -> Back:
    """The same with its figures held against their limits and its note made clean; BadInput for a
    part that is back already."""
    if not item.is_out:
        raise BadInput(f"{item.called} is back already. Choose another part.", field="items")
    return replace(
        back,
        checks=_checks(back, item),
        figures=judged(back, item),
        note=clean_text(back.note, lines=True, limit=5000, field="note", what="The note"),
    )


def _checks(back: Back, item: Item) -> tuple[BackCheck, ...]:
    """What was found right; where figures were asked for, whether they are there and within."""
    found = set(back.checks)
    if item.away.asks:
        found -= {BackCheck.MEASURED}
        found |= set() if any(_figures(back, item)) else {BackCheck.MEASURED}
    return tuple(one for one in BackCheck if one in found)
