"""The audit of what belongs together: rows, numbers, pairs, and what a match mark joins.

What a note of one of the set says "stays in" is not asked for.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from bagtag.domain.audit_finding import Finding, Lack, Look
from bagtag.domain.audit_rows import broken
from bagtag.domain.audit_words import Known, like, listed, may_stay
from bagtag.domain.contradictions_common import hand_of
from bagtag.domain.model import Fate, Removal
from bagtag.domain.sentence import tidy
from bagtag.domain.which_way import MatchMark


def gaps(look: Look) -> list[Finding]:
    """Whatever a set lacks, each at the first of its set, in the order off."""
    place = {removal.id: place for place, removal in enumerate(look.log)}
    found = [*_rows(look), *_pairs(look), *_partners(look)]
    return sorted(found, key=lambda finding: place[finding.removal_id])


def _rows(look: Look) -> Iterator[Finding]:
    for row in broken(look.log):
        yield from _finding(row.parts, row.sentence(look.stripped.datum))


def _pairs(look: Look) -> Iterator[Finding]:
    """A left without a right; two of one hand are a contradiction already."""
    sets: dict[tuple[str, int | None], list[Removal]] = defaultdict(list)
    for removal in look.log:
        kind = look.kinds[removal.id]
        if kind is not None and kind.pair is not None and hand_of(removal):
            sets[like(removal.name), removal.area_id].append(removal)
    for parts in sets.values():
        if len(parts) == 1:
            here = hand_of(parts[0])
            other = "R" if here == "L" else "L"
            said = (
                f"{here} is logged and {other} is not: log it, or write in the note that it stays "
                "in or that there is none."
            )
            yield from _finding(parts, said)


def _partners(look: Look) -> Iterator[Finding]:
    """What a match mark joins a part to, where it is named, can come off and is not logged."""
    known = Known(look)
    for removal in look.live:
        named = (f.partner for f in removal.which_way if isinstance(f, MatchMark))
        partners = dict.fromkeys(tidy(name) for name in named)
        left = [p for p in partners if p and not (known.is_logged(p) or known.is_fixed(p))]
        if left:
            said = (
                f"Its mark matches {listed(left)}, which is not logged: log it, or write in the "
                "note that it stays in."
            )
            yield from _finding([removal], said)


def _finding(parts: Sequence[Removal], sentence: str) -> Iterable[Finding]:
    """One finding at the first live part of a set."""
    live = [part for part in parts if part.fate is not Fate.SCRAP]
    if live and not any(may_stay(part) for part in parts):
        yield Finding(Lack.SET, sentence, live[0].id, tuple(part.id for part in live[1:]))
