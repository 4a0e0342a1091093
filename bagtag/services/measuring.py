"""Measuring: the sheets of a job, what they say as they stand, and what is decided on them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from operator import attrgetter

from bagtag.domain import areas as tree
from bagtag.domain.measuring import check, deciding, forms, likely, results, text
from bagtag.domain.measuring.form import SheetForm
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.instrument_check import calibration, step_in
from bagtag.domain.measuring.result import Results, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.model import Fate, Removal
from bagtag.services import kinds
from bagtag.services.measuring_acts import (
    add_sheet,
    decide,
    delete_sheet,
    drop_reading,
    get_sheet,
    save,
    take_reading,
    undecide,
)
from bagtag.store import belongings, between, jobs, removals
from bagtag.store.work import Store

__all__ = [
    "MeasureRow",
    "SheetRow",
    "SheetView",
    "add_sheet",
    "decide",
    "delete_sheet",
    "drop_reading",
    "for_stage",
    "get_sheet",
    "kinds_for",
    "reckon",
    "save",
    "step_in",
    "take_reading",
    "undecide",
    "view",
]


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A sheet in a list: `summary` is one line, what is missing or what was found."""

    sheet: MeasureSheet
    summary: str
    verdict: Verdict
    is_measured: bool


@dataclass(frozen=True, slots=True)
class MeasureRow:
    """A part with its sheets; `removal` is None for sheets that are of no part. `code` is that of
    its tag, `area` where it sat."""

    removal: Removal | None
    code: str = ""
    area: str = ""
    sheets: tuple[SheetRow, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetView:
    """One sheet whole: what it asks for, what it says, and what looks like a slip (`questions`, a
    sentence each)."""

    sheet: MeasureSheet
    removal: Removal | None
    form: SheetForm
    results: Results
    questions: tuple[str, ...] = ()


def for_stage(store: Store, job_id: int) -> tuple[MeasureRow, ...]:
    """The parts that are to be decided or have a sheet, in the order off; sheets of no part come
    last, in one row."""
    with store.read() as connection:
        sheets = between.sheets(connection, job_id)
        with_one = {sheet.removal_id for sheet in sheets}
        outlines = removals.outlines(connection, job_id)
        wanted = [o.id for o in outlines if o.fate is Fate.DECIDE or o.id in with_one]
        parts = removals.by_ids(connection, wanted)
        codes = belongings.main_codes(connection, wanted)
        places = tree.by_id(jobs.areas(connection, job_id))
    by_part = _by_part(sheets)
    of_parts = [
        MeasureRow(
            part,
            code=codes.get(part.id, ""),
            area=tree.path_text(places, part.area_id),
            sheets=by_part.get(part.id, ()),
        )
        for part in sorted(parts.values(), key=attrgetter("position"))
    ]
    alone = by_part.get(None, ())
    return (*of_parts, *([MeasureRow(None, sheets=alone)] if alone else ()))


def _by_part(sheets: Iterable[MeasureSheet]) -> Mapping[int | None, tuple[SheetRow, ...]]:
    found: dict[int | None, tuple[SheetRow, ...]] = {}
    for sheet in sheets:
        found[sheet.removal_id] = (*found.get(sheet.removal_id, ()), _row(sheet))
    return found


def _row(sheet: MeasureSheet) -> SheetRow:
    said = results.results(sheet)
    return SheetRow(sheet, text.summary(sheet), said.verdict, said.is_measured)


def view(store: Store, sheet_id: int, *, today: date | None = None) -> SheetView:
    """A sheet as it is kept. With `today`, what is to be said of the instruments it was read with
    is among its questions."""
    sheet = get_sheet(store, sheet_id)
    with store.read() as connection:
        part = removals.get(connection, sheet.removal_id) if sheet.removal_id else None
        known = between.instruments(connection) if today is not None else []
    return reckon(sheet, part, _dated(sheet, known, today))


def _dated(sheet: MeasureSheet, known: Sequence[Instrument], today: date | None) -> tuple[str, ...]:
    used = {reading.instrument for reading in sheet.readings}
    said = (calibration(one, today) for one in known if today and one.name in used)
    return tuple(filter(None, said))


def reckon(
    sheet: MeasureSheet, removal: Removal | None = None, also: Sequence[str] = ()
) -> SheetView:
    """A sheet as it stands in its fields, kept or not; nothing is read from the store. `also` are
    sentences to put behind its own questions."""
    asked = (*check.questions(sheet), deciding.read_since(sheet), *also)
    questions = tuple(filter(None, asked))
    return SheetView(sheet, removal, forms.form(sheet), results.results(sheet), questions)


def kinds_for(store: Store, removal: Removal | None) -> tuple[SheetKind, ...]:
    """Every kind of sheet, those first that a part of this kind is likely measured on."""
    known = kinds.of(store)
    return likely.in_order(known.of(removal.name, removal.kind) if removal else None)
