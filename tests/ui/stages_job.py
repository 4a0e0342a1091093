"""A walking tractor's gearbox, stripped: the job that the screens of the stages are tried on."""

import gc
import weakref
from dataclasses import dataclass, field
from pathlib import Path

from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractScrollArea, QLabel, QWidget

from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Clocking, Faces, Hand, MatchMark, Outness, Place
from bagtag.services import containers, fates, jobs, strip
from bagtag.store.work import Store

DATUM = Datum(
    "standing behind the handlebars, looking forward",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"},
)


@dataclass
class GearboxJob:
    """Ids of the job, its areas and its removals by name."""

    id: int = 0
    areas: dict[str, int] = field(default_factory=dict)
    parts: dict[str, int] = field(default_factory=dict)
    bags: dict[str, int] = field(default_factory=dict)


def gearbox(store: Store) -> GearboxJob:
    job = GearboxJob()
    form = jobs.JobForm("Walking tractor", "gearbox", owner="the allotment club", datum=DATUM)
    job.id = jobs.open_job(store, form, who="MK").new_id or 0
    case = jobs.add_area(store, job.id, "Lower case", who="MK").new_id
    inner = jobs.add_area(store, job.id, "Gearbox", parent_id=case, who="MK").new_id
    assert case
    assert inner
    job.areas = {"Lower case": case, "Gearbox": inner}
    for entry, wanted in entries(case, inner):
        extras = strip.Extras(container_wanted=wanted)
        job.parts[entry.name] = (
            strip.log_removal(store, job.id, entry, extras, who="MK").new_id or 0
        )
    jobs.set_opener(store, inner, job.parts["cover, clutch side"], who="MK")
    job.bags = {
        row.container.label: row.container.id for row in containers.list_containers(store, job.id)
    }
    shelf = containers.add_container(store, job.id, containers.ContainerKind.SHELF, "B").new_id
    tray = containers.add_container(
        store, job.id, containers.ContainerKind.TRAY, "3", parent_id=shelf
    ).new_id
    assert shelf
    assert tray
    job.bags |= {"shelf B": shelf, "tray 3": tray}
    for label in ("bag 11", "bag 12"):
        containers.edit_container(store, job.bags[label], name=label.split()[1], parent_id=tray)
    return job


def send_shaft(store: Store, job: GearboxJob) -> None:
    part = job.parts["main shaft"]
    fates.send_away(store, [part], shop="cylinder grinder", work="grind the seal land", who="MK")


def entries(case: int, inner: int) -> list[tuple[Entry, str]]:
    hex_bolt = HeldBy(6, "bolt", "M6", 30, drive="10 mm hex", torque=Torque(10))
    clutch = Faces("C", Side.RIGHT)
    return [
        (Entry("cover, clutch side", 1, case, held_by=(hex_bolt,), goes_on="sealant"), "shelf A"),
        (Entry("gasket, cover", 1, case, fate=Fate.RENEW), ""),
        (Entry("retainer plate", 1, inner, (Faces("OUT", Outness.OUTWARD),)), "bag 11"),
        (
            Entry(
                "shift drum",
                1,
                inner,
                (Clocking("detent", 3.5, seen_from=Side.RIGHT), MatchMark("two punch dots")),
                note="The detent spring is under load.",
            ),
            "tote 2",
        ),
        (
            Entry("shift fork L", 1, inner, (Hand("L", True), clutch, Place(1, 3, Side.LEFT))),
            "bag 12",
        ),
        (
            Entry(
                "shift fork R",
                1,
                inner,
                (Hand("R", True), clutch, Place(2, 3, Side.LEFT)),
                held_by=(HeldBy(1, "pin"), HeldBy(1, "shaft 14")),
                goes_on="engine oil",
                fate=Fate.DECIDE,
                condition="pads worn on one side",
            ),
            "bag 12",
        ),
        (
            Entry(
                "main shaft bearing",
                1,
                inner,
                (Faces("sealed side", Outness.OUTWARD),),
                fate=Fate.RENEW,
            ),
            "bag 9",
        ),
        (Entry("main shaft", 1, inner), ""),
        (Entry("oil jets", 4, inner, fate=Fate.RENEW, note="fragile"), "bag 9"),
        (Entry("split pins", 2, inner, fate=Fate.SCRAP), ""),
    ]


def sentence_of(widget: QWidget) -> str:
    """Every word that a screen shows now, for tests that ask whether something is said."""
    labels = [label for label in widget.findChildren(QLabel) if label.isVisibleTo(widget)]
    return "\n".join(label.text() for label in labels if label.text())


def nameless(widget: QWidget) -> list[str]:
    """Controls in sight that the keyboard reaches and a screen reader could not name."""
    controls = [
        child
        for child in widget.findChildren(QWidget)
        if child.focusPolicy() & Qt.FocusPolicy.TabFocus
        and child.isVisibleTo(widget)
        and not isinstance(child, QAbstractScrollArea)
    ]
    return [repr(child) for child in controls if not _name(child)]


def _name(widget: QWidget) -> str:
    face = QAccessible.queryAccessibleInterface(widget)
    return face.text(QAccessible.Text.Name) if face else ""


def own_settings(folder: Path) -> None:
    """Keep what a test remembers out of the person's own settings."""
    ini = QSettings.Format.NativeFormat
    QSettings.setPath(ini, QSettings.Scope.UserScope, str(folder))
    QSettings().clear()


def dies(qtbot, make) -> bool:
    """Whether a widget that `make` builds is gone once it is let go."""
    gone = weakref.ref(make())
    gc.collect()
    qtbot.waitUntil(lambda: gone() is None, timeout=2000)
    return gone() is None
