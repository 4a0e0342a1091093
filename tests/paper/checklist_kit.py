"""Steps of every kind for the checklist's tests, and the checklist printed."""

import io
from dataclasses import replace
from datetime import date, datetime

from bagtag.domain.datum import Datum, Side
from bagtag.domain.fitting import Asked, Counted, Figure, TaskKind
from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque
from bagtag.domain.model import Fate, Origin
from bagtag.domain.which_way import Faces, Hand, Outness, Place
from bagtag.paper.checklist import ChecklistHeader, ChecklistStep, SignedOff, checklist_pdf
from bagtag.paper.checklist_text import ChecklistPiece

DATUM = Datum("standing behind the handlebars, looking forward", {Side.LEFT: "flywheel side"})
HEADER = ChecklistHeader(
    "Walking tractor, gearbox noisy in second", date(2026, 11, 25), "J. Example", DATUM
)
FACTS = [
    (),
    (Faces("OUT", Outness.OUTWARD),),
    (Hand("R", stamped=True), Faces("C", Side.RIGHT), Place(2, 3, Side.LEFT)),
]
HELD_BY = (HeldBy(4, "screw", "M6", 12, drive="T30", torque=Torque(10), threadlocker="medium"),)
HEAD_BOLTS = HeldBy(8, "bolt", "M10", 90, grade="10.9", torque=Torque(54))
GEARBOX = "engine > lower case > gearbox"
SPRING = "Under tension it flies: hold it back, and wear eye protection."
ANN = SignedOff("Ann", datetime(2026, 11, 24, 16, 5))
PIECES = (
    ChecklistPiece(5, "main shaft", done=True),
    ChecklistPiece(6, "synchroniser"),
    ChecklistPiece(7, "detent ball", 3, depth=1),
    ChecklistPiece(8, "detent spring", 3, depth=2),
)

EVERY_KIND = {
    "clean": ChecklistStep(1, "bearing seats", task=TaskKind.CLEAN, area=GEARBOX),
    "oil": ChecklistStep(2, "drive chain", task=TaskKind.OIL, area=GEARBOX),
    "prelube": ChecklistStep(3, "oil ways", task=TaskKind.PRELUBE, area="engine"),
    "bench build": ChecklistStep(
        4, "gear cluster", task=TaskKind.BENCH_BUILD, area=GEARBOX, pieces=PIECES
    ),
    "piece": ChecklistStep(
        6, "synchroniser", removal="31", facts=FACTS[1], datum=DATUM, within="gear cluster"
    ),
    "measure": ChecklistStep(
        9,
        "end float of the main shaft",
        task=TaskKind.END_FLOAT,
        asks=(Asked("end float", "mm", 0.05, 0.2), Asked("temperature", "°C")),
    ),
    "plastigauge": ChecklistStep(
        10, "rod bearing", task=TaskKind.PLASTIGAUGE, asks=(Asked("clearance", "mm", high=0.06),)
    ),
    "hold point": ChecklistStep(
        11,
        "forks and drum in place",
        task=TaskKind.HOLD_POINT,
        area=GEARBOX,
        not_by=("A. Birch",),
        note="Turn the shaft in every gear.",
        cautions=(SPRING,),
    ),
    "held, signed": ChecklistStep(12, "second look", task=TaskKind.HOLD_POINT, done=ANN),
    "two-stage": ChecklistStep(
        13,
        "cylinder head",
        removal="9",
        area="engine",
        facts=FACTS[1],
        datum=DATUM,
        held_by=(HEAD_BOLTS,),
        later="22 rocker posts",
        cautions=(OVERRIDE, SPRING),
    ),
    "tightening": ChecklistStep(
        23, "cylinder head", task=TaskKind.TIGHTENING, area="engine", held_by=(HEAD_BOLTS,)
    ),
    "fill oil": ChecklistStep(
        24, "gear oil", task=TaskKind.FILL_OIL, asks=(Asked("oil filled", "l", 1.1, 1.2),)
    ),
    "inspect": ChecklistStep(25, "no rag, no tool left inside", task=TaskKind.INSPECT),
    "other": ChecklistStep(26, "linkage set", task=TaskKind.OTHER, waits=("it waits for 25",)),
    "together": ChecklistStep(
        27,
        "shift drum",
        removal="38",
        held_by=(*HELD_BY, HeldBy(1, "bolt", "M8", 30, torque=Torque(25))),
        along=("36 shift fork L", "37 shift fork R"),
        origin=Origin.SHOP,
        fate=Fate.DECIDE,
    ),
    "new": ChecklistStep(28, "circlip", removal="40", origin=Origin.NEW, fate=Fate.RENEW),
    "done": ChecklistStep(
        29,
        "main bearing",
        removal="41",
        held_by=HELD_BY,
        asks=(Asked("seat depth", "mm", 1.1, 1.3), Asked("runout", "mm", high=0.05)),
        done=replace(
            ANN,
            reason="the new circlip came early",
            figures=(
                Figure("seat depth", 1.25, "mm", 1.1, 1.3),
                Figure("bore", 25.03, "mm", 25.0, 25.021),
            ),
            counts=(Counted(0, 4, 3),),
        ),
    ),
}


def printed(steps, header=HEADER, *, by_area=False):
    """The PDF and the report."""
    into = io.BytesIO()
    report = checklist_pdf(into, header, steps, by_area=by_area)
    return into.getvalue(), report


def joined(page):
    """A page's text in one line."""
    return " ".join(page.split())
