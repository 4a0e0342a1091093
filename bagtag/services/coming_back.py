"""Checking parts back in: by scan and by item, with what was looked at and measured."""

from collections.abc import Sequence
from dataclasses import asdict

from bagtag.domain import codes
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput, Trouble
from bagtag.domain.model import Away, Fate
from bagtag.domain.phrases import day
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import Back, Item, Scanned
from bagtag.domain.sending_back import checked_back
from bagtag.services import batch_items, tags
from bagtag.services.tags import Found, Leads
from bagtag.store import belongings, removals, rows, sendings, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


def back(store: Store, items: Sequence[Back], *, who: str = "") -> Change:
    """These parts are back, those that are not named stay away. One that is to be decided has that
    fate from then on."""
    if not items:
        raise BadInput("Say which parts are back: scan or tick them.", field="items")
    if len({one.away_id for one in items}) < len(items):
        raise BadInput("A part is named twice among those that are back.", field="items")
    known = batch_items.items(store, [one.away_id for one in items])
    clean = [checked_back(one, item) for one, item in zip(items, known, strict=True)]

    def do(act: Act) -> None:
        for one, item in zip(clean, known, strict=True):
            _enter(act, one, item)

    return store.act("back from the shop", do, who=who, job_id=known[0].removal.job_id)


def _enter(act: Act, one: Back, item: Item) -> None:
    act.update(
        tables.away,
        one.away_id,
        back_at=rows.now(),
        back_by=act.who,
        back_note=one.note,
        checks=[check.value for check in one.checks],
        figures=[asdict(figure) for figure in one.figures],
    )
    if one.decide:
        act.update(tables.removal, item.removal.id, fate=Fate.DECIDE.value)


def scanned(store: Store, send_out_id: int | None, code: str) -> Scanned:
    """What a code says at the check-in of a batch (None: of what went without one): a part of it
    that is out, or in one sentence what it is instead."""
    try:
        found = tags.look_up(store, code)
    except Trouble as trouble:
        return Scanned(None, trouble.sentence)
    if found.removal_id is None:
        return Scanned(None, _no_part(found, send_out_id))
    with store.read() as connection:
        removal = removals.get(connection, found.removal_id)
        times = belongings.times_away(connection, found.removal_id)
        wholes = sendings.wholes(connection, times)
    assert removal is not None
    called = f"{removal.number} {removal.name}"
    out = next((one for one in times if one.back_at is None), None)
    if out is None:
        return Scanned(None, _not_out(called, times, send_out_id))
    if out.send_out_id != send_out_id:
        return Scanned(None, _elsewhere(called, out, wholes.get(out.send_out_id)))
    return Scanned(out.id, f"{called} is of this send-out.")


def _no_part(found: Found, send_out_id: int | None) -> str:
    shown = codes.show(found.tag.code)
    if found.leads is Leads.SEND_OUT:
        which = "this" if found.send_out_id == send_out_id else "another"
        return f"{shown} is the code of {which} send-out itself. Scan the parts that are back."
    if found.leads is Leads.BLANK:
        return f"{shown} is a blank tag that hangs on nothing yet. Log what came with it first."
    what = "a container" if found.leads is Leads.CONTAINER else "a step of the build"
    return f"{shown} is the tag of {what}, not of a part. Scan the part itself."


def _elsewhere(called: str, out: Away, whole: SendOut | None) -> str:
    went = f"with {whole.called}" if whole is not None else f"to {out.shop} by itself"
    return f"{called} is not of this send-out: it went {went}. Check it in there."


def _not_out(called: str, times: Sequence[Away], send_out_id: int | None) -> str:
    mine = [one.back_at for one in times if one.send_out_id == send_out_id and one.back_at]
    if mine:
        return f"{called} is back already, since {day(mine[-1].astimezone().date())}."
    return f"{called} is not away: it did not go with this send-out. Lay it aside and look it up."
