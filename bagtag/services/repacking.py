"""Changing what went with a batch: the work wanted, what the shop takes off, a part too many."""

from collections.abc import Collection, Iterable

from bagtag.domain.change import Change
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.model import Removal
from bagtag.domain.sending import Batch, Item, ShopPart, Wanted
from bagtag.domain.sending_check import check_wanted, checked_shop_part
from bagtag.services import batch_items, forgetting, packing
from bagtag.services.batches import batch
from bagtag.store import between, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


def wanted_of(whole: Batch, item: Item) -> Wanted:
    """What is wanted of a part of a batch, as its form shows it."""
    by_shop = tuple(ShopPart(one.removal.name, one.removal.quantity) for one in _taken(whole, item))
    return Wanted(item.removal.id, item.away.work, item.away.asks, item.off_ids, by_shop)


def _taken(whole: Batch, item: Item) -> list[Item]:
    """What the shop took off a part and still has."""
    return [one for one in whole.items if one.by_shop_of == item.removal.id and one.is_out]


def change_wanted(store: Store, away_id: int, wanted: Wanted, *, who: str = "") -> Change:
    """Write anew what is wanted of a part that is out, and what was or will be taken off it. What
    the shop takes off and still has is known by its name: one that is named no more was not taken
    off, and leaves the log again."""
    item, (clean,) = _out(store, away_id), check_wanted([wanted])
    known = packing.entries_of(store, [clean])

    def do(act: Act) -> None:
        asks = rows.asks_data(clean.asks)
        act.update(tables.away, away_id, work=clean.work, asks=asks)
        packing.set_off(act, item.removal, clean.off)
        _change_pieces(act, item, known.values())

    title = f"change what is wanted of {item.called}"
    return store.act(title, do, who=who, job_id=item.removal.job_id)


def _change_pieces(act: Act, item: Item, wanted: Iterable[Entry]) -> None:
    """What the shop takes off a part becomes this, by name."""
    left = {one.name.casefold(): one for one in wanted}
    for time, removal in packing.pieces(act, item.away):
        if time.back_at is not None:
            continue
        entry = left.pop(removal.name.casefold(), None)
        if entry is None:
            packing.forget_piece(act, time, removal)
        elif entry.quantity != removal.quantity:
            _count(act, removal, entry.quantity)
    _take_more(act, item, left.values())


def _take_more(act: Act, item: Item, more: Collection[Entry]) -> None:
    """What the shop takes off besides; only a batch can say it."""
    whole = between.get_send_out(act.connection, item.away.send_out_id or 0)
    if more and whole is None:
        raise BadInput(
            "This part went without a send-out. Log what the shop took off it by itself.",
            field="by_shop",
        )
    for entry in more:
        assert whole is not None
        packing.take_off(act, whole, item.removal, entry)


def _count(act: Act, removal: Removal, quantity: int) -> None:
    act.update(tables.removal, removal.id, quantity=quantity, version=removal.version + 1)


def drop_item(store: Store, away_id: int, *, who: str = "") -> Change:
    """A part did not go after all; what the shop was to take off is on it still. The last part of
    a batch takes the batch with it. BadInput where something that the shop took off it is back."""
    item = _out(store, away_id)
    send_out_id = item.away.send_out_id

    def do(act: Act) -> None:
        for time, piece in packing.pieces(act, item.away):
            if time.back_at is not None:
                raise BadInput(_did_go(f"{piece.number} {piece.name}", item.called))
        packing.unpack(act, item.away)
        if send_out_id is not None and forgetting.forget_empty(act, send_out_id):
            act.name += ", and the send-out, which is empty"

    title = f"{item.called} did not go away"
    return store.act(title, do, who=who, job_id=item.removal.job_id)


def delete(store: Store, send_out_id: int, *, who: str = "") -> Change:
    """A batch did not go at all; BadInput where something of it is back. Undo brings it back."""
    whole = batch(store, send_out_id)
    assert whole.send_out is not None
    if whole.back:
        raise BadInput(_did_go(whole.back[0].called, "the send-out"))

    def do(act: Act) -> None:
        for item in whole.items:
            if item.by_shop_of is None:
                packing.unpack(act, item.away)
        forgetting.forget_empty(act, send_out_id)

    title = f"{whole.send_out.called} did not go away"
    return store.act(title, do, who=who, job_id=whole.send_out.job_id)


def _did_go(back: str, what: str) -> str:
    return f"{back} is back from there already, so {what} did go."


def shop_took(
    store: Store, send_out_id: int, removal_id: int, name: str, quantity: int = 1, *, who: str = ""
) -> Change:
    """The shop took something more off a part of a batch; `new_id` is its line of the log. It is
    away with the batch and goes in after that part; more of what is there already is counted to
    that."""
    whole = batch(store, send_out_id)
    of = next((one for one in whole.items if one.removal.id == removal_id), None)
    if of is None or whole.send_out is None:
        raise NotFound("This part is not in this send-out. Choose one that is.")
    send_out, piece = whole.send_out, checked_shop_part(ShopPart(name, quantity))
    entry, more = packing.entry_of(store, piece), _named(_taken(whole, of), piece.name)

    def do(act: Act) -> None:
        if more is None:
            act.new_id = packing.take_off(act, send_out, of.removal, entry)
        else:
            act.new_id = more.id
            _count(act, more, more.quantity + entry.quantity)

    title = f"the shop took {entry.name} off {of.called}"
    return store.act(title, do, who=who, job_id=send_out.job_id)


def _named(taken: Iterable[Item], name: str) -> Removal | None:
    found = (one.removal for one in taken if one.removal.name.casefold() == name.casefold())
    return next(found, None)


def _out(store: Store, away_id: int) -> Item:
    """A part that is still out; BadInput when it is back."""
    (item,) = batch_items.items(store, [away_id])
    if not item.is_out:
        raise BadInput(f"{item.called} is back already, so this stays as it was.")
    return item
