"""Contradictions between the two of a pair: hands, faces, and parts logged the same way round."""

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping, Sequence
from itertools import product

from bagtag.domain.contradictions_common import (
    Contradiction,
    about,
    both,
    called,
    fold,
    hand_of,
    names,
    only,
)
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import Kinds, Pair
from bagtag.domain.model import Removal
from bagtag.domain.names import stem
from bagtag.domain.phrases import listed
from bagtag.domain.resolve import told
from bagtag.domain.sentence import clocking_words, subject, the_side
from bagtag.domain.which_way import Clocking, Faces, Fact, OtherPart, Outness, SameWay, Toward

_HAND_SIDES = {"L": Side.LEFT, "R": Side.RIGHT}
_SIDEWAYS = {Side.LEFT, Side.RIGHT}


def in_pairs(removals: Sequence[Removal], datum: Datum, kinds: Kinds) -> Iterator[Contradiction]:
    """What parts of one name but for the hand, in one area, say against each other."""
    alike: dict[Hashable, list[Removal]] = defaultdict(list)
    for removal in removals:
        alike[stem(removal.name), removal.area_id].append(removal)
    for parts in alike.values():
        if len(parts) > 1:
            yield from _no_pair(parts)
            yield from _turned(parts, datum, kinds)


def hands_and_sides(removals: Sequence[Removal], datum: Datum) -> Iterator[Contradiction]:
    """A hand that does not fit the side a part came from; a warning, for a part may have been
    marked by another view of the machine."""
    for removal in removals:
        hand, side = hand_of(removal), removal.side
        if side in _SIDEWAYS and hand and side is not _HAND_SIDES[hand]:
            said = f"{called(removal)} is {hand} and came from {the_side(side, datum)}"
            sentence = f"{said}: look at the hand and at the side again."
            yield about(sentence, (removal,), "hand and side", is_warning=True)


def same_ways(removals: Sequence[Removal], datum: Datum) -> Iterator[Contradiction]:
    """Parts that are logged the same way round as another, and whose own facts say otherwise."""
    by_uid = {removal.uid: removal for removal in removals if removal.uid}
    for removal in removals:
        links = [fact for fact in only(removal.which_way, SameWay) if fact.other.uid in by_uid]
        for link in dict.fromkeys(links):
            other = by_uid[link.other.uid]
            if other is not removal:
                yield from _disagree(removal, other, link, by_uid, datum=datum)
                yield from _both_ways(removal, other, link)


def _no_pair(parts: list[Removal]) -> Iterator[Contradiction]:
    handed = [removal for removal in parts if hand_of(removal)]
    hands = {hand_of(removal) for removal in handed}
    if len(hands) == 1 and len(handed) > 1:
        which = hands.pop()
        other = "R" if which == "L" else "L"
        said = f"{listed(names(handed))} are {both(handed)} {which} and there is no {other}"
        yield about(f"{said}: look at the stamps again.", handed, "no pair")


def _turned(parts: list[Removal], datum: Datum, kinds: Kinds) -> Iterator[Contradiction]:
    kind = kinds.of(parts[0].name, parts[0].kind)
    if kind is None or kind.pair is None:
        return
    like = [removal for removal in parts if kinds.of(removal.name, removal.kind) == kind]
    for one, other in _couples(like):
        for mine, his in _like_faces(one, other):
            if _is_against(mine.toward, his.toward, kind.pair):
                yield _pair_turned(one, other, (mine, his), kind.pair, datum=datum)


def _couples(parts: list[Removal]) -> list[tuple[Removal, Removal]]:
    """Each left one with each right one; two without a hand are a pair too."""
    left, right = (_turned_apart(parts, hand) for hand in "LR")
    if left or right:
        return list(product(left, right))
    return [(parts[0], parts[1])] if len(parts) == 2 else []


def _turned_apart(parts: list[Removal], hand: str) -> list[Removal]:
    """The first part of this hand for each way that they face."""
    first: dict[frozenset[Faces], Removal] = {}
    for removal in parts:
        if hand_of(removal) == hand:
            first.setdefault(frozenset(only(removal.which_way, Faces)), removal)
    return list(first.values())


