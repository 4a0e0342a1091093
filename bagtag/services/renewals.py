"""Renewals: every new part that a job needs, from the day it is wanted until it is compared."""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from bagtag.domain import renewal_csv, renewal_csv_read, renewal_import
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import part
from bagtag.domain.measuring import results, text
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.sheet import MeasureSheet
from bagtag.domain.model import Fate
from bagtag.domain.renewal_check import checked, read_price
from bagtag.domain.renewal_csv_form import DELIMITERS
from bagtag.domain.renewal_csv_read import CsvRead, CsvRow
from bagtag.domain.renewal_import import Changed, ImportPlan
from bagtag.domain.renewal_merge import Merged, SupplierList, Wanted
from bagtag.domain.renewal_merge import merged as merged_lines
from bagtag.domain.renewals import RenewLine, RenewRows, Why, gather
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
            between.new_parts(connection, job_id),
            kinds.of(store),
            {ref.id: n for n, ref in enumerate(known.plan.order, 1) if ref == part(ref.id)},
            frozenset(ref.id for ref in known.signed if ref == part(ref.id)),
            belongings.main_codes(connection, ids),
            {one.id: one for one in belongings.containers(connection, job_id)},
            known.out,
            _out(sheets),
            _decided(sheets),
        )


def _out(sheets: Sequence[MeasureSheet]) -> Mapping[int, str]:
    """What is measured out of its limits, of parts that nobody has decided."""
    return {
        sheet.removal_id: text.summary(sheet)
        for sheet in sheets
        if sheet.removal_id is not None
        and sheet.decision is None
        and results.results(sheet).verdict is Verdict.OUT
    }


def _decided(sheets: Sequence[MeasureSheet]) -> Mapping[int, str]:
    """What was said of a part when its sheet decided to renew it."""
    return {
        sheet.removal_id: sheet.decision.said or sheet.decision.why
        for sheet in sheets
        if sheet.removal_id is not None
        and sheet.decision is not None
        and sheet.decision.fate is Fate.RENEW
    }


def merged(
    store: Store, job_ids: Sequence[int], *, everything: bool = False
) -> tuple[SupplierList, ...]:
    """The order list of one job or several, by supplier, equal lines as one: what is not ordered
    yet, or with `everything` all that is renewed."""
    found: list[Wanted] = []
    for job_id in dict.fromkeys(job_ids):
        job = f"job {jobs.get_job(store, job_id).number}" if len(set(job_ids)) > 1 else ""
        found += [_wanted(line, job, everything) for line in lines(store, job_id)]
    kept = (one for one in found if one.count)
    return merged_lines(kept)


def _wanted(line: RenewLine, job: str, everything: bool) -> Wanted:
    is_listed = line.is_needed and not line.is_suggestion if everything else line.is_open
    count = line.new_part.count if everything else line.still
    place = f" (step {line.step})" if line.step else ""
    for_ = ": ".join(filter(None, (job, f"{line.before}{place}")))
    return Wanted(line, count if is_listed else 0, for_)


def write_csv(store: Store, job_ids: Sequence[int], out: Path, delimiter: str = ",") -> int:
    """Write the lines of one job or several as a table, whole or not at all; returns how many."""
    if delimiter not in DELIMITERS:
        named = ", ".join(DELIMITERS.values())
        raise BadInput(f"Cells are parted by one of these: {named}.", field="delimiter")
    from bagtag.paper import pdf

    titles = {job_id: jobs.get_job(store, job_id).title for job_id in job_ids}
    rows = [
        (line, title)
        for job_id, title in titles.items()
        for line in lines(store, job_id)
        if not line.is_suggestion
    ]
    pdf.write(renewal_csv.write(rows, delimiter), out)
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
