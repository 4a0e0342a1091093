"""What is said of a part before it goes in: worn, too close to call, not as a shop was to make it,
not compared yet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bagtag.domain.asked import outside
from bagtag.domain.measuring.deciding import is_measured_again
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import Decision, MeasureSheet
from bagtag.domain.measuring.text import summary
from bagtag.domain.model import Away, Fate, Replacement
from bagtag.domain.new_part import NewPart
from bagtag.domain.phrases import capital


@dataclass(frozen=True, slots=True)
class SheetSaid:
    """What a measuring sheet says of its part, in a line, and what was decided on it;
    `is_measured_again` when a later sheet has taken its place."""

    id: int
    said: str
    verdict: Verdict
    is_measured: bool
    decision: Decision | None = None
    is_measured_again: bool = False


def said_of(sheets: Sequence[MeasureSheet]) -> tuple[SheetSaid, ...]:
    """What the sheets of a part say as they stand."""
    return tuple(_said(sheet, sheets) for sheet in sheets)


def _said(sheet: MeasureSheet, others: Sequence[MeasureSheet]) -> SheetSaid:
    found, again = results(sheet), is_measured_again(sheet, others)
    return SheetSaid(
        sheet.id, summary(sheet), found.verdict, found.is_measured, sheet.decision, again
    )


def before_in(
    fate: Fate,
    replacement: Replacement,
    sheets: Sequence[SheetSaid] = (),
    new_part: NewPart | None = None,
    last_away: Away | None = None,
) -> tuple[str, ...]:
    """One sentence for each thing that speaks against a part before it goes in, or wants a look.
    `last_away` is the last time it was at a shop."""
    measured = tuple(said for sheet in sheets for said in _by_sheet(fate, sheet))
    shop = tuple(_by_shop(fate, last_away)) if last_away is not None else ()
    is_doubted = bool(measured or shop)
    return (*measured, *shop, *_by_fate(fate, replacement, new_part, is_doubted=is_doubted))


def _by_shop(fate: Fate, time: Away) -> Iterator[str]:
    """A figure that was outside its limits when the part came back, and what was said to it."""
    said = "; ".join(filter(None, map(outside, time.figures)))
    if time.back_at is None or not said or fate not in (Fate.REFIT, Fate.DECIDE):
        return
    whence = f"from {time.shop}" if time.shop else "from the shop"
    note = f" {capital(' '.join(time.back_note.split()).rstrip('.'))}." if time.back_note else ""
    what = " Decide it before it goes in." if fate is Fate.DECIDE else ""
    yield f"As it came back {whence}: {said}.{note}{what}"


def _by_fate(
    fate: Fate, replacement: Replacement, new: NewPart | None, *, is_doubted: bool
) -> Iterator[str]:
    if fate is Fate.DECIDE and not is_doubted:
        yield "It is still to be measured or inspected, and decided."
    elif fate is Fate.SCRAP:
        yield "It is scrapped: it does not go back in."
    elif fate is Fate.RENEW and replacement is not Replacement.HERE:
        yield "The old part does not go back in: a new one is to come."
    elif fate is Fate.RENEW and (new is None or new.compared_at is None):
        yield "A new part goes in here. Hold it against the old one first."


def _by_sheet(fate: Fate, sheet: SheetSaid) -> Iterator[str]:
    """A part that goes back although its sheet doubts it says by whose word."""
    if not sheet.verdict.is_doubted or sheet.is_measured_again:
        return
    decision = sheet.decision
    if decision is not None and decision.work and fate in (Fate.REFIT, Fate.DECIDE):
        work = decision.work.rstrip(".")
        yield f"{capital(sheet.said)}, before this work: {work}. Measure it again first."
    elif decision is None or decision.fate is Fate.DECIDE:
        yield f"{capital(sheet.said)}. Decide it before it goes in."
    elif fate is Fate.REFIT:
        why = f": {decision.why}" if decision.why else ""
        yield f"{capital(sheet.said)}. {decision.who} decided to refit it{why}."
    else:
        yield f"{capital(sheet.said)}."
