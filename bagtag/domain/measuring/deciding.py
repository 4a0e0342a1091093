"""Whether a decision on a sheet can be taken as it is, or must be given a reason."""

from collections.abc import Iterable, Sequence

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import Decision, MeasureSheet
from bagtag.domain.measuring.text import summary
from bagtag.domain.model import Fate

AGAINST = {
    Verdict.OUT: "is out of its limits",
    Verdict.CLOSE: "is too close to its limit to call",
}


def check_decision(sheet: MeasureSheet, made: Decision, others: Sequence[MeasureSheet]) -> None:
    """BadInput where a name, the work or a reason is wanted. `others` are the part's other sheets:
    one that is not decided and speaks against refitting the part needs a reason too."""
    if not made.who:
        raise BadInput("Say who decided it: a name or initials.", field="who")
    if made.fate is Fate.DECIDE and not made.work:
        raise BadInput("Say what work is wanted, or decide: refit, renew or scrap.", field="work")
    if made.why or made.work:
        return
    if not results(sheet).is_measured:
        raise BadInput(
            "This sheet is not fully read yet. Read the rest of it, or say why it is decided "
            "without.",
            field="why",
        )
    if made.fate is Fate.REFIT:
        _check_refit(sheet, others)


def _check_refit(sheet: MeasureSheet, others: Sequence[MeasureSheet]) -> None:
    against = next(filter(None, map(_against, (sheet, *_open(others)))), "")
    if against:
        raise BadInput(f"{against}. Say why it is refitted, or decide otherwise.", field="why")


def _open(others: Sequence[MeasureSheet]) -> list[MeasureSheet]:
    return [other for other in others if other.decision is None]


def _against(sheet: MeasureSheet) -> str:
    said = results(sheet)
    worst = next((one for one in said.figures if one.verdict is said.verdict), None)
    if worst is None or worst.verdict not in AGAINST:
        return ""
    return f"On the sheet {sheet.title or sheet.kind.value}, {worst.name} {AGAINST[worst.verdict]}"


def is_measured_again(sheet: MeasureSheet, others: Iterable[MeasureSheet]) -> bool:
    """Whether the work that was decided on a sheet is behind: the part was measured to the end on a
    later sheet of the same kind. `others` may have sheets of other parts, and the sheet itself."""
    made = sheet.decision
    return bool(made and made.work) and any(
        other.removal_id == sheet.removal_id
        and other.kind is sheet.kind
        and other.id > sheet.id
        and results(other).is_measured
        for other in others
    )


def read_since(sheet: MeasureSheet) -> str:
    """Whether the sheet says another thing now than when it was decided on, as a sentence."""
    if sheet.decision is None or sheet.decision.said == summary(sheet):
        return ""
    return f"It was decided when this sheet said: {sheet.decision.said}. Decide again."
