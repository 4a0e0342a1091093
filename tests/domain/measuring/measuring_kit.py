"""What the tests of measuring share."""

import json
from decimal import Decimal
from pathlib import Path

from bagtag.domain.measuring import forms
from bagtag.domain.measuring.sheet import Given, Limits, MeasureSheet, Reading

ROOT = Path(__file__).parents[3]


def published(name="measuring"):
    """What is published of it, each row with its source."""
    file = ROOT / "tests" / "check_values" / f"{name}.json"
    return json.loads(file.read_text("utf-8"))


def sheet(kind, values=(), *, unit="mm", limits=(), given=(), step=None):
    """A sheet with its readings in the order of its places, or by place; figures as text."""
    known = {key: one if isinstance(one, tuple) else (one,) for key, one in dict(given).items()}
    told = tuple(Given(key, Decimal(one)) for key, ones in known.items() for one in ones)
    empty = MeasureSheet(1, "u", 1, kind, unit=unit, given=told, limits=tuple(limits))
    by_key = values if isinstance(values, dict) else dict(zip(_keys(empty), values, strict=False))
    return MeasureSheet(
        1,
        "u",
        1,
        kind,
        unit=unit,
        readings=tuple(reading(key, one, unit, step) for key, one in by_key.items()),
        limits=tuple(limits),
        given=told,
    )


def _keys(empty):
    return [place.key for place in forms.form(empty).places]


def reading(key, value, unit="mm", step=None):
    return Reading(key, Decimal(value), unit, resolution=Decimal(step) if step else None)


def limits(key, new=(None, None), wear=(None, None), unit="mm"):
    sides = (Decimal(one) if one is not None else None for one in (*new, *wear))
    return Limits(key, *sides, unit)


def figure(results, key):
    return next(one for one in results.figures if one.key == key)


WORN_BORE = ("76.31", "76.27", "76.25", "76.22", "76.20", "76.19")
BORE_LIMITS = (
    limits("size", ("76.00", "76.02"), (None, "76.20")),
    limits("taper", wear=(None, "0.05")),
    limits("out of round", wear=(None, "0.05")),
)
