"""What the commands answer, as text or as JSON, on standard output; warnings on standard error."""

import json
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bagtag import cli_data, cli_joint, services
from bagtag.domain import codes
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import part
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Removal
from bagtag.domain.standing import Standing
from bagtag.services.board import Board, Step
from bagtag.services.labels import LabelOrder
from bagtag.services.views import StripRow
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Sheet:
    """The PDF to write, and the stock and printer it is for."""

    out: Path
    stock: str
    start: int
    dpi: int

    def order(self, **what: Any) -> LabelOrder:
        return LabelOrder(stock=self.stock, start=self.start, dpi=self.dpi, **what)


@dataclass(frozen=True, slots=True)
class Checklist:
    """The checklist to write: its file, if any; one area by its name; a section for each area."""

    pdf: Path | None = None
    area: str = ""
    by_area: bool = False


def answer(data: Any, lines: Iterable[str], as_json: bool) -> None:
    """One answer: the data where JSON is asked for, else the lines."""
    if as_json:
        lines = [json.dumps(data, ensure_ascii=False, indent=2)]
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    sys.stdout.flush()


def warn(sentences: Iterable[str]) -> None:
    sys.stderr.write("".join(f"{sentence}\n" for sentence in sentences))


def say_demo(store: Store, who: str, as_json: bool) -> None:
    _say_job(store, services.demo.write(store, who=who).job_id, as_json)


def say_new(store: Store, machine: str, purpose: str, who: str, as_json: bool) -> None:
    change = services.jobs.open_job(store, services.jobs.JobForm(machine, purpose), who=who)
    _say_job(store, change.job_id, as_json)


def _say_job(store: Store, job_id: int, as_json: bool) -> None:
    job = services.jobs.get_job(store, job_id)
    answer({"number": job.number, "title": job.title}, [f"{job.number}  {job.title}"], as_json)


def say_jobs(store: Store, as_json: bool) -> None:
    known = services.jobs.list_jobs(store)
    lines = [
        f"{row.number:3}  {row.title}  (off {row.off}, back {row.back}, away {row.away})"
        for row in known
    ]
    if not known and not as_json:
        warn(["There is no job yet; bagtag new MACHINE opens one."])
    answer([cli_data.job(row) for row in known], lines, as_json)


def say_log(store: Store, job: str, line: str, who: str, as_json: bool) -> None:
    job_id = services.jobs.find_job(store, job).id
    removal_id = services.tape.log_line(store, job_id, line, who=who).new_id
    assert removal_id is not None
    card = services.views.card(store, removal_id)
    removal = card.removal
    lines = [f"{called(removal)}, tag {codes.show(card.code)}"]
    joint = cli_joint.of(store, part(removal_id))
    told = (card.sentence, *cli_joint.told(joint), *cli_joint.cautions(joint))
    lines += [f"  {text}" for text in told if text]
    answer(cli_data.card(card) | cli_joint.data(joint), lines, as_json)


def called(removal: Removal) -> str:
    many = f" ({removal.quantity})" if removal.quantity > 1 else ""
    return f"{removal.number} {removal.name}{many}"


def say_labels(store: Store, job: str, sheet: Sheet, who: str, as_json: bool) -> None:
    job_id = services.jobs.find_job(store, job).id
    order = sheet.order(job_id=job_id, removal_ids=services.labels.of_job(store, job_id))
    _say_sheet(store, order, sheet, {}, as_json)
    services.labels.mark_printed(store, order, who=who)


def say_blanks(store: Store, count: int, sheet: Sheet, who: str, as_json: bool) -> None:
    _, made = services.tags.make_blank(store, count, who=who)
    shown = {"codes": [codes.show(code) for code in made]}
    try:
        _say_sheet(store, sheet.order(codes=tuple(made)), sheet, shown, as_json)
    except Trouble:
        services.history.undo(store, 0, who=who)  # tags that were never printed are not to be
        raise


