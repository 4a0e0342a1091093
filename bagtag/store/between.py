"""Reading what lies between strip and build: send-outs, renewals, measuring sheets, instruments."""

from collections import defaultdict
from collections.abc import Sequence

from sqlalchemy import Connection, bindparam, func, or_, select

from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.sheet import MeasureSheet
from bagtag.domain.model import Away
from bagtag.domain.new_part import NewPart
from bagtag.domain.send_out import Document, SendOut
from bagtag.store import rows_between
from bagtag.store.removals import in_batches
from bagtag.store.tables import (
    away,
    document,
    instrument,
    measure_sheet,
    removal,
    renewal,
    send_out,
    tag,
)


def send_outs(connection: Connection, job_id: int) -> list[SendOut]:
    """The batches of a job, the first first, each with the code on its traveller."""
    codes = _codes(connection, job_id)
    wanted = select(send_out).where(send_out.c.job_id == job_id).order_by(send_out.c.id)
    found = connection.execute(wanted).mappings()
    return [rows_between.send_out(row, codes.get(row["id"], "")) for row in found]


def get_send_out(connection: Connection, send_out_id: int) -> SendOut | None:
    wanted = select(send_out).where(send_out.c.id == send_out_id)
    row = connection.execute(wanted).mappings().first()
    if row is None:
        return None
    return rows_between.send_out(row, _codes(connection, row["job_id"]).get(send_out_id, ""))


def _codes(connection: Connection, job_id: int) -> dict[int, str]:
    wanted = select(tag.c.send_out_id, tag.c.code).where(tag.c.job_id == job_id)
    found = connection.execute(wanted.where(tag.c.send_out_id.is_not(None)).order_by(tag.c.id))
    return {row.send_out_id: row.code for row in found}


def next_number(connection: Connection, job_id: int) -> int:
    """The number of the next batch of a job."""
    wanted = select(func.max(send_out.c.number)).where(send_out.c.job_id == job_id)
    return (connection.scalar(wanted) or 0) + 1


def went_with(connection: Connection, send_out_ids: Sequence[int]) -> dict[int, list[Away]]:
    """What went with each batch, in the order packed, back again or not."""
    found: dict[int, list[Away]] = defaultdict(list)
    for some in in_batches(send_out_ids):
        wanted = select(away).where(away.c.send_out_id.in_(some)).order_by(away.c.id)
        for row in connection.execute(wanted).mappings():
            found[row["send_out_id"]].append(rows_between.away(row))
    return found


def all_out(connection: Connection) -> list[tuple[int, Away]]:
    """What is away now of all jobs, each with its job's id."""
    wanted = select(away, removal.c.job_id).join(removal, removal.c.id == away.c.removal_id)
    found = connection.execute(wanted.where(away.c.back_at.is_(None)).order_by(away.c.id))
    return [(row["job_id"], rows_between.away(row)) for row in found.mappings()]


def documents(connection: Connection, send_out_id: int) -> list[Document]:
    wanted = select(document).where(document.c.send_out_id == send_out_id).order_by(document.c.id)
    return [rows_between.document(row) for row in connection.execute(wanted).mappings()]


def get_document(connection: Connection, document_id: int) -> Document | None:
    wanted = select(document).where(document.c.id == document_id)
    row = connection.execute(wanted).mappings().first()
    return rows_between.document(row) if row else None


def taken_off(connection: Connection, removal_ids: Sequence[int]) -> dict[int, list[int]]:
    """The ids of what was taken off each of these parts, in the order off."""
    found: dict[int, list[int]] = defaultdict(list)
    for some in in_batches(removal_ids):
        wanted = select(removal.c.off_id, removal.c.id).where(removal.c.off_id.in_(some))
        for off_id, id_ in connection.execute(wanted.order_by(removal.c.position)):
            found[off_id].append(id_)
    return found


def new_parts(connection: Connection, job_id: int | None = None) -> list[NewPart]:
    """The lines to order of a job, or of all jobs, in the order they were written."""
    wanted = select(renewal).order_by(renewal.c.id)
    if job_id is not None:
        wanted = wanted.where(renewal.c.job_id == job_id)
    return [rows_between.new_part(row) for row in connection.execute(wanted).mappings()]


def new_parts_of(connection: Connection, removal_id: int) -> list[NewPart]:
    wanted = select(renewal).where(renewal.c.removal_id == removal_id).order_by(renewal.c.id)
    return [rows_between.new_part(row) for row in connection.execute(wanted).mappings()]


def get_new_part(connection: Connection, renewal_id: int) -> NewPart | None:
    row = connection.execute(_NEW_PART, {"renewal_id": renewal_id}).mappings().first()
    return rows_between.new_part(row) if row else None


_NEW_PART = select(renewal).where(renewal.c.id == bindparam("renewal_id"))
"""Built once: a list that is taken in asks for many thousands, one by one."""


def sheets(connection: Connection, job_id: int) -> list[MeasureSheet]:
    """The measuring sheets of a job, the first made first."""
    wanted = select(measure_sheet).where(measure_sheet.c.job_id == job_id)
    found = connection.execute(wanted.order_by(measure_sheet.c.id)).mappings()
    return [rows_between.measure_sheet(row) for row in found]


def sheets_of(connection: Connection, removal_id: int) -> list[MeasureSheet]:
    wanted = select(measure_sheet).where(measure_sheet.c.removal_id == removal_id)
    found = connection.execute(wanted.order_by(measure_sheet.c.id)).mappings()
    return [rows_between.measure_sheet(row) for row in found]


def open_sheets(connection: Connection, job_id: int) -> list[MeasureSheet]:
    """The sheets of a job that leave their part to be decided: nothing is said on them yet, or that
    it is worked on first."""
    wanted = select(measure_sheet).where(
        measure_sheet.c.job_id == job_id,
        measure_sheet.c.removal_id.is_not(None),
        or_(measure_sheet.c.fate.is_(None), measure_sheet.c.fate == "decide"),
    )
    found = connection.execute(wanted.order_by(measure_sheet.c.id)).mappings()
    return [rows_between.measure_sheet(row) for row in found]


def get_sheet(connection: Connection, sheet_id: int) -> MeasureSheet | None:
    wanted = select(measure_sheet).where(measure_sheet.c.id == sheet_id)
    row = connection.execute(wanted).mappings().first()
    return rows_between.measure_sheet(row) if row else None


def instruments(connection: Connection) -> list[Instrument]:
    """What the bench measures with, by name."""
    wanted = select(instrument).order_by(instrument.c.id)
    found = [rows_between.instrument(row) for row in connection.execute(wanted).mappings()]
    return sorted(found, key=lambda one: one.name.casefold())


def get_instrument(connection: Connection, instrument_id: int) -> Instrument | None:
    wanted = select(instrument).where(instrument.c.id == instrument_id)
    row = connection.execute(wanted).mappings().first()
    return rows_between.instrument(row) if row else None
