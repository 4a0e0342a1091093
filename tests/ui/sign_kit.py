"""Parts that sign-off asks something of, and ways to fill it in."""

from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import Asked, Ref, part
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.services.strip import Extras

END_FLOAT = Asked("end float", "mm", 0.05, 0.20)
BOLTS = HeldBy(6, "bolt", "M6", 30, torque=Torque(10))


def log(store, job, name: str, *held: HeldBy, asks: tuple[Asked, ...] = ()) -> Ref:
    """One more part, the last off and so the first to go in."""
    entry = Entry(name, held_by=held)
    removal_id = services.strip.log_removal(store, job.id, entry, Extras(), who="MK").new_id
    if asks:
        services.tasks.ask_at_sign_off(store, removal_id, asks, who="MK")
    return part(removal_id)


def signed(store, job, ref: Ref):
    """The sign-off of a step, None while it is open."""
    return services.board.board(store, job.id).step(ref).sign_off


def open_panel(card, desk, settle, ref: Ref):
    """Press F6 for a part on the card; the panel that is asked in."""
    card.show_removal(ref.id)
    settle(desk)
    card.acts.fitted.click()
    settle(desk)
    return card.signing


def enter(qtbot, line, text: str = "") -> None:
    """Type something and press Enter there."""
    if text:
        line.setFocus()
        line.clear()
        qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)