def _say_sheet(
    store: Store, order: LabelOrder, sheet: Sheet, more: dict[str, Any], as_json: bool
) -> None:
    report = services.labels.write(store, order, sheet.out)
    warn(report.warnings)
    data = {"file": str(sheet.out), "pages": report.pages, "labels": report.labels}
    lines = [f"{sheet.out}: {_count(report.labels, 'label')} on {_count(report.pages, 'page')}"]
    answer(data | {"warnings": list(report.warnings)} | more, lines, as_json)


def _count(number: int, what: str) -> str:
    return f"{number} {what if number == 1 else _SEVERAL.get(what, what + 's')}"


def say_build(store: Store, job: str, sheet: Checklist, as_json: bool) -> None:
    found = services.jobs.find_job(store, job)
    plan = services.board.board(store, found.id)
    pdf = sheet.pdf
    area = services.jobs.find_area(store, found.id, sheet.area) if sheet.area else None
    if pdf is not None:
        span = services.checklists.Span(area.id if area else None, sheet.by_area)
        warn(services.checklists.write(store, found.id, pdf, span).warnings)
    ids = [step.ref.id for step in plan.steps if step.removal_id is not None]
    rows = {row.removal.id: row for row in services.views.strip_rows(store, found.id, ids)}
    data = {
        "job": {"number": found.number, "title": found.title},
        "done": plan.done,
        "steps": [_step_data(step, rows.get(step.removal_id or 0)) for step in plan.steps],
        "no_order": plan.no_order.sentence if plan.no_order else None,
        "frees": [cli_data.freed(one) for one in plan.frees],
        "file": str(pdf) if pdf else None,
        "caution": OVERRIDE,
    }
    answer(data, _build_lines(plan, rows, pdf), as_json)


def _step_data(step: Step, row: StripRow | None) -> dict[str, Any]:
    return cli_data.step(step, row.removal if row else None, row.code if row else "")


def _build_lines(plan: Board, rows: Mapping[int, StripRow], pdf: Path | None) -> Iterable[str]:
    if plan.no_order is not None:
        yield f"Not every rule can hold: {plan.no_order.sentence}"
    for step in plan.steps:
        row = rows.get(step.removal_id or 0)
        box = "[x]" if step.standing is Standing.IN else "[ ]"
        way = f": {row.short}" if row and row.short else ""
        yield f"{step.place:4} {box} {called(row.removal) if row else step.called}{way}"
        if step.hindrances:
            yield f"         waits: {'; '.join(h.sentence for h in step.hindrances)}"
    for freed in plan.frees[:3]:
        steps = "step waits" if freed.all == 1 else "steps wait"
        yield f"{freed.called}: {freed.why}; {freed.all} {steps} for it, {freed.alone} alone."
    yield f"{plan.done} of {len(plan.steps)} fitted. {OVERRIDE}"
    if pdf is not None:
        yield f"The checklist is in {pdf}."


_KINDS = {
    "sign_off": "sign-off",
    "away": "part sent away",
    "send_out": "send-out",
    "rule_member": "step in a rule",
    "hole_map": "hole map",
    "pass_tick": "ticked pass",
    "wrench": "torque wrench",
    "tool_out": "tool laid out",
    "renewal": "new part",
    "measure_sheet": "measuring sheet",
    "journal": "act",
}
_SEVERAL = {
    "part sent away": "parts sent away",
    "step in a rule": "steps in rules",
    "ticked pass": "ticked passes",
    "torque wrench": "torque wrenches",
    "tool laid out": "tools laid out",
}


def say_check(store: Store, as_json: bool) -> bool:
    report = services.check.check(store)
    data = {
        "sound": report.sound,
        "findings": list(report.findings),
        "counted": dict(report.counted),
    }
    known = ", ".join(_count(n, _KINDS.get(kind, kind)) for kind, n in report.counted.items())
    lines = [*report.findings, "The store is whole." if report.sound else "The store is not whole."]
    answer(data, [*lines, *([f"Looked at {known}."] if known else [])], as_json)
    return report.sound
