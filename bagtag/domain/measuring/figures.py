"""Figures as they are typed, by a person or by a caliper, and as they are shown."""

import re
from decimal import Decimal

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import units
from bagtag.domain.measuring.units import converted
from bagtag.domain.phrases import listed

__all__ = ["converted", "decimal", "reading", "show"]

LONGEST = 20
MOST = Decimal(1_000_000)
"""No figure of a bench is larger: a slip of the keys."""
FINEST = 5
"""Decimals that are shown of a figure that was converted or divided."""
_FIGURE = re.compile(r"[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)")
_WITH_UNIT = re.compile(r"(?P<figure>[+\-−]?\s*[0-9.,][0-9., ]*)(?P<unit>.*)", re.DOTALL)


def decimal(text: str, *, field: str = "") -> Decimal:
    """A figure as typed, `76,25` or ` 76.25 `; its digits are kept. BadInput for anything else."""
    clean = re.sub(r"^([+-])\s+", r"\1", text.replace("−", "-").strip())
    if not clean:
        raise BadInput("Give a figure, for example 76.25.", field=field)
    if len(re.findall(r"[.,]", clean)) > 1 or re.search(r"[0-9]\s+[0-9]", clean):
        raise BadInput(
            f"{_cut(clean)} cannot be read as one figure. Write it without thousands, for "
            "example 1234.5.",
            field=field,
        )
    if not _FIGURE.fullmatch(clean) or len(clean) > LONGEST:
        raise BadInput(f"{_cut(clean)} is no figure. Write it like 76.25.", field=field)
    return _within(Decimal(clean.replace(",", ".")), clean, field)


def _within(value: Decimal, typed: str, field: str) -> Decimal:
    if abs(value) > MOST:
        raise BadInput(f"{_cut(typed)} is too large. Give the figure again.", field=field)
    return value if value else abs(value)


def reading(text: str, unit: str, *, field: str = "") -> tuple[Decimal, str]:
    """A figure and its unit: `76,25`, `76.25 mm`, `3.002 in`, `3.002"`. `unit` is taken where none
    is typed; BadInput for one that is none, or is of another dimension than `unit`."""
    parts = _WITH_UNIT.fullmatch(text.strip())
    if parts is None:
        return decimal(text, field=field), unit
    value = decimal(parts["figure"], field=field)
    typed = parts["unit"].strip()
    return value, _unit(typed, unit, field) if typed else unit


def _unit(typed: str, unit: str, field: str) -> str:
    found = units.spelt(typed)
    if units.dimension(found) != units.dimension(unit):
        known = [one for one in units.of_dimension(units.dimension(unit)) if one]
        give = f"Give it in {listed(known).replace(' and ', ' or ')}." if known else "Leave it out."
        raise BadInput(f"{_cut(typed)} is not a unit that fits here. {give}", field=field)
    return found


def show(value: Decimal) -> str:
    """A figure without an exponent, its given digits kept; one with more than five decimals, as
    dividing leaves them, is rounded to five."""
    if not value.is_finite():
        return str(value)
    exponent = value.as_tuple().exponent
    if isinstance(exponent, int) and exponent >= -FINEST:
        return f"{value:f}"
    whole, _, decimals = f"{value:.{FINEST}f}".partition(".")
    return f"{whole}.{decimals}".rstrip("0").rstrip(".")


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST else f"{text[:LONGEST]}…"
