"""Money as one writes it."""

from collections import defaultdict
from collections.abc import Iterable
from decimal import Decimal


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
