"""What looks like a slip on a measuring sheet, a sentence each; nothing here refuses anything."""

from bagtag.domain.measuring import check_limits, check_made, check_slips, check_taking
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import MeasureSheet


def questions(sheet: MeasureSheet) -> tuple[str, ...]:
    """What is to be asked of the sheet as it stands."""
    figures = results(sheet).figures
    return (
        *check_slips.questions(sheet),
        *check_made.questions(sheet, figures),
        *check_limits.questions(sheet, figures),
        *check_taking.questions(sheet, figures),
    )
