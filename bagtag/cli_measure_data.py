"""What `measure` answers: sheets, plans of shims and instruments, as lines and as plain data."""

from collections.abc import Iterator, Sequence
from typing import Any

from bagtag.domain.cautions import MANUAL
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.result import Result
from bagtag.domain.measuring.sheet import Decision, MeasureSheet
from bagtag.domain.measuring.shims import ShimPlan
from bagtag.domain.model import Removal
from bagtag.services.measuring import MeasureRow, SheetRow, SheetView


def rows_lines(rows: Sequence[MeasureRow]) -> Iterator[str]:
    if not rows:
        yield "Nothing is to be decided, and there is no sheet yet."
    for row in rows:
        where = f"  ({row.area})" if row.area else ""
        yield f"{_called(row.removal)}{where}"
        if not row.sheets:
            yield "  no sheet yet"
        yield from (f"  {_row_line(one)}" for one in row.sheets)
    yield MANUAL


def _called(removal: Removal | None) -> str:
    return f"{removal.number} {removal.name}" if removal else "of no part"


def _row_line(one: SheetRow) -> str:
    decided = f"; {_decided(one.sheet.decision)}" if one.sheet.decision else ""
    return f"sheet {one.sheet.id}  {_title(one.sheet)}: {one.summary}{decided}"


def _title(sheet: MeasureSheet) -> str:
    return f"{sheet.kind.value}, {sheet.title}" if sheet.title else sheet.kind.value


def _decided(made: Decision) -> str:
    said = f"decided {made.at.date().isoformat()} by {made.who}: {made.called}"
    return said + (f", {made.work}" if made.work else "") + (f" ({made.why})" if made.why else "")


def rows_data(rows: Sequence[MeasureRow]) -> list[dict[str, Any]]:
    return [
        {
            "part": _called(row.removal) if row.removal else None,
            "code": row.code,
            "area": row.area,
            "sheets": [_row_data(one) for one in row.sheets],
        }
        for row in rows
    ]


def _row_data(one: SheetRow) -> dict[str, Any]:
    return {
        "sheet": one.sheet.id,
        "kind": one.sheet.kind.value,
        "title": one.sheet.title,
        "said": one.summary,
        "verdict": one.verdict.value,
        "is_measured": one.is_measured,
        "decided": one.sheet.decision.fate.value if one.sheet.decision else None,
    }


def view_lines(view: SheetView) -> Iterator[str]:
    sheet = view.sheet
    named = f"sheet {sheet.id}, " if sheet.id else ""
    part = f" of {_called(view.removal)}" if view.removal else ""
    yield f"{named}{_title(sheet)}{part}"
    yield from (f"  {one}" for one in _places(view))
    yield from (f"  {one.said}" for one in view.results.figures)
    yield from (f"! {one}" for one in view.results.advice)
    yield from (f"? {one}" for one in view.questions)
    if sheet.decision is not None:
        yield _decided(sheet.decision)
    yield MANUAL


def _places(view: SheetView) -> Iterator[str]:
    read = {one.key: one for one in view.sheet.readings}
    for place in view.form.places:
        one = read.get(place.key)
        if one is not None:
            tool = f", {one.instrument}" if one.instrument else ""
            yield f"{place.number}  {place.key}: {show(one.value)} {one.unit}{tool}"
        else:
            yield f"{place.number}  {place.key}: {'still to read' if place.needed else '-'}"


def view_data(view: SheetView) -> dict[str, Any]:
    sheet = view.sheet
    return {
        "sheet": sheet.id or None,
        "kind": sheet.kind.value,
        "title": sheet.title,
        "part": _called(view.removal) if view.removal else None,
        "unit": sheet.unit,
        "places": [place.key for place in view.form.places],
        "figures_limited": [slot.key for slot in view.form.figures],
        "given_asked": [slot.key for slot in view.form.given],
        "readings": {one.key: f"{show(one.value)} {one.unit}".strip() for one in sheet.readings},
        "figures": [figure_data(one) for one in view.results.figures],
        "verdict": view.results.verdict.value,
        "missing": list(view.results.missing),
        "advice": list(view.results.advice),
        "questions": list(view.questions),
        "decided": _decided(sheet.decision) if sheet.decision else None,
        "cautions": [MANUAL],
    }


def figure_data(one: Result) -> dict[str, Any]:
    return {
        "figure": one.key,
        "name": one.name,
        "value": show(one.value),
        "unit": one.unit,
        "verdict": one.verdict.value,
        "margin": None if one.margin is None else show(one.margin),
        "said": one.said,
    }


def plan_data(plan: ShimPlan) -> dict[str, Any]:
    return {
        "moves": [
            {
                "valve": move.place.name,
                "from": show(move.from_shim),
                "to": show(move.to_shim),
                "clearance_after": show(move.clearance_after),
                "source": move.said,
            }
            for move in plan.moves
        ],
        "to_buy": [show(one) for one in plan.to_buy],
        "left_over": [show(one) for one in plan.left_over],
        "saved": plan.saved,
        "impossible": [place.name for place in plan.impossible],
    }


def instrument_line(one: Instrument) -> str:
    on = f", calibrated {one.calibrated_on.isoformat()}" if one.calibrated_on else ""
    return f"{one.name}: {show(one.resolution)} {one.unit}{on}"


def instrument_data(one: Instrument) -> dict[str, Any]:
    return {
        "name": one.name,
        "resolution": show(one.resolution),
        "unit": one.unit,
        "calibrated_on": one.calibrated_on.isoformat() if one.calibrated_on else None,
    }
