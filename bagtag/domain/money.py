"""Money as one writes it."""

import re
from collections import defaultdict
from collections.abc import Iterable
from decimal import Decimal

from bagtag.domain.clean import clean_text
from bagtag.domain.errors import BadInput

SIGNS = {"€": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP"}
"""Signs and words of money that mean one currency alone, with its code of ISO 4217; from memory."""
MOST_MONEY = Decimal(10_000_000)
CURRENCY_LIMIT = 8
_EITHER_WAY = re.compile(r"[1-9]\d{0,2}[.,]\d{3}")


def money(value: Decimal | None, currency: str) -> str:
    """`12.50 EUR` with two decimals at least, as money is written; nothing for no price."""
    if value is None:
        return ""
    exponent = value.as_tuple().exponent
    places = -exponent if isinstance(exponent, int) and exponent < -2 else 2
    return f"{value:.{places}f} {currency}".strip()


def sums(amounts: Iterable[tuple[Decimal | None, str]]) -> tuple[tuple[str, Decimal], ...]:
    """What amounts with their currencies come to, one sum for each currency, by its name; what has
    no price is in none."""
    found: dict[str, Decimal] = defaultdict(Decimal)
    for value, currency in amounts:
        if value is not None:
            found[currency] += value
    return tuple(sorted(found.items()))


def sum_of_money(price: Decimal | None) -> Decimal | None:
    """The price; BadInput for what none can be."""
    if price is None:
        return None
    if not price.is_finite() or not 0 <= price <= MOST_MONEY:
        raise BadInput("The price is no sum of money from 0 up. Correct it.", field="price")
    return price


def currency(text: str) -> str:
    """`EUR` for `€` and `eur`; signs that several countries use stay as they are."""
    clean = clean_text(text, limit=CURRENCY_LIMIT, field="currency", what="The currency")
    return SIGNS.get(clean.casefold(), clean.upper())


def check_one_way(figure: str, said: str) -> None:
    """BadInput for a figure that may be thousands or a fraction: `1.234`."""
    if _EITHER_WAY.fullmatch(figure):
        plain = figure.replace(".", "").replace(",", "")
        raise BadInput(
            f"{said!r} could be {plain} or {figure.replace(',', '.')}. "
            f"Write {plain}.00 or leave the last figure out.",
            field="price",
        )
