"""The parts of send-outs with what is told of them, read at once for many."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from bagtag.domain.errors import NotFound
from bagtag.domain.model import Away, Origin, Removal
from bagtag.domain.sending import Item
from bagtag.store import belongings, between, removals, sendings
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of parts beside their time away."""

    parts: Mapping[int, Removal]
    codes: Mapping[int, str]
    thumbs: Mapping[int, str]
    off: Mapping[int, Sequence[int]]
    named: Mapping[int, tuple[int, str, str]]
    first: Mapping[int, int]

    def items(self, times: Sequence[Away]) -> tuple[Item, ...]:
        """One batch in the order packed, each part followed by what the shop took off it."""
        beside = {one.removal_id for one in times}
        pieces: dict[int | None, list[Item]] = defaultdict(list)
        for one in times:
            item = self._item(one, beside)
            pieces[item.by_shop_of].append(item)
        return tuple(_followed(pieces, None))

    def _item(self, time: Away, beside: Collection[int]) -> Item:
        """What went beside it was not taken off it first, but at the shop, unless it was away
        before: then it was packed."""
        part = self.parts[time.removal_id]
        first = [id_ for id_ in self.off.get(part.id, ()) if id_ not in beside]
        is_new = self.first[part.id] == time.id
        by_shop = is_new and part.origin is Origin.SHOP and part.off_id in beside
        return Item(
            away=time,
            removal=part,
            code=self.codes.get(part.id, ""),
            thumb=self.thumbs.get(part.id, ""),
            off=tuple("{1} {2}".format(*self.named[id_]) for id_ in first),
            by_shop_of=part.off_id if by_shop else None,
            off_ids=tuple(first),
        )


def _followed(pieces: Mapping[int | None, list[Item]], of: int | None) -> Iterator[Item]:
    for item in pieces.get(of, ()):
        yield item
        yield from _followed(pieces, item.removal.id)


def told(store: Store, times: Iterable[Away]) -> Told:
    """What is told of the parts of these times away."""
    ids = list({one.removal_id: None for one in times})
    with store.read() as connection:
        off = between.taken_off(connection, ids)
        return Told(
            removals.by_ids(connection, ids),
            belongings.main_codes(connection, ids),
            belongings.first_thumbs(connection, ids),
            off,
            removals.named(connection, [id_ for many in off.values() for id_ in many]),
            sendings.first_times(connection, ids),
        )


def items(store: Store, away_ids: Sequence[int]) -> tuple[Item, ...]:
    """Parts that went out, by their times away, in this order; NotFound when one is gone."""
    with store.read() as connection:
        times = sendings.times(connection, away_ids)
        wholes = {one.send_out_id for one in times.values()} - {None}
        went = between.went_with(connection, [id_ for id_ in wholes if id_ is not None])
    if set(away_ids) - set(times):
        raise NotFound("A part is no longer in this send-out. Look at the list again.")
    groups = [*went.values(), *([one] for one in times.values() if one.send_out_id is None)]
    known = told(store, (one for group in groups for one in group))
    found = {item.away.id: item for group in groups for item in known.items(group)}
    return tuple(found[id_] for id_ in away_ids)


def out_now(store: Store, removal_id: int) -> Item | None:
    """A part as it went out, while it is away; None where it is here."""
    with store.read() as connection:
        out = sendings.out_of(connection, [removal_id])
    return items(store, [out[removal_id].id])[0] if out else None
