"""A gearbox with something to buy: bought of two suppliers, on its way, late, here, wrong."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Fate
from bagtag.domain.new_part import NewPart
from bagtag.ui.renew.renew_lines import Heading
from tests.ui.forms_kit import CONTROL, press, write
from tests.ui.stages_job import GearboxJob

TODAY = date.today()
HOUSE = "bearing house"


def line_of(store, job: GearboxJob, name: str):
    """The line of this name, as the list has it."""
    return next(one for one in services.renewals.lines(store, job.id) if one.new_part.what == name)


def say(store, job: GearboxJob, name: str, **more) -> None:
    services.renewals.save(store, replace(line_of(store, job, name).new_part, **more))


def furnish(store, job: GearboxJob) -> None:
    """Give prices and suppliers, order what one supplier has, and let some of it arrive."""
    renew = services.renewals
    seal = Entry("oil seal, main shaft", 1, job.areas["Lower case"], size="25x42x7")
    lock = HeldBy(4, "nut", "M8", grade="8", one_time=True)
    plate = Entry("thrust plate", 1, job.areas["Gearbox"], held_by=(lock,))
    for entry in (seal, plate, Entry("circlip", 2, job.areas["Gearbox"], fate=Fate.RENEW)):
        job.parts[entry.name] = services.strip.log_removal(store, job.id, entry).new_id
    say(store, job, "main shaft bearing", supplier=HOUSE, size="6204", price=Decimal("8.90"),
        currency="EUR")  # fmt: skip
    say(store, job, "circlip", supplier=HOUSE, price=Decimal("0.45"), currency="EUR")
    say(store, job, "oil jets", supplier="agricultural parts counter", part_number="4 409 117",
        price=Decimal("4.20"), currency="EUR")  # fmt: skip
    ordered = line_of(store, job, "oil jets").new_part
    due = TODAY - timedelta(days=3)
    renew.order(store, [ordered], TODAY - timedelta(days=20), due)
    say(store, job, "gasket, cover", supplier="agricultural parts counter")
    gasket = line_of(store, job, "gasket, cover").new_part
    renew.order(store, [gasket], TODAY - timedelta(days=9))
    renew.arrive(store, line_of(store, job, "gasket, cover").new_part, 1, TODAY)
    oil = NewPart(0, "", job.id, what="sealant, flange", size="60 ml", supplier="")
    renew.save(store, oil)


def headings(stage) -> list[tuple[str, str]]:
    return [(h.title, h.said) for h in stage.list.rows.lines if isinstance(h, Heading)]


def kept(store, job, name: str):
    return line_of(store, job, name).new_part


def retype(text: str) -> None:
    press(Qt.Key.Key_A, CONTROL)
    write(text)
