"""What is said of a batch that is away: since when, until when, what is wanted, what is back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING

from bagtag.domain.asked import limits, outside, told
from bagtag.domain.days import dated, late_words
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.money import money
from bagtag.domain.phrases import capital
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import Batch, Item, ShopPart

if TYPE_CHECKING:
    from bagtag.domain.model import Away


def key_of(batch: Batch) -> int:
    """What a batch is known by on the page. Parts of an older store went without a batch; they
    are known by the first of them, below nought."""
    return batch.send_out.id if batch.send_out is not None else -batch.items[0].away.id


def called(batch: Batch) -> str:
    """`Send-out 2, Mill Lane Engineering`; what went without a batch by its shop."""
    if batch.send_out is None:
        return f"Sent one by one, {batch.shop}"
    return capital(batch.send_out.called)


def since(out_on: date, promised: date | None, today: date) -> str:
    """`out since 3 May, promised for 12 May, 4 days late`"""
    said = f"out since {dated(out_on, today)}"
    if promised is None:
        return f"{said}, no day promised"
    said = f"{said}, promised for {dated(promised, today)}"
    return ", ".join(filter(None, (said, late_words(promised, today))))


def when(batch: Batch, today: date) -> str:
    """When a batch went and when it is to come, or that it is back."""
    if batch.send_out is not None:
        out_on = batch.send_out.out_on
    else:
        out_on = min(item.away.sent_at for item in batch.items).astimezone().date()
    if batch.items and not batch.out:
        return f"out on {dated(out_on, today)}, back {back_on(batch.items, today)}"
    return since(out_on, batch.promised, today)


def back_on(items: Iterable[Item], today: date) -> str:
    """The day on which the last of them came back."""
    days = [item.away.back_at for item in items if item.away.back_at is not None]
    return dated(max(days).astimezone().date(), today) if days else ""


def how_many(batches: Iterable[Batch], today: date) -> str:
    """`5 parts away in 2 send-outs, 1 of them late`"""
    gone = [batch for batch in batches if batch.out]
    parts = sum(len(batch.out) for batch in gone)
    if not parts:
        return "Nothing is away"
    said = f"{parts} part{'s' * (parts != 1)} away"
    said += f" in {len(gone)} send-outs" if len(gone) > 1 else ""
    late = sum(batch.days_late(today) > 0 for batch in gone)
    if not late:
        return said
    return f"{said}, {late} of them late" if len(gone) > 1 else f"{said}, late"


def back_words(batch: Batch) -> str:
    """`2 of 5 back`"""
    return f"{len(batch.back)} of {len(batch.items)} back" if batch.back else ""


def part_name(item: Item) -> str:
    removal = item.removal
    pieces = f"{removal.quantity} × " if removal.quantity > 1 else ""
    return f"{removal.number}  {pieces}{removal.name}"


def asks_words(asks: Iterable[Asked]) -> str:
    """`bore: 76.50 to 76.53 mm; taper: at most 0.01 mm`"""
    said = ((one.name, limits(one) or one.unit) for one in asks)
    return "; ".join(f"{name}: {allowed}" if allowed else name for name, allowed in said)


def figures_words(figures: Iterable[Figure]) -> str:
    """`bore 76.51 mm; taper 0.02 mm is above 0.01`"""
    return "; ".join(outside(one) or told(one) for one in figures)


def back_said(away: Away, today: date) -> str:
    """`back 12 May: work done, measured` of a part that is back."""
    if away.back_at is None:
        return ""
    said = f"back {dated(away.back_at.astimezone().date(), today)}"
    said = f"{said}, checked in by {away.back_by}" if away.back_by else said
    found = ", ".join(one.value for one in away.checks)
    return f"{said}: {found}" if found else said


def price_words(send_out: SendOut) -> str:
    return money(send_out.price, send_out.currency)


def shop_part_words(one: ShopPart) -> str:
    return f"{one.quantity} × {one.name}" if one.quantity > 1 else one.name
