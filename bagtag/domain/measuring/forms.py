"""What each kind of sheet asks for."""

from types import ModuleType

from bagtag.domain.measuring import (
    bore,
    clearance,
    compression,
    deck,
    flatness,
    journal,
    plain,
    ring_gap,
    spring,
    stack,
    valves,
)
from bagtag.domain.measuring.form import SheetForm
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind


def form(sheet: MeasureSheet) -> SheetForm:
    """The places, figures and givens of this sheet; how many places there are may hang on what is
    given (a number of rings)."""
    asked: SheetForm = of(sheet.kind).form(sheet)
    return asked


def of(kind: SheetKind) -> ModuleType:
    """The module of a kind: its `form(sheet)` and `results(sheet)`."""
    return _MODULES[kind]


_MODULES: dict[SheetKind, ModuleType] = {
    SheetKind.SIZE: plain,
    SheetKind.BORE: bore,
    SheetKind.JOURNAL: journal,
    SheetKind.BEARING: clearance,
    SheetKind.PLASTIC_GAUGE: clearance,
    SheetKind.PISTON: clearance,
    SheetKind.RING_GAP: ring_gap,
    SheetKind.END_FLOAT: plain,
    SheetKind.BACKLASH: plain,
    SheetKind.RUN_OUT: plain,
    SheetKind.FLATNESS: flatness,
    SheetKind.SPRING: spring,
    SheetKind.VALVES: valves,
    SheetKind.STACK: stack,
    SheetKind.DECK: deck,
    SheetKind.COMPRESSION: compression,
}
