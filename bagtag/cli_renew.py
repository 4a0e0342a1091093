"""`renew` and `orders`: new parts that jobs need, where they stand, and what is to be bought."""

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from decimal import Decimal
from operator import attrgetter
from pathlib import Path
from typing import Any

from bagtag import services
from bagtag.cli_answers import answer, warn
from bagtag.domain import codes
from bagtag.domain.money import money
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewal_import import ImportPlan
from bagtag.domain.renewal_merge import Merged, SupplierList, by_supplier
from bagtag.domain.renewal_words import NO_SUPPLIER, SUGGESTED, called
from bagtag.domain.renewals import RenewLine
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class RenewAsked:
    """A file to write the lines into, or one to read lines from; `mark` is the word for what parts
    the cells of the one that is written; `try_` reads and tells, and writes nothing."""

    out: Path | None = None
    read: Path | None = None
    mark: str = "comma"
    try_: bool = False


def say_renew(store: Store, job: str, asked: RenewAsked, who: str, as_json: bool) -> None:
    """The lines of a job; with a file to read, what it added and changed first."""
    found = services.jobs.find_job(store, job)
    plan = _read(store, found.id, asked, who) if asked.read else None
    if asked.out is not None:
        services.renewals.write_csv(store, [found.id], asked.out, asked.mark)
    lines = services.renewals.lines(store, found.id)
    data = {
        "job": {"number": found.number, "title": found.title},
        "lines": [line_data(line) for line in lines],
        "read": _plan_data(plan, asked.try_) if plan else None,
        "file": str(asked.out) if asked.out else None,
    }
    told = [] if plan is None else [_plan_words(plan, asked.try_)]
    written = [f"The list is in {asked.out}."] if asked.out else []
    answer(data, [*told, *_lines(lines), *written], as_json)


def _read(store: Store, job_id: int, asked: RenewAsked, who: str) -> ImportPlan:
    assert asked.read is not None
    read = services.renewals.read_csv(asked.read)
    plan = services.renewals.plan_import(store, job_id, read)
    if plan.does_something and not asked.try_:
        services.renewals.apply_import(store, plan, who=who)
    warn(plan.troubles)
    return plan


def _plan_words(plan: ImportPlan, is_tried: bool) -> str:
    said = f"{len(plan.new)} added, {len(plan.changed)} changed, {plan.alike} as they were"
    return f"Nothing is written yet. It would be: {said}." if is_tried else f"{said}."


def _plan_data(plan: ImportPlan, is_tried: bool) -> dict[str, Any]:
    return {
        "is_written": plan.does_something and not is_tried,
        "new": [_part_data(one) for one in plan.new],
        "changed": [_part_data(one.part) for one in plan.changed],
        "alike": plan.alike,
        "troubles": list(plan.troubles),
    }


def line_data(line: RenewLine) -> dict[str, Any]:
    return _part_data(line.new_part) | {
        "state": line.state.value,
        "said": line.said,
        "why": line.why.value,
        "because": line.because,
        "is_suggestion": line.is_suggestion,
        "is_needed": line.is_needed,
        "is_in": line.is_in,
        "for": line.before,
        "step": line.step,
        "code": codes.show(line.code) if line.code else "",
        "old_part": line.old_part,
    }


def _part_data(part: NewPart) -> dict[str, Any]:
    """A line as it is kept, without the ids of the store."""
    data = asdict(part)
    for name in ("id", "uid", "job_id", "removal_id"):
        del data[name]
    return {name: _plain(value) for name, value in data.items()}


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return str(value)
    return value.isoformat() if hasattr(value, "isoformat") else value


def _lines(lines: Sequence[RenewLine]) -> Iterator[str]:
    if not lines:
        yield "Nothing is to be renewed."
    listed = (line for line in lines if not line.is_suggestion)
    for group in by_supplier(listed, attrgetter("new_part")):
        yield group[0].new_part.supplier or NO_SUPPLIER
        yield from map(_line, group)
    suggested = [line for line in lines if line.is_suggestion]
    if suggested:
        yield SUGGESTED
        yield from (f"  {_amount(line.new_part)}: {_why(line)}" for line in suggested)


def _line(line: RenewLine) -> str:
    needed = f", for step {line.step}, {line.before}" if line.step else ""
    return "; ".join(
        filter(None, (f"  {_amount(line.new_part)}: {line.said}{needed}", line.old_part))
    )


def _amount(part: NewPart) -> str:
    return f"{part.count} × {called(part)}"


def _why(line: RenewLine) -> str:
    return ". ".join(filter(None, (line.why.value, line.because)))


@dataclass(frozen=True, slots=True)
class OrdersAsked:
    """`everything` lists what is ordered and here too; `pdf` is a file to write."""

    everything: bool = False
    pdf: Path | None = None


def say_orders(store: Store, jobs: Sequence[str], asked: OrdersAsked, as_json: bool) -> None:
    """What is to be bought for one job or several, by supplier, equal lines as one."""
    ids = [services.jobs.find_job(store, job).id for job in jobs]
    lists = services.renewals.merged(store, ids, everything=asked.everything)
    if asked.pdf is not None:
        which = services.order_sheets.Which(everything=asked.everything)
        services.order_sheets.write(store, ids, asked.pdf, which)
    data = {
        "suppliers": [_list_data(one) for one in lists],
        "file": str(asked.pdf) if asked.pdf else None,
    }
    written = [f"The list is in {asked.pdf}."] if asked.pdf else []
    answer(data, [*_list_lines(lists), *written], as_json)


def _list_data(one: SupplierList) -> dict[str, Any]:
    return {
        "supplier": one.supplier,
        "lines": [_merged_data(line) for line in one.lines],
        "total": {currency: str(total) for currency, total in one.total},
        "unpriced": one.unpriced,
    }


def _merged_data(line: Merged) -> dict[str, Any]:
    return {
        "what": line.what,
        "size": line.size,
        "part_number": line.part_number,
        "count": line.count,
        "price": _plain(line.price),
        "currency": line.currency,
        "for": list(line.for_),
    }


def _list_lines(lists: Sequence[SupplierList]) -> Iterator[str]:
    if not lists:
        yield "Nothing is to be ordered."
    for one in lists:
        yield one.supplier or NO_SUPPLIER
        yield from map(_merged_line, one.lines)
        yield from (f"  together {money(total, currency)}" for currency, total in one.total)
        if one.total and one.unpriced:
            yield f"  {one.unpriced} more without a price"


def _merged_line(line: Merged) -> str:
    number = f", part number {line.part_number}" if line.part_number else ""
    price = f", {money(line.price, line.currency)} each" if line.price is not None else ""
    for_ = f": {', '.join(line.for_)}" if line.for_ else ""
    return f"  {line.count} × {f'{line.what} {line.size}'.strip()}{number}{price}{for_}"
