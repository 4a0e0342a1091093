"""The work that a sheet asks an outside shop for, out of what it advises."""

from bagtag.domain.measuring import oversize
from bagtag.domain.measuring.result import Results, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet

_NO_WORK = (
    "Largest at",
    "Alike at",
    "Widest under",
    oversize.LEAVES,
    oversize.TOO_SMALL,
    oversize.TOO_LARGE,
)
"""How a sentence begins that says where a part is worn, or asks something."""


def work_wanted(sheet: MeasureSheet, results: Results) -> str:
    """What to have done to the part, empty where it is good, not fully read, or where a sheet sets
    something up at the build."""
    is_bad = results.verdict in (Verdict.OUT, Verdict.CLOSE, Verdict.UNKNOWN)
    if not results.is_measured or not is_bad or sheet.kind.is_at_build:
        return ""
    return " ".join(one for one in results.advice if not one.startswith(_NO_WORK))
