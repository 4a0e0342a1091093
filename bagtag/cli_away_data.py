"""Send-outs as text and as plain data for `--json`."""

from collections.abc import Iterator
from dataclasses import asdict
from datetime import date
from typing import Any

from bagtag.domain import codes
from bagtag.domain.asked import limits
from bagtag.domain.days import late_words
from bagtag.domain.fitting import Asked
from bagtag.domain.sending import Batch, Item, Late

Data = dict[str, Any]


def batch_lines(whole: Batch) -> Iterator[str]:
    """A batch, then each of its parts, what the shop took off them set in."""
    yield ", ".join(filter(None, (_head(whole), *_days(whole))))
    if whole.send_out is not None and whole.send_out.work:
        yield f"  {whole.send_out.work}"
    for item in whole.items:
        yield from _item_lines(item)


def _head(whole: Batch) -> str:
    if whole.send_out is None:
        return f"at {whole.shop}"
    return f"{codes.show(whole.send_out.code)}  {whole.send_out.called}"


def _days(whole: Batch) -> Iterator[str]:
    if whole.send_out is not None:
        yield f"out {whole.send_out.out_on}"
    if not whole.out:
        yield "all back"
    elif whole.send_out is None:
        yield late_words(whole.promised, date.today()) if whole.promised else ""
    elif whole.promised is not None:
        yield f"promised for {whole.promised}"
        yield late_words(whole.promised, date.today())


def _item_lines(item: Item) -> Iterator[str]:
    box = "[ ]" if item.is_out else "[x]"
    many = f" ({item.removal.quantity})" if item.removal.quantity > 1 else ""
    took = ", the shop took it off" if item.by_shop_of is not None else ""
    work = f": {item.away.work}" if item.away.work else ""
    yield f"  {box} {codes.show(item.code)}  {item.called}{many}{took}{_own_day(item)}{work}"
    yield from (f"      wanted: {_wanted(one)}" for one in item.away.asks)
    if item.off:
        yield f"      taken off first: {', '.join(item.off)}"


def _own_day(item: Item) -> str:
    """Parts that went one by one have each a day of its own."""
    if item.away.send_out_id is not None or item.away.due is None:
        return ""
    return f", promised for {item.away.due}"


def _wanted(one: Asked) -> str:
    return ", ".join(filter(None, (one.name, limits(one) or one.unit)))


def batch_data(whole: Batch) -> Data:
    one = whole.send_out
    own: Data = {}
    if one is not None:
        own = {
            "number": one.number,
            "code": codes.show(one.code),
            "out_on": one.out_on.isoformat(),
            "contact": one.contact,
            "work": one.work,
            "price": f"{one.price:f}" if one.price is not None else None,
            "currency": one.currency,
            "note": one.note,
        }
    return own | {
        "shop": whole.shop,
        "promised": whole.promised.isoformat() if whole.promised else None,
        "days_late": whole.days_late(date.today()),
        "parts": [_item_data(item) for item in whole.items],
        "documents": [paper.name for paper in whole.documents],
    }


def _item_data(item: Item) -> Data:
    away = item.away
    return {
        "number": item.removal.number,
        "name": item.removal.name,
        "quantity": item.removal.quantity,
        "code": codes.show(item.code),
        "work": away.work,
        "wanted": [asdict(one) for one in away.asks],
        "taken_off_first": list(item.off),
        "off_at_the_shop": item.by_shop_of is not None,
        "back_at": away.back_at.isoformat() if away.back_at else None,
        "back_by": away.back_by,
        "checks": [check.value for check in away.checks],
        "measured": [asdict(figure) for figure in away.figures],
        "note": away.back_note,
    }


def late_data(one: Late) -> Data:
    return {
        "job": one.job_title,
        "called": one.called,
        "shop": one.shop,
        "promised": one.promised.isoformat(),
        "days": one.days,
    }
