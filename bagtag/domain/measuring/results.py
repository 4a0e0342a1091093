"""What a sheet says as it stands."""

from functools import lru_cache

from bagtag.domain.measuring import forms
from bagtag.domain.measuring.result import Results
from bagtag.domain.measuring.sheet import MeasureSheet


@lru_cache(maxsize=512)
def results(sheet: MeasureSheet) -> Results:
    """The figures of a sheet against their limits, what is missing, and what follows. A figure is
    there as soon as every place it needs was read."""
    found: Results = forms.of(sheet.kind).results(sheet)
    return found
