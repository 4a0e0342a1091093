"""Contradictions between match marks: one mark on more than two parts, two that do not match."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import islice

from bagtag.domain.contradictions_common import (
    Contradiction,
    about,
    called,
    fold,
    hand_of,
    names,
    only,
)
from bagtag.domain.model import Removal
from bagtag.domain.names import asked, endings, fits
from bagtag.domain.phrases import listed
from bagtag.domain.sentence import tidy
from bagtag.domain.which_way import MatchMark

_Carried = list[tuple[Removal, str]]
"""Parts that carry one mark, with the partner each names, which may be none."""


def in_marks(removals: Sequence[Removal]) -> Iterator[Contradiction]:
    """What the match marks of the parts say against each other."""
    marked = [removal for removal in removals if only(removal.which_way, MatchMark)]
    carried: dict[str, _Carried] = defaultdict(list)
    for removal in marked:
        marks = {(fold(fact.mark), fold(fact.partner)) for fact in _marks(removal)}
        for mark, partner in sorted(marks):
            carried[mark].append((removal, partner))
    for mark, parts in sorted(carried.items()):
        if mark and "number" not in mark:
            yield from _shared(mark, parts)
    yield from _unlike(marked)


def _marks(removal: Removal) -> list[MatchMark]:
    return only(removal.which_way, MatchMark)


def _shared(mark: str, carried: _Carried) -> Iterator[Contradiction]:
    """A mark joins two. A common one ("paint line") may be on many pairs, where each part names
    its partner; numbers tell themselves apart."""
    for group in _joined(carried):
        if len(group) > 2:
            said = f"{len(group)} parts carry the match mark {mark}: {listed(names(group))}."
            sentence = f"{said} A mark joins two: mark the others differently."
            yield about(sentence, group, "shared mark")


def _joined(carried: _Carried) -> list[list[Removal]]:
    """The parts in groups that name each other."""
    parts = list(dict.fromkeys(removal for removal, _ in carried))
    groups = {part.id: [part] for part in parts}
    for near, far in _ties(carried, parts):
        if groups[near.id] is not groups[far.id]:
            groups[near.id] += groups[far.id]
            groups |= {part.id: groups[near.id] for part in groups[far.id]}
    unique = {id(group): group for group in groups.values()}
    place = {part.id: n for n, part in enumerate(parts)}
    return [sorted(group, key=lambda part: place[part.id]) for group in unique.values()]


def _ties(carried: _Carried, parts: list[Removal]) -> list[tuple[Removal, Removal]]:
    """Each part with the one it names. Those that name none and that none names are tied to one of
    them, for nothing tells them apart."""
    index = _ByName(parts)
    meant = [(part, index.find(partner, part)) for part, partner in carried]
    ties = [(part, far) for part, far in meant if far is not None]
    known = {far.id for _, far in ties} | {part.id for part, partner in carried if partner}
    bare = [part for part in parts if part.id not in known]
    return [*ties, *((bare[0], part) for part in bare[1:])]


class _ByName:
    """Parts by the endings of their names, to find the one that a partner's name means."""

    def __init__(self, parts: Sequence[Removal]) -> None:
        self._parts: dict[tuple[str, ...], list[Removal]] = defaultdict(list)
        for removal in parts:
            for words in endings(removal.name):
                self._parts[words].append(removal)

    def find(self, partner: str, part: Removal) -> Removal | None:
        """The only one but `part` that it can mean; None for none or several."""
        near = self._parts.get(asked(partner), ())
        fitting = (one for one in near if one is not part and fits(partner, one.name, hand_of(one)))
        meant = list(islice(fitting, 2))
        return meant[0] if len(meant) == 1 else None


def _unlike(marked: list[Removal]) -> Iterator[Contradiction]:
    """A part's partner carries a mark, and it is another one; a warning, for one mark may be
    called by two names."""
    index = _ByName(marked)
    for part in marked:
        for fact in sorted(set(_marks(part)), key=repr):
            partner = index.find(tidy(fact.partner), part)
            other = _other_mark(fact, part, partner) if partner else ""
            if partner and other:
                said = f"{called(part)} is matched to {called(partner)} by {tidy(fact.mark)}"
                sentence = f"{said}, and that one carries {other}: look at both marks again."
                yield about(sentence, (part, partner), "marks unlike", is_warning=True)


def _other_mark(fact: MatchMark, part: Removal, partner: Removal) -> str:
    """What the partner carries for this part instead of its mark; empty where nothing is wrong."""
    own = [m for m in _marks(partner) if not tidy(m.partner) or fits(m.partner, part.name)]
    if any(fold(mark.mark) == fold(fact.mark) for mark in _marks(partner)) or not own:
        return ""
    return listed(sorted({tidy(mark.mark) for mark in own}))
