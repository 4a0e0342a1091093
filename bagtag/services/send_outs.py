"""Sending parts to an outside shop and checking them back in: the use cases of a batch."""

from collections.abc import Sequence
from datetime import date
from uuid import uuid4

from bagtag.domain.change import Change
from bagtag.domain.model import TagRole
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import (
    Back,
    Batch,
    Item,
    Late,
    PackForm,
    Scanned,
    ShopPart,
    Wanted,
)
from bagtag.domain.sending_back import against
from bagtag.domain.sending_check import (
    check_pack,
    check_wanted,
    price_of,
)
from bagtag.services import packing
from bagtag.services.batch_items import items, out_now
from bagtag.services.batches import (
    batch,
    batches,
    find_send_out,
    get_send_out,
    late,
    there,
    why_not,
)
from bagtag.services.codes_drawn import tie
from bagtag.services.coming_back import back, scanned
from bagtag.services.repacking import change_wanted, delete, drop_item, shop_took, wanted_of
from bagtag.store import between, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

__all__ = [
    "Back",
    "Batch",
    "Item",
    "Late",
    "PackForm",
    "Scanned",
    "ShopPart",
    "Wanted",
    "add_wanted",
    "against",
    "back",
    "batch",
    "batches",
    "change_wanted",
    "check_pack",
    "delete",
    "drop_item",
    "edit",
    "find_send_out",
    "get_send_out",
    "items",
    "late",
    "out_now",
    "scanned",
    "send",
    "shop_took",
    "wanted_of",
    "why_not",
]


def send(
    store: Store, job_id: int, form: PackForm, wanted: Sequence[Wanted], *, who: str = ""
) -> Change:
    """Parts go to an outside shop as one batch; `new_id` is its id.

    BadInput when nothing of it is kept: a day or price that cannot be, a part that is away, in or
    scrapped.
    """
    clean, parts = check_pack(form, date.today()), check_wanted(wanted)
    known = packing.entries_of(store, parts)

    def do(act: Act) -> None:
        found = packing.check_parts(act, job_id, parts)
        whole = _made(act, job_id, clean)
        for one in parts:
            packing.pack(act, whole, found[one.removal_id], one, known)

    return store.act(f"send away to {clean.shop}", do, who=who, job_id=job_id)


def _made(act: Act, job_id: int, form: PackForm) -> SendOut:
    number = between.next_number(act.connection, job_id)
    made = {"made_at": rows.now(), "made_by": act.who}
    id_ = act.insert(
        tables.send_out, uid=str(uuid4()), job_id=job_id, number=number, **made, **_columns(form)
    )
    tie(act, "", TagRole.SEND_OUT, job_id, send_out_id=id_)
    return there(between.get_send_out(act.connection, id_))


def _columns(form: PackForm) -> dict[str, object]:
    price = price_of(form.price)
    return {
        "shop": form.shop,
        "contact": form.contact,
        "work": form.work,
        "out_on": form.out_on.isoformat(),
        "promised": form.promised.isoformat() if form.promised else None,
        "price": str(price) if price is not None else None,
        "currency": form.currency,
        "note": form.note,
    }


def edit(store: Store, send_out_id: int, form: PackForm, *, who: str = "") -> Change:
    """Write what is said of a batch anew; its parts follow its shop and its days."""
    was = get_send_out(store, send_out_id)
    is_same_day = form.out_on == was.out_on
    clean = check_pack(form, was.out_on if is_same_day else date.today())

    def do(act: Act) -> None:
        act.update(tables.send_out, send_out_id, **_columns(clean))
        columns = packing.time_columns(there(between.get_send_out(act.connection, send_out_id)))
        if is_same_day:
            del columns["sent_at"]
        for one in between.went_with(act.connection, [send_out_id]).get(send_out_id, []):
            act.update(tables.away, one.id, **columns)

    return store.act(f"edit {was.called}", do, who=who, job_id=was.job_id)


def add_wanted(
    store: Store, send_out_id: int, wanted: Sequence[Wanted], *, who: str = ""
) -> Change:
    """More parts go with a batch; `new_id` is the time away of the first."""
    whole, parts = get_send_out(store, send_out_id), check_wanted(wanted)
    known = packing.entries_of(store, parts)

    def do(act: Act) -> None:
        found = packing.check_parts(act, whole.job_id, parts)
        for one in parts:
            packing.pack(act, whole, found[one.removal_id], one, known)

    return store.act(f"add to {whole.called}", do, who=who, job_id=whole.job_id)
