"""Measuring sheets written short."""

from decimal import Decimal

from bagtag.domain.measuring.sheet import Given, Limits, MeasureSheet, Reading, SheetKind


def sheet(
    kind: SheetKind, readings=None, limits=None, given=None, *, unit="mm", step=""
) -> MeasureSheet:
    """`readings` by place, `limits` by figure as (low, high) of a new part, `given` by key, one or
    several; figures as text, with a unit where it is not the sheet's."""
    return MeasureSheet(
        1, "sheet", 1, kind, unit=unit,
        readings=tuple(_reading(key, said, unit, step) for key, said in (readings or {}).items()),
        limits=tuple(
            Limits(key, *map(_decimal, pair), unit=_limit_unit(key, unit))
            for key, pair in (limits or {}).items()
        ),
        given=tuple(
            _given(key, one) for key, said in (given or {}).items() for one in _several(said)
        ),
    )  # fmt: skip


def _reading(key: str, said: str, unit: str, step: str) -> Reading:
    value, _, own = said.partition(" ")
    resolution = Decimal(step) if step else None
    return Reading(key, Decimal(value), own or unit, resolution=resolution)


def _limit_unit(key: str, unit: str) -> str:
    return {"ratio": "", "displacement": "cm³"}.get(key, unit)


def _given(key: str, said: str) -> Given:
    value, _, unit = said.partition(" ")
    return Given(key, Decimal(value), unit)


def _several(said) -> tuple[str, ...]:
    return (said,) if isinstance(said, str) else tuple(said)


def _decimal(said) -> Decimal | None:
    return None if said is None else Decimal(said)
