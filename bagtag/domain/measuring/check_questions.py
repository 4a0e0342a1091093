"""What looks like a slip on a measuring sheet, a sentence each; nothing here refuses anything."""

from bagtag.domain.measuring import check_limits, check_slips, check_taking
from bagtag.domain.measuring.sheet import MeasureSheet


def questions(sheet: MeasureSheet) -> tuple[str, ...]:
    """What is to be asked of the sheet as it stands."""
    return (
        *check_slips.questions(sheet),
        *check_limits.questions(sheet),
        *check_taking.questions(sheet),
    )
