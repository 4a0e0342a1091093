"""What the tests of the labels print: labels of every kind, and each one's own picture."""

import io
import random

from bagtag.domain.codes import draw
from bagtag.domain.datum import Datum, Side
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate, TagRole
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    Seat,
    SeatKind,
)
from bagtag.paper import stock as label_stock
from bagtag.paper.labels import LabelText, label_pdf

STOCKS = list(label_stock.stocks())
DATUM = Datum(
    "standing behind the handlebars, looking forward",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"},
)
NAMES = [
    "Shift fork",
    "Main bearing, clutch side",
    "Oil jet",
    "Вилка переключения",
    "Άξονας κιβωτίου ταχυτήτων",
    "Washer <b>thin</b> & spring",
    "Kolbenringspannband mit Überlänge" * 3,
    "x",
]
FACTS = [
    (),
    (Hand("R", stamped=True), Faces("C", Side.RIGHT), Place(2, 3, Side.LEFT)),
    (Faces("OUT", Outness.OUTWARD),),
    (Clocking("gap", 4.0, seen_from=Side.TOP), Faces("dot", Side.TOP)),
    (Seat(SeatKind.BELOW, 1.2), MatchMark("two punch dots", "case half")),
    (Faces("sealed side", OtherPart("second gear")), Hand("L")),
]
HELD_BY = (HeldBy(4, "screw", "M6", 12, drive="T30", torque=Torque(10), threadlocker="medium"),)
JOB = "Walking tractor, gearbox noisy in second"


ROLES = [role for role in TagRole if role is not TagRole.SEND_OUT]
"""The code of a send-out stands on its traveller, never on a label."""


def some_labels(count, seed):
    """Labels of every role and with every kind of name, each with its own code."""
    some = random.Random(seed)
    return [
        LabelText(
            code=draw(some.choice),
            role=some.choice(ROLES),
            number=str(some.randint(1, 999)),
            name=some.choice(NAMES),
            quantity=some.choice([1, 1, 12]),
            job=JOB,
            area="engine > lower case > gearbox",
            facts=some.choice(FACTS),
            datum=DATUM,
            fate=some.choice(list(Fate)),
            held_by=some.choice([(), HELD_BY]),
            twin_code=draw(some.choice),
            lines=("in bag 12",),
        )
        for _ in range(count)
    ]


def a_label(**fields):
    return LabelText(
        **{"code": "MF324G", "number": "28", "name": "Shift fork", "job": JOB, **fields}
    )


def printed(labels, stock, **how):
    into = io.BytesIO()
    report = label_pdf(into, labels, label_stock.find(stock), **how)
    return into.getvalue(), report


def crops(pages, stock, count, dpi, start=1):
    """Each label's own picture, cut out of its page."""
    stock = label_stock.find(stock)
    wide, high = (round(mm / 25.4 * dpi) for mm in (stock.label_width, stock.label_height))
    for cell in label_stock.cells(stock, count, start=start):
        x, y = round(cell.x / 25.4 * dpi), round(cell.y / 25.4 * dpi)
        yield pages[cell.page][y : y + high, x : x + wide]
