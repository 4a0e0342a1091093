"""The kinds that a part could be by its name, to choose from where the first guess is wrong."""

from collections.abc import Iterator

from bagtag.domain.kinds import KindFound, Kinds, PartKind, stem

MOST = 6


def could_be(kinds: Kinds, name: str, most: int = MOST) -> tuple[PartKind, ...]:
    """Kinds that a name may mean beside its first: those that other words of it say, then those
    of like name, then those of the same group; the first, "the kind of the name", is left out."""
    first = kinds.find(name)
    found = dict.fromkeys([*_in_name(kinds, name), *_like(kinds, name, first)])
    if first is not None:
        found.pop(first.kind, None)
    return tuple(found)[:most]


def _in_name(kinds: Kinds, name: str) -> Iterator[PartKind]:
    """What stretches of its words say, the longest and the last of them first."""
    words = name.replace(",", " ").split()
    for length in range(len(words), 0, -1):
        for start in range(len(words) - length, -1, -1):
            kind = kinds.named(" ".join(words[start : start + length]))
            if kind is not None:
                yield kind


def _like(kinds: Kinds, name: str, first: KindFound | None) -> Iterator[PartKind]:
    """Kinds whose own name ends as this one does, then those that share a word or the group."""
    said = {stem(word) for word in name.replace(",", " ").split() if len(word) > 2}
    said |= {stem(first.kind.name.split()[-1])} if first else set()
    by_words = [(kind, [stem(word) for word in kind.name.split()]) for kind in kinds.all()]
    yield from (kind for kind, words in by_words if words[-1] in said)
    yield from (kind for kind, words in by_words if said & set(words))
    if first is not None and first.kind.group:
        yield from (kind for kind in kinds.all() if kind.group == first.kind.group)