def _like_faces(one: Removal, other: Removal) -> list[tuple[Faces, Faces]]:
    mine, his = (dict.fromkeys(only(part.which_way, Faces)) for part in (one, other))
    same = [(a, b) for a in mine for b in his if fold(a.feature) == fold(b.feature)]
    return sorted(same, key=repr)


def _is_against(toward: Toward, other: Toward, pair: Pair) -> bool:
    if isinstance(toward, Outness) and isinstance(other, Outness):
        return toward is not other
    if not isinstance(toward, Side) or not isinstance(other, Side):
        return False
    if pair is Pair.ALIKE:
        return toward is other.opposite
    return toward is other and toward in _SIDEWAYS


def _pair_turned(
    one: Removal, other: Removal, faces: tuple[Faces, Faces], pair: Pair, *, datum: Datum
) -> Contradiction:
    ways = [_way(fact.toward, datum) for fact in faces]
    feature = subject(faces[0].feature) or "one face"
    if ways[0] == ways[1]:
        said = f"On {called(one)} and {called(other)} {feature} faces {ways[0]}"
    else:
        said = f"On {called(one)} {feature} faces {ways[0]} and on {called(other)} {ways[1]}"
    usual = "sits alike" if pair is Pair.ALIKE else "sits as in a mirror"
    return about(
        f"{said}, and such a pair {usual}: look at both again.", (one, other), "pair turned"
    )


def _way(toward: Toward, datum: Datum) -> str:
    if isinstance(toward, OtherPart):
        return toward.name
    return the_side(toward, datum) if isinstance(toward, Side) else toward.value


def _disagree(
    part: Removal, other: Removal, link: SameWay, others: Mapping[str, Removal], *, datum: Datum
) -> Iterator[Contradiction]:
    facts = told(part, others)
    how = next((f.facts for f in only(facts, SameWay) if f.other.uid == link.other.uid
                and f.opposite == link.opposite), ())  # fmt: skip
    joined = "the opposite way round to" if link.opposite else "the same way round as"
    for meant, own in product(how, dict.fromkeys(facts)):
        words = _against(meant, own, datum)
        if words:
            said = f"{called(part)} is logged {joined} {called(other)}, and yet {words}"
            yield about(f"{said}: correct one of the two.", (part, other), "not the same way")


def _against(meant: Fact, own: Fact, datum: Datum) -> str:
    """What a part's own fact says against the one it has from another; empty for nothing."""
    if isinstance(meant, Faces) and isinstance(own, Faces):
        ways = _both_known(meant, own) if fold(meant.feature) == fold(own.feature) else None
        return _faces_words(own, *ways, datum) if ways else ""
    if isinstance(meant, Clocking) and isinstance(own, Clocking) and _is_turned(meant, own):
        return f"it has its {clocking_words(own)}, and by that its {clocking_words(meant)}"
    return ""


def _faces_words(own: Faces, said: Toward, meant: Toward, datum: Datum) -> str:
    feature = subject(own.feature) or "one face"
    return f"{feature} faces {_way(said, datum)}, and by that {_way(meant, datum)}"


def _both_known(meant: Faces, own: Faces) -> tuple[Toward, Toward] | None:
    """The two directions, own first, where they can be compared and differ."""
    ways: list[tuple[Toward | None, Toward | None]] = [
        (own.toward, meant.toward), (own.resolved or own.toward, meant.resolved or meant.toward),
    ]  # fmt: skip
    for mine, his in ways:
        for way in (Side, Outness):
            if isinstance(mine, way) and isinstance(his, way):
                return None if mine is his else (mine, his)
    return None


def _is_turned(meant: Clocking, own: Clocking) -> bool:
    same = fold(meant.feature) == fold(own.feature) and meant.seen_from is own.seen_from
    return same and None not in (meant.hour, own.hour) and meant.hour != own.hour


def _both_ways(part: Removal, other: Removal, link: SameWay) -> Iterator[Contradiction]:
    """One says the same way, the other the opposite; told once, for the one that says the same."""
    back = [fact for fact in only(other.which_way, SameWay) if fact.other.uid == part.uid]
    if part.uid and not link.opposite and any(fact.opposite for fact in back):
        said = (
            f"{called(part)} is logged the same way round as {called(other)}, and that one opposite"
        )
        yield about(f"{said} to it: correct one of the two.", (part, other), "not the same way")
