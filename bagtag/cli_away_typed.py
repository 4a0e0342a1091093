"""What is typed of parts that go away, as the domain has it: `12: bore 76.50 to 76.52 mm`."""

import re
from collections.abc import Sequence

from bagtag import services
from bagtag.domain import asked, codes
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.measuring.figures import decimal
from bagtag.domain.model import Removal
from bagtag.domain.sending import Item
from bagtag.store.work import Store

_OF_PART = re.compile(r"\s*(\S+?)\s*[:=]\s*(.*)", re.DOTALL)
_FIGURE = re.compile(
    r"(?P<name>.+?)[,:]?\s+(?:at (?P<side>least|most)\s+)?(?P<low>[-−0-9.,]+)"
    r"(?:\s+to\s+(?P<high>[-−0-9.,]+))?\s*(?P<unit>\D*)",
    re.IGNORECASE,
)


def of_parts(
    store: Store, job_id: int, said: Sequence[str], ids: Sequence[int]
) -> list[tuple[int, str]]:
    """`12: 3 oil jets`, each with the part that it is said of."""
    found = []
    for text in said:
        match = _OF_PART.fullmatch(text)
        if match is None:
            raise BadInput(f"{text}: say of which part, for example: 12: 3 oil jets.")
        part = part_of(store, job_id, match[1])
        if part.id not in ids:
            raise BadInput(f"{part.number} {part.name} is not among the parts named. Add it.")
        found.append((part.id, match[2]))
    return found


def part_of(store: Store, job_id: int, text: str) -> Removal:
    """A part of the job by its number, or by the code on its tag."""
    try:
        return services.strip.find_removal(store, job_id, text)
    except NotFound:
        if not codes.is_valid(codes.bare(text)):
            raise
    found = services.tags.look_up(store, text)
    if found.removal_id is None or found.job_id != job_id:
        raise NotFound(f"{codes.show(found.tag.code)} is not the tag of a part of this job.")
    return services.strip.get_removal(store, found.removal_id)


def wanted_figure(text: str) -> Asked:
    """`bore 76.50 to 76.52 mm`, `taper at most 0.01 mm`, `bore 76.50 mm`"""
    match = _FIGURE.fullmatch(text.strip())
    if match is None or (match["side"] and match["high"]):
        raise BadInput(
            f"{text} is no figure. Write it like: 12: bore 76.50 to 76.52 mm, or "
            "12: taper at most 0.01 mm."
        )
    typed = [match["low"], match["high"] or match["low"]]
    low, high = (float(decimal(one)) for one in typed)
    side = (match["side"] or "").lower()
    return Asked(
        match["name"],
        match["unit"].strip(),
        None if side == "most" else low,
        None if side == "least" else high,
        places=asked.places(*typed),
    )


def measured_figure(item: Item, text: str) -> Figure:
    """`bore 76.51`, one of the figures that were wanted, in the unit that it was wanted in."""
    match = _FIGURE.fullmatch(text.strip())
    one = _wanted(item, match["name"]) if match is not None else None
    if match is None or one is None or match["high"] or match["side"]:
        wanted = ", ".join(one.name for one in item.away.asks) or "none"
        raise BadInput(f"{text} is no figure wanted of {item.called}. Wanted: {wanted}.")
    unit = match["unit"].strip()
    if unit and unit.casefold() != one.unit.casefold():
        known = f"in {one.unit}" if one.unit else "without a unit"
        raise BadInput(f"{one.name} of {item.called} was wanted {known}. Give it so.")
    return asked.figure(one, float(decimal(match["low"])))


def _wanted(item: Item, name: str) -> Asked | None:
    known = (one for one in item.away.asks if one.name.casefold() == name.strip().casefold())
    return next(known, None)
