"""What the tests of Away share: a gearbox with two send-outs, and a part an older store sent."""

from datetime import date, timedelta

from bagtag import services
from bagtag.domain.fitting import Asked
from bagtag.domain.sending import PackForm, ShopPart, Wanted
from bagtag.store import rows, tables
from tests.ui.stages_job import GearboxJob

SHOP = "Mill Lane Engineering"
FLATNESS = Asked("flatness", "mm", None, 0.05)


def days(count: int) -> date:
    """So many days from today."""
    return date.today() + timedelta(count)


def send_cover(store, job: GearboxJob, promised: date | None = None) -> int:
    """The cover goes to be skimmed, its dowels taken out by the shop; and the main shaft."""
    cover = Wanted(
        job.parts["cover, clutch side"],
        "skim the joint face",
        (FLATNESS,),
        (job.parts["gasket, cover"],),
        (ShopPart("dowels", 2),),
    )
    shaft = Wanted(job.parts["main shaft"], "grind the seal land")
    form = PackForm(SHOP, days(-20), promised, contact="the foreman", price="180", currency="EUR")
    return services.send_outs.send(store, job.id, form, [cover, shaft], who="MK").new_id


def send_drum(store, job: GearboxJob, promised: date | None = None) -> int:
    form = PackForm("plater", days(-3), promised)
    wanted = [Wanted(job.parts["shift drum"], "hard chrome")]
    return services.send_outs.send(store, job.id, form, wanted, who="MK").new_id


def sent_before(store, job: GearboxJob, name: str = "shift fork R") -> None:
    """A part away as an older store has it, with no send-out."""

    def do(act) -> None:
        columns = {"shop": "welder", "work": "build up the pads", "sent_at": rows.now()}
        act.insert(tables.away, removal_id=job.parts[name], **columns)

    store.act("send away", do, who="MK", job_id=job.id)


def code(store, job: GearboxJob, name: str) -> str:
    return services.views.card(store, job.parts[name]).code


def batch(store, send_out_id: int):
    return services.send_outs.batch(store, send_out_id)


def called_out(store, send_out_id: int) -> list[str]:
    """The names of what is still there."""
    return [item.removal.name for item in batch(store, send_out_id).out]
