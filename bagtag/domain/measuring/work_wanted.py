"""The work that a sheet asks an outside shop for, out of what it advises."""

from bagtag.domain.measuring.result import Results, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet


def work_wanted(sheet: MeasureSheet, results: Results) -> str:
    """What to have done to the part, empty where it is good, not fully read, or where a sheet sets
    something up at the build."""
    may_be_bad = results.verdict.is_doubted or results.verdict is Verdict.UNKNOWN
    if not results.is_measured or not may_be_bad or sheet.kind.is_at_build:
        return ""
    return " ".join(results.work)
