"""What a person says of a batch, made clean and checked before it goes: one sentence when wrong."""

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from decimal import Decimal

from bagtag.domain.asked import checked_asks
from bagtag.domain.clean import NAME_LIMIT, TEXT_LIMIT, clean_text, whole
from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.figures import decimal
from bagtag.domain.model import Away, Fate, Removal
from bagtag.domain.money import check_one_way, currency
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import PackForm, ShopPart, Wanted

_COUNTED = re.compile(r"(?:(\d{1,4})\s*[x×]?\s+)?(\S.*)", re.IGNORECASE)
WORK_LIMIT = 5000
FAR = 366
"""Days between today and the day a batch goes out: more is a slip in the year."""
LONG = 3 * 366
"""Days that a shop may take: more is a slip in the year."""


def check_pack(form: PackForm, today: date) -> PackForm:
    """The form with its text made clean; BadInput names the field that is wrong."""
    shop = clean_text(form.shop, limit=NAME_LIMIT, field="shop", what="The shop")
    if not shop:
        raise BadInput("Say which shop the parts go to.", field="shop")
    _check_days(form.out_on, form.promised, today)
    price_of(form.price)
    return replace(
        form,
        shop=shop,
        contact=clean_text(form.contact, limit=TEXT_LIMIT, field="contact", what="The contact"),
        work=clean_work(form.work),
        price=form.price.strip(),
        currency=currency(form.currency),
        note=clean_text(form.note, lines=True, limit=WORK_LIMIT, field="note", what="The note"),
    )


def clean_work(text: str) -> str:
    """The work wanted, with its line breaks."""
    return clean_text(text, lines=True, limit=WORK_LIMIT, field="work", what="The work wanted")


def _check_days(out_on: date, promised: date | None, today: date) -> None:
    if abs((out_on - today).days) > FAR:
        raise BadInput(
            f"{out_on} is more than a year from today. Correct the day it goes out.",
            field="out_on",
        )
    if promised is None:
        return
    if promised < out_on:
        raise BadInput(
            f"It is promised for {promised}, before it goes out on {out_on}. "
            "Correct one of the two days.",
            field="promised",
        )
    if (promised - out_on).days > LONG:
        raise BadInput(
            f"{promised} is more than three years after it goes out. Correct the promised day.",
            field="promised",
        )


def price_of(text: str) -> Decimal | None:
    """A price as typed, with a comma or a point; None while it is not known."""
    if not text.strip():
        return None
    price = decimal(text, field="price")
    if price < 0:
        raise BadInput(f"A price cannot be below zero: {text.strip()}.", field="price")
    check_one_way(text.strip(), text.strip())
    return price


def check_wanted(wanted: Iterable[Wanted]) -> tuple[Wanted, ...]:
    """The parts of a batch with their text made clean; BadInput where there is none."""
    found = tuple(_checked(one) for one in wanted)
    if not found:
        raise BadInput("Choose at least one part first.", field="removals")
    return found


def _checked(one: Wanted) -> Wanted:
    if one.removal_id in one.off:
        raise BadInput("A part cannot be taken off itself. Choose another one.", field="off")
    return replace(
        one,
        work=clean_work(one.work),
        asks=checked_asks(one.asks),
        off=tuple(dict.fromkeys(one.off)),
        by_shop=_by_shop(one.by_shop),
    )


def _by_shop(parts: Iterable[ShopPart]) -> tuple[ShopPart, ...]:
    found: dict[str, ShopPart] = {}
    for one in parts:
        clean = checked_shop_part(one)
        if clean.name.casefold() in found:
            raise BadInput(
                f"{clean.name} is named twice in what the shop takes off. "
                "Name it once, with how many there are.",
                field="by_shop",
            )
        found[clean.name.casefold()] = clean
    return tuple(found.values())


def checked_shop_part(one: ShopPart) -> ShopPart:
    """What the shop takes off, its name made clean and its count one that can be."""
    name = clean_text(one.name, limit=NAME_LIMIT, field="by_shop", what="The name")
    if not name:
        raise BadInput("Say what the shop takes off, for example: main jet.", field="by_shop")
    return ShopPart(name, whole(one.quantity, f"How many of {name}", field="by_shop"))


def kept_here(part: Removal, time: Away | None, whole: SendOut | None, *, is_fitted: bool) -> str:
    """Why a part cannot go out, one sentence; nothing where it can. `time` is its time away that
    is not over, `whole` the batch it went with then."""
    called = f"{part.number} {part.name}"
    if time is not None:
        at = f"with {whole.called}" if whole is not None else f"at {time.shop}"
        return f"{called} is away already, {at}. Check it back in first."
    if is_fitted:
        return f"{called} is in already. Take it back out before it goes away."
    if part.fate is Fate.SCRAP:
        return f"{called} is scrapped. Change what becomes of it before it goes away."
    return ""


def read_shop_part(typed: str) -> ShopPart:
    """`3 oil jets` or `3 x oil jets`; without a count it is one. BadInput for nothing, and none."""
    found = _COUNTED.fullmatch(" ".join(typed.split()))
    if found is None:
        raise BadInput("Say what the shop takes off, for example: 3 oil jets.", field="by_shop")
    count = int(found[1] or 1)
    if not count:
        raise BadInput(f"How many {found[2]}? Give at least 1.", field="by_shop")
    return ShopPart(found[2], count)
