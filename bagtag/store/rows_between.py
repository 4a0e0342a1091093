"""Between rows of the tables and the domain's frozen rows: what lies between strip and build."""

from dataclasses import asdict, fields
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from bagtag.domain.fitting import Figure
from bagtag.domain.measuring import sheet
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.sheet import Decision, MeasureSheet, SheetKind
from bagtag.domain.model import Away, Fate
from bagtag.domain.new_part import NewPart
from bagtag.domain.send_out import BackCheck, Document, SendOut
from bagtag.store import rows
from bagtag.store.rows import Columns


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


def _decimal(text: str | None) -> Decimal | None:
    return Decimal(text) if text else None


def _plain(value: object) -> Any:
    """A date, a time or a decimal as the store keeps it; anything else as it is."""
    if isinstance(value, date | datetime):
        return value.isoformat()
    return str(value) if isinstance(value, Decimal) else value


def away(row: Columns) -> Away:
    return Away(
        id=row["id"],
        removal_id=row["removal_id"],
        shop=row["shop"],
        work=row["work"],
        sent_at=datetime.fromisoformat(row["sent_at"]),
        due=_day(row["due"]),
        back_at=rows.time_of(row["back_at"]),
        send_out_id=row["send_out_id"],
        asks=rows.asks(row["asks"]),
        figures=tuple(Figure(**item) for item in row["figures"]),
        checks=tuple(BackCheck(word) for word in row["checks"]),
        back_by=row["back_by"],
        back_note=row["back_note"],
    )


def send_out(row: Columns, code: str = "") -> SendOut:
    return SendOut(
        id=row["id"],
        uid=row["uid"],
        job_id=row["job_id"],
        number=row["number"],
        shop=row["shop"],
        out_on=date.fromisoformat(row["out_on"]),
        promised=_day(row["promised"]),
        contact=row["contact"],
        work=row["work"],
        price=_decimal(row["price"]),
        currency=row["currency"],
        note=row["note"],
        made_at=rows.time_of(row["made_at"]),
        made_by=row["made_by"],
        code=code,
    )


def document(row: Columns) -> Document:
    return Document(
        row["id"],
        row["send_out_id"],
        row["hash"],
        row["ext"],
        row["name"],
        rows.time_of(row["added_at"]),
    )


def new_part(row: Columns) -> NewPart:
    return NewPart(
        id=row["id"],
        uid=row["uid"],
        job_id=row["job_id"],
        removal_id=row["removal_id"],
        line=row["line"],
        what=row["what"],
        size=row["size"],
        part_number=row["part_number"],
        supplier=row["supplier"],
        count=row["count"],
        price=_decimal(row["price"]),
        currency=row["currency"],
        ordered_on=_day(row["ordered_on"]),
        due=_day(row["due"]),
        arrived=row["arrived"],
        arrived_on=_day(row["arrived_on"]),
        returned_on=_day(row["returned_on"]),
        returned_why=row["returned_why"],
        compared_at=rows.time_of(row["compared_at"]),
        compared_by=row["compared_by"],
        compared_note=row["compared_note"],
        note=row["note"],
    )


_NEW_PART = tuple(one.name for one in fields(NewPart) if one.name != "id")


def new_part_columns(one: NewPart) -> dict[str, Any]:
    """Every column but the id."""
    return {name: _plain(getattr(one, name)) for name in _NEW_PART}


def measure_sheet(row: Columns) -> MeasureSheet:
    data = row["data"]
    return MeasureSheet(
        id=row["id"],
        uid=row["uid"],
        job_id=row["job_id"],
        kind=SheetKind(row["kind"]),
        title=row["title"],
        removal_id=row["removal_id"],
        unit=row["unit"],
        readings=sheet.readings(data),
        limits=sheet.limits(data),
        given=sheet.given(data),
        note=row["note"],
        decision=_decision(row),
        made_at=rows.time_of(row["made_at"]),
        made_by=row["made_by"],
    )


def _decision(row: Columns) -> Decision | None:
    if row["fate"] is None:
        return None
    return Decision(
        fate=Fate(row["fate"]),
        who=row["decided_by"],
        at=datetime.fromisoformat(row["decided_at"]),
        why=row["why"],
        work=row["shop_work"],
        said=row["said"],
    )


def measure_sheet_columns(one: MeasureSheet) -> dict[str, Any]:
    """What a person may change of a sheet; its decision is a use case of its own."""
    return {
        "kind": one.kind.value,
        "title": one.title,
        "removal_id": one.removal_id,
        "unit": one.unit,
        "data": sheet.to_data(one),
        "note": one.note,
    }


def decision_columns(one: Decision | None) -> dict[str, Any]:
    if one is None:
        empty = dict.fromkeys(("decided_by", "why", "shop_work", "said"), "")
        return empty | {"fate": None, "decided_at": None}
    return {
        "fate": one.fate.value,
        "decided_at": one.at.isoformat(timespec="milliseconds"),
        "decided_by": one.who,
        "why": one.why,
        "shop_work": one.work,
        "said": one.said,
    }


def instrument(row: Columns) -> Instrument:
    return Instrument(
        name=row["name"],
        resolution=Decimal(row["resolution"]),
        unit=row["unit"],
        calibrated_on=_day(row["calibrated_on"]),
        note=row["note"],
        id=row["id"],
    )


def instrument_columns(one: Instrument) -> dict[str, Any]:
    return {name: _plain(value) for name, value in asdict(one).items() if name != "id"}
