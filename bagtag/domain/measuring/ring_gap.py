"""Ring end gaps: each ring alone, squared up in its bore.

Usual least gap: 0.004 per unit of bore where the maker gives none; a ring's gap grows by pi times
what its bore grows by (sources in tests/check_values/measuring.json).
"""

from decimal import Decimal

from bagtag.domain.measuring import verdict
from bagtag.domain.measuring.amounts import count, given, given_one, limits, missing, taken
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm
from bagtag.domain.measuring.result import Result, Results, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.volumes import PI

USUAL_FACTOR = Decimal("0.004")
MOST_RINGS = 8
_FIRST = 3
"""As many rings as most pistons have."""
_EVERY = FigureSlot("gap", "gap of every ring", low=True)


def usual_least(bore: Decimal, factor: Decimal = USUAL_FACTOR) -> Decimal:
    """The least gap for a bore, in its unit, by so much per unit of bore."""
    return bore * factor


def growth(bore: Decimal) -> Decimal:
    """How much a ring's gap opens where its bore is larger by `bore`."""
    return bore * PI


def form(sheet: MeasureSheet) -> SheetForm:
    rings = range(1, count(sheet, "rings", _FIRST, MOST_RINGS) + 1)
    return SheetForm(
        SheetKind.RING_GAP,
        tuple(Place(_key(ring), f"ring {ring}", number=ring) for ring in rings),
        (_EVERY, *(_slot(ring) for ring in rings)),
        (
            GivenSlot("rings", "number of rings", is_number=True),
            GivenSlot("bore", "bore"),
            GivenSlot("standard", "bore the rings are made for"),
            GivenSlot(
                "factor",
                "least gap per unit of bore, ring by ring (usual 0.004)",
                several=True,
                is_number=True,
            ),
        ),
        "Push each ring square into its own bore with the piston, where the bore is least worn, "
        "and read the gap with a feeler gauge. Number the rings from the top.",
    )


def _key(ring: int) -> str:
    return f"ring {ring}"


def _slot(ring: int) -> FigureSlot:
    return FigureSlot(f"gap {ring}", f"gap of ring {ring}", low=True)


def results(sheet: MeasureSheet) -> Results:
    asked, read = form(sheet), taken(sheet)
    rings = range(1, len(asked.places) + 1)
    figures = {ring: _figure(sheet, ring) for ring in rings if _key(ring) in read}
    told = [_advice(sheet, ring, figure) for ring, figure in figures.items()]
    said = tuple(one for one in (*told, _worn_bore(sheet)) if one)
    return Results(tuple(figures.values()), missing(asked, sheet), said, said)


def _figure(sheet: MeasureSheet, ring: int) -> Result:
    one, slot = taken(sheet)[_key(ring)], _slot(ring)
    held = limits(sheet, slot.key, _EVERY.key)
    return verdict.result(slot, one.value, sheet.unit, one.step, held)


def _advice(sheet: MeasureSheet, ring: int, figure: Result) -> str:
    if figure.limits is None:
        return _by_bore(sheet, ring, figure)
    if figure.verdict is not Verdict.OUT:
        return ""
    held = verdict.in_unit(figure.limits, figure.unit)
    least = verdict.low(held)
    if least is not None and figure.value < least:
        return _file(ring, least - figure.value, least, figure.unit)
    return (
        f"Ring {ring}: try a new ring in this bore; where the gap of a new one is too wide as "
        "well, the bore is worn."
    )


def _by_bore(sheet: MeasureSheet, ring: int, figure: Result) -> str:
    """What is usual, where no limits are given but the bore is."""
    least = usual_of(sheet, ring)
    if least is None or figure.value >= least:
        return ""
    usual = f"{show(_factor(sheet, ring))} of the bore is usual. "
    return usual + _file(ring, least - figure.value, least, figure.unit)


def usual_of(sheet: MeasureSheet, ring: int) -> Decimal | None:
    """The usual least gap of a ring, in the sheet's unit; None where the bore is not given."""
    bore = given_one(sheet, "bore", sheet.unit)
    return None if bore is None else usual_least(bore, _factor(sheet, ring))


def _factor(sheet: MeasureSheet, ring: int) -> Decimal:
    factors = given(sheet, "factor")
    return factors[min(ring, len(factors)) - 1] if factors else USUAL_FACTOR


def _file(ring: int, by: Decimal, least: Decimal, unit: str) -> str:
    return (
        f"Ring {ring}: file its ends square and a little at a time, by {show(by)} {unit}, to "
        f"{show(least)} {unit} at least, and take the burrs off."
    )


def _worn_bore(sheet: MeasureSheet) -> str:
    """How much of the gaps is the bore's wear and stays with a new ring."""
    bore, standard = (given_one(sheet, key, sheet.unit) for key in ("bore", "standard"))
    if bore is None or standard is None or bore <= standard:
        return ""
    wide = round(growth(bore - standard), 3 if sheet.unit == "mm" else 4)
    return (
        f"The bore is {show(bore - standard)} {sheet.unit} larger than the rings are made for: "
        f"{show(wide)} {sheet.unit} of each gap is the bore's and stays with new rings."
    )
