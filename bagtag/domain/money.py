"""Money as one writes it."""

from decimal import Decimal


def money(value: Decimal | None, currency: str) -> str:
    """`12.50 EUR` with two decimals at least, as money is written; nothing for no price."""
    if value is None:
        return ""
    exponent = value.as_tuple().exponent
    places = -exponent if isinstance(exponent, int) and exponent < -2 else 2
    return f"{value:.{places}f} {currency}".strip()
