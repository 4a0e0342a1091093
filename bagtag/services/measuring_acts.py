"""What a person does to a measuring sheet, each one act: made, read, written anew, decided."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from uuid import uuid4

from bagtag.domain.change import Change
from bagtag.domain.clean import NOTE_LIMIT, TEXT_LIMIT, clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.measuring import check, deciding, forms, text
from bagtag.domain.measuring.sheet import Decision, MeasureSheet, Reading, SheetKind
from bagtag.domain.model import Fate
from bagtag.store import between, removals, rows, rows_between, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


def add_sheet(
    store: Store,
    job_id: int,
    kind: SheetKind,
    removal_id: int | None = None,
    title: str = "",
    *,
    unit: str = "mm",
    who: str = "",
) -> Change:
    """An empty sheet, of a part or of none; `new_id` is its id."""
    sheet = check.checked(
        MeasureSheet(0, str(uuid4()), job_id, kind, title, removal_id=removal_id, unit=unit)
    )

    def do(act: Act) -> None:
        _check_part(act, job_id, removal_id)
        columns = rows_between.measure_sheet_columns(sheet)
        made = {"made_at": rows.now(), "made_by": act.who}
        act.insert(tables.measure_sheet, uid=sheet.uid, job_id=job_id, **made, **columns)

    return store.act(f"new sheet, {_called(sheet)}", do, who=who, job_id=job_id)


def _check_part(act: Act, job_id: int, removal_id: int | None) -> None:
    if removal_id is None:
        return
    part = removals.get(act.connection, removal_id)
    if part is None or part.job_id != job_id:
        raise BadInput("This part is not in this job. Choose it again.", field="removal_id")


def _called(sheet: MeasureSheet) -> str:
    return sheet.title or sheet.kind.value


def get_sheet(store: Store, sheet_id: int) -> MeasureSheet:
    """A sheet as it is kept; NotFound when it is gone."""
    with store.read() as connection:
        return _there(between.get_sheet(connection, sheet_id))


def _there(sheet: MeasureSheet | None) -> MeasureSheet:
    if sheet is None:
        raise NotFound("This measuring sheet is no longer in the store. Choose another one.")
    return sheet


def _kept(act: Act, sheet_id: int) -> MeasureSheet:
    return _there(between.get_sheet(act.connection, sheet_id))


def _job_and_name(store: Store, sheet_id: int) -> tuple[int, str]:
    sheet = get_sheet(store, sheet_id)
    return sheet.job_id, _called(sheet)


def save(store: Store, sheet: MeasureSheet, *, who: str = "") -> Change:
    """Write a sheet anew, found by its id: readings, limits, what is given, title, note, part. Its
    decision stays as it is."""
    clean = check.checked(sheet)

    def change(act: Act, now: MeasureSheet) -> MeasureSheet:
        _check_part(act, now.job_id, clean.removal_id)
        return clean

    return _written(store, sheet.id, f"write the sheet {_called(clean)}", change, who)


def take_reading(store: Store, sheet_id: int, reading: Reading, *, who: str = "") -> Change:
    """One reading, instead of that which its place had."""

    def change(_: Act, now: MeasureSheet) -> MeasureSheet:
        known = {place.key for place in forms.form(now).places}
        if reading.key not in known:
            raise BadInput(
                f"This sheet has no place called {reading.key}. Choose one of its places.",
                field="readings",
            )
        return check.checked(replace(now, readings=_with(now, reading)))

    name = f"read {reading.value} {reading.unit}, {reading.key}"
    return _written(store, sheet_id, name, change, who)


def _with(sheet: MeasureSheet, reading: Reading) -> tuple[Reading, ...]:
    """The readings in the order of their places, so that the same ones are kept the same."""
    by_key = {one.key: one for one in sheet.readings} | {reading.key: reading}
    order = {place.key: n for n, place in enumerate(forms.form(sheet).places)}
    return tuple(sorted(by_key.values(), key=lambda one: order.get(one.key, len(order))))


def drop_reading(store: Store, sheet_id: int, key: str, *, who: str = "") -> Change:
    """Take the reading of a place away; without one, nothing happens."""

    def change(_: Act, now: MeasureSheet) -> MeasureSheet:
        return replace(now, readings=tuple(one for one in now.readings if one.key != key))

    return _written(store, sheet_id, f"take the reading of {key} away", change, who)


def _written(
    store: Store,
    sheet_id: int,
    name: str,
    change: Callable[[Act, MeasureSheet], MeasureSheet],
    who: str,
) -> Change:
    job_id, _ = _job_and_name(store, sheet_id)

    def do(act: Act) -> None:
        sheet = change(act, _kept(act, sheet_id))
        act.update(tables.measure_sheet, sheet_id, **rows_between.measure_sheet_columns(sheet))

    return store.act(name, do, who=who, job_id=job_id)


def decide(
    store: Store, sheet_id: int, fate: Fate, *, why: str = "", work: str = "", who: str
) -> Change:
    """What becomes of the part, by name and date; its fate is set in the same act. `work` is what
    an outside shop is to do. BadInput where the sheet does not bear it out and nobody says why."""
    name = clean_text(who, limit=100)
    reason = clean_text(why, limit=TEXT_LIMIT, field="why", what="The reason")
    wanted = clean_text(work, lines=True, limit=NOTE_LIMIT, field="work", what="The work wanted")
    job_id, called = _job_and_name(store, sheet_id)

    def do(act: Act) -> None:
        sheet = _kept(act, sheet_id)
        now = datetime.now().astimezone()
        made = Decision(fate, name, now, reason, wanted, text.summary(sheet))
        deciding.check_decision(sheet, made, _others(act, sheet))
        act.update(tables.measure_sheet, sheet_id, **rows_between.decision_columns(made))
        _set_fate(act, sheet, fate)

    return store.act(f"decide on {called}: {fate.value}", do, who=name, job_id=job_id)


def _others(act: Act, sheet: MeasureSheet) -> list[MeasureSheet]:
    """The other sheets of the same part."""
    if sheet.removal_id is None:
        return []
    found = between.sheets_of(act.connection, sheet.removal_id)
    return [other for other in found if other.id != sheet.id]


def _set_fate(act: Act, sheet: MeasureSheet, fate: Fate) -> None:
    if sheet.removal_id is not None:
        act.update(tables.removal, sheet.removal_id, fate=fate.value)


def undecide(store: Store, sheet_id: int, *, who: str = "") -> Change:
    """Take a decision back: the part is to be decided again."""
    job_id, called = _job_and_name(store, sheet_id)

    def do(act: Act) -> None:
        sheet = _kept(act, sheet_id)
        if sheet.decision is None:
            raise BadInput("Nothing is decided on this sheet yet.")
        act.update(tables.measure_sheet, sheet_id, **rows_between.decision_columns(None))
        _set_fate(act, sheet, Fate.DECIDE)

    return store.act(f"take the decision on {called} back", do, who=who, job_id=job_id)


def delete_sheet(store: Store, sheet_id: int, *, who: str = "") -> Change:
    """Take a sheet away with its readings; the fate of its part stays. Undo brings it back."""
    job_id, called = _job_and_name(store, sheet_id)

    def do(act: Act) -> None:
        act.delete(tables.measure_sheet, sheet_id)

    return store.act(f"delete the sheet {called}", do, who=who, job_id=job_id)
