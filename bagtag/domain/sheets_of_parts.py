"""What the measuring sheets of a job say of its parts: to the plan, to the list of new parts."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime

from bagtag.domain.measuring.deciding import is_measured_again
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import MeasureSheet
from bagtag.domain.measuring.text import summary
from bagtag.domain.model import Fate
from bagtag.domain.standing import OpenSheet


def open_by_part(
    sheets: Sequence[MeasureSheet], back: Mapping[int, datetime]
) -> dict[int, tuple[OpenSheet, ...]]:
    """The sheets that are still to be decided, by their part, without those whose part was measured
    again since; `back` has when parts were last back from a shop."""
    found: dict[int, tuple[OpenSheet, ...]] = {}
    for of, sheet in _of_a_part(sheets):
        if not is_measured_again(sheet, sheets):
            found[of] = (*found.get(of, ()), _open(sheet, back.get(of)))
    return found


def _open(sheet: MeasureSheet, back_at: datetime | None) -> OpenSheet:
    """What is measured when parts are in already holds one back only where it is out of limits."""
    found, made = results(sheet), sheet.decision
    holds = not sheet.kind.is_at_build or found.verdict is Verdict.OUT
    if made is None:
        return OpenSheet(summary(sheet), found.is_measured, holds)
    is_worked = back_at is not None and back_at > made.at
    return OpenSheet(summary(sheet), found.is_measured, holds, made.work.rstrip("."), is_worked)


def out_of_limits(sheets: Iterable[MeasureSheet]) -> dict[int, str]:
    """What was measured out of its limits, by part, of those that nobody has decided."""
    return {
        of: summary(sheet)
        for of, sheet in _of_a_part(sheets)
        if sheet.decision is None and results(sheet).verdict is Verdict.OUT
    }


def decided_to_renew(sheets: Iterable[MeasureSheet]) -> dict[int, str]:
    """What was said of each part when its sheet decided to renew it."""
    return {
        of: sheet.decision.said or sheet.decision.why
        for of, sheet in _of_a_part(sheets)
        if sheet.decision is not None and sheet.decision.fate is Fate.RENEW
    }


def _of_a_part(sheets: Iterable[MeasureSheet]) -> Iterator[tuple[int, MeasureSheet]]:
    return ((sheet.removal_id, sheet) for sheet in sheets if sheet.removal_id is not None)
