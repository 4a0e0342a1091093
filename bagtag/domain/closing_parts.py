"""Parts that are neither in nor scrapped, or of which two things are said: where they most likely
are."""

from collections.abc import Iterator

from bagtag.domain.closing_bench import Bench, amount, is_new
from bagtag.domain.closing_rows import Leftover, Likely
from bagtag.domain.contradictions_common import called
from bagtag.domain.fitting import part
from bagtag.domain.model import Away, Fate, Origin, Removal, Replacement
from bagtag.domain.phrases import capital, day


def found(bench: Bench) -> Iterator[Leftover]:
    """At most one for each removal, in the order off."""
    for removal in bench.log:
        if bench.is_left(removal):
            yield _left(bench, removal)
        elif said := _contrary(bench, removal):
            yield Leftover(Likely.CONTRARY, amount(removal), said, removal.id)


def _contrary(bench: Bench, removal: Removal) -> str:
    """What is said of a part that is in, or scrapped, and cannot be so."""
    away = bench.closing.away.get(removal.id)
    if bench.is_in(removal) and removal.fate is Fate.SCRAP:
        return "signed as in, but down as scrap. Look which is true, and mend the other"
    if away is None:
        return ""
    word = "signed as in" if bench.is_in(removal) else "scrapped"
    return f"{word}, but still {_away(away)}. Most likely nobody noted that it came back"


def _left(bench: Bench, removal: Removal) -> Leftover:
    likely, said = _most_likely(bench, removal)
    subject = amount(removal)
    opener = bench.closed_by(part(removal.id))
    if opener is not None:
        likely, subject = Likely.LEFT_OUT, f"{subject} left out"
        said = f"{called(opener)} is on over it. {capital(said)}"
    return Leftover(
        likely,
        subject,
        said,
        removal.id,
        container_id=0 if removal.id in bench.closing.away else removal.container_id or 0,
        other_id=opener.id if opener else 0,
        pieces=removal.quantity,
    )


def _most_likely(bench: Bench, removal: Removal) -> tuple[Likely, str]:
    """What keeps a part out by itself, else where it lies."""
    away = bench.closing.away.get(removal.id)
    if away is not None:
        return Likely.AWAY, _away(away)
    if removal.fate is Fate.DECIDE:
        return Likely.UNDECIDED, f"not decided yet, most likely still {bench.lies(removal)}"
    if removal.fate is Fate.RENEW:
        return _renewal(removal, bench.lies(removal))
    return _lies(bench, removal)


def _renewal(removal: Removal, where: str) -> tuple[Likely, str]:
    old = "" if is_new(removal) else f", the old one most likely {where}"
    match removal.replacement:
        case Replacement.HERE:
            return Likely.NOT_FITTED, "the new part is here and not fitted, most likely in its box"
        case Replacement.ORDERED:
            return Likely.NOT_HERE, f"the new part is on order{old}"
    return Likely.NOT_HERE, f"the new part is not ordered yet{old}"


def _lies(bench: Bench, removal: Removal) -> tuple[Likely, str]:
    where = f"most likely still {bench.lies(removal)}"
    if is_new(removal):
        return Likely.NOT_FITTED, f"a new part that never went in, {where}"
    if removal.container_id in bench.containers:
        return Likely.IN_CONTAINER, where
    if removal.origin is Origin.SHOP and removal.id in bench.closing.came_back:
        return Likely.ON_BENCH, "taken off by the shop and sent back, most likely with its part"
    if removal.origin is Origin.SHOP:
        shop = "taken off by the shop, most likely still there or with what it sent back"
        return Likely.AT_SHOP, shop
    return Likely.ON_BENCH, where


def _away(away: Away) -> str:
    """ "away at the cylinder grinder since 3 Nov, due 17 Nov"."""
    shop = f" at {away.shop}" if away.shop else ""
    due = f", due {day(away.due)}" if away.due else ""
    return f"away{shop} since {day(away.sent_at.astimezone())}{due}"
