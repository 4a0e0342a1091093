"""Renewals: every new part that a job needs, from the day it is wanted until it is compared."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from bagtag.domain import renewal_csv, renewal_csv_read, renewal_import
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import part
from bagtag.domain.renewal_check import checked, read_price
from bagtag.domain.renewal_csv_form import mark_of
from bagtag.domain.renewal_csv_read import CsvRead, CsvRow
from bagtag.domain.renewal_import import Changed, ImportPlan
from bagtag.domain.renewal_merge import Merged, SupplierList, ToOrder, to_order
from bagtag.domain.renewal_merge import merged as merged_lines
from bagtag.domain.renewals import RenewLine, RenewRows, Why, gather
from bagtag.domain.sheets_of_parts import decided_to_renew, out_of_limits
from bagtag.services import jobs, kinds
from bagtag.services.planning import Planned, planned
from bagtag.services.renewal_acts import (
    accept,
    arrive,
    compare,
    order,
    remove,
    save,
    saved_all,
    set_state,
    wrong,
)
from bagtag.store import belongings, between, removals
from bagtag.store.act import Act
from bagtag.store.work import Store

__all__ = [
    "Changed",
    "CsvRead",
    "CsvRow",
    "ImportPlan",
    "Merged",
    "RenewLine",
    "SupplierList",
    "Why",
    "accept",
    "apply_import",
    "arrive",
    "compare",
    "lines",
    "merged",
    "order",
    "plan_import",
    "read_csv",
    "read_price",
    "remove",
    "save",
    "set_state",
    "write_csv",
    "wrong",
]


def lines(store: Store, job_id: int, *, today: date | None = None) -> tuple[RenewLine, ...]:
    """Every line of a job: what is needed first in the build first, lines of no part after those,
    suggestions last. Lateness is told as of `today`."""
    known = planned(store, job_id)
    return gather(_rows(store, job_id, known), today or date.today())


def _rows(store: Store, job_id: int, known: Planned) -> RenewRows:
    with store.read() as connection:
        log = removals.of_job(connection, job_id)
        ids = [removal.id for removal in log]
        sheets = between.sheets(connection, job_id)
        return RenewRows(
            job_id,
            log,
            written=between.new_parts(connection, job_id),
            kinds=kinds.of(store),
            places={ref.id: n for n, ref in enumerate(known.plan.order, 1) if ref == part(ref.id)},
            fitted=frozenset(ref.id for ref in known.signed if ref == part(ref.id)),
            codes=belongings.main_codes(connection, ids),
            containers={one.id: one for one in belongings.containers(connection, job_id)},
            away=known.out,
            out=out_of_limits(sheets),
            decided=decided_to_renew(sheets),
        )


def merged(
    store: Store, job_ids: Sequence[int], *, everything: bool = False
) -> tuple[SupplierList, ...]:
    """The order list of one job or several, by supplier, equal lines as one: what is not ordered
    yet, or with `everything` all that is renewed."""
    found: list[ToOrder] = []
    for job_id in dict.fromkeys(job_ids):
        job = f"job {jobs.get_job(store, job_id).number}" if len(set(job_ids)) > 1 else ""
        known = lines(store, job_id)
        found += [to_order(line, job, everything=everything) for line in known]
    return merged_lines(one for one in found if one.count)


def write_csv(store: Store, job_ids: Sequence[int], out: Path, delimiter: str = ",") -> int:
    """Write the lines of one job or several as a table, whole or not at all; returns how many.
    `delimiter` parts the cells: the sign itself, or comma, semicolon, tab."""
    from bagtag.paper import whole_file

    mark = mark_of(delimiter)
    titles = {job_id: jobs.get_job(store, job_id).title for job_id in job_ids}
    rows = [
        (line, title)
        for job_id, title in titles.items()
        for line in lines(store, job_id)
        if not line.is_suggestion
    ]
    whole_file.write(renewal_csv.write(rows, mark), out)
    return len(rows)


def read_csv(source: Path | bytes) -> CsvRead:
    """What a file, or what was pasted of one, says; BadInput for what is no table."""
    if isinstance(source, bytes):
        return renewal_csv_read.read(source)
    try:
        data = source.read_bytes()
    except OSError as wrong:
        raise BadInput(
            f"{source} cannot be read ({wrong.strerror}). Choose another file.", field="file"
        ) from wrong
    return renewal_csv_read.read(data)


def plan_import(store: Store, job_id: int, read: CsvRead) -> ImportPlan:
    """What reading a file into a job would add and change; nothing is done yet."""
    return renewal_import.plan(job_id, lines(store, job_id), read)


def apply_import(store: Store, plan: ImportPlan, *, who: str = "") -> Change:
    """Do what the plan says, in one act."""
    parts = [*plan.new, *(one.part for one in plan.changed)]
    if not parts:
        raise BadInput("Nothing in this file is new. Choose another one.", field="file")
    clean = [checked(part) for part in parts]

    def do(act: Act) -> None:
        saved_all(act, clean)

    said = f"read {len(parts)} line{'s' * (len(parts) > 1)} from a file"
    return store.act(said, do, who=who, job_id=plan.job_id)
