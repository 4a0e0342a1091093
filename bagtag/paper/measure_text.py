"""What a measuring page says beside its drawing: plain words and cells, no PDF."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import GivenSlot, Place, SheetForm, by_column
from bagtag.domain.measuring.result import Results
from bagtag.domain.measuring.sheet import Limits, MeasureSheet, Reading
from bagtag.domain.measuring.verdict import span_said
from bagtag.domain.model import Removal
from bagtag.domain.phrases import capital
from bagtag.domain.shapes import Picture


@dataclass(frozen=True, slots=True)
class MeasurePage:
    """A sheet with all that its page shows; `code` is that of its part's tag."""

    sheet: MeasureSheet
    form: SheetForm
    results: Results
    drawing: Picture
    printed: date
    job: str
    owner: str = ""
    removal: Removal | None = None
    code: str = ""
    questions: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        return capital(self.sheet.title or self.sheet.kind.value)

    @property
    def read(self) -> dict[str, Reading]:
        return {reading.key: reading for reading in self.sheet.readings}


def about(page: MeasurePage) -> str:
    """`Bore, of 12 cylinder barrel`"""
    kind = "" if page.title == capital(page.sheet.kind.value) else page.sheet.kind.value
    part = f"{page.removal.number} {page.removal.name}" if page.removal else ""
    return capital(", of ".join(word for word in (kind, part) if word))


def heads(places: Sequence[Place]) -> list[str]:
    """The columns of the table of readings, in the order they first come."""
    return list(by_column(places))


def unit_of(place: Place, page: MeasurePage) -> str:
    return place.unit or page.sheet.unit


def figure(value: Reading, unit: str) -> str:
    """A reading as it was taken; its unit only where it is another than the cell's."""
    return show(value.value) if value.unit == unit else f"{show(value.value)} {value.unit}"


def instruments(page: MeasurePage) -> str:
    """`Read with: inside micrometer (0.01 mm).`"""
    said = dict.fromkeys(_instrument(one) for one in page.sheet.readings if one.instrument)
    return f"Read with: {'; '.join(said)}." if said else ""


def _instrument(one: Reading) -> str:
    step = f" ({show(one.resolution)} {one.unit})" if one.resolution is not None else ""
    return f"{one.instrument}{step}"


def temperatures(page: MeasurePage) -> str:
    said = dict.fromkeys(
        f"{show(one.temperature)} °C" for one in page.sheet.readings if one.temperature is not None
    )
    return f"Read at {', '.join(said)}." if said else ""


def span(limits: Limits | None, *, new: bool) -> str:
    """`76.00 to 76.02`, `at most 76.10`, `at least 0.05`, or nothing: as new, or worn."""
    if limits is None:
        return ""
    ends = (limits.new_low, limits.new_high) if new else (limits.wear_low, limits.wear_high)
    said = span_said(*ends)
    return f"{said} {limits.unit}".strip() if said else ""


def given(page: MeasurePage, slot: GivenSlot) -> str:
    """What is given for it, several with commas between; nothing where none is."""
    own = slot.unit or ("" if slot.is_number else page.sheet.unit)
    known = [one for one in page.sheet.given if one.key == slot.key]
    return ", ".join(f"{show(one.value)} {one.unit or own}".strip() for one in known)
