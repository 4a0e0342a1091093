"""The small menu under a chip: what can be put right about it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import QPoint, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from bagtag.domain.kinds import NO_KIND, PartKind
from bagtag.domain.model import Fate
from bagtag.ui.field.chip_shown import BY_KIND, NAME, Shown
from bagtag.ui.field.chip_shown import FATE as SAID_FATE

CHANGE, KEEP, READ, KIND, FATE = "change", "keep", "read", "kind", "fate"


class Item(NamedTuple):
    """What it says, what it does, and with what."""

    text: str
    act: str
    value: str = ""


def items(
    chip: Shown, *, is_kept: bool, kind: PartKind | None, others: Sequence[PartKind], own: str
) -> list[Item]:
    """What can be done about a chip. `kind` is what the part is taken for now, `own` what the
    reader took it for, `others` what it could be."""
    found = [Item("Change the words", CHANGE)] if chip.has_words else []
    if is_kept:
        found.append(Item("Read it again", READ))
    elif chip.has_words and chip.understood and chip.what != NAME:
        found.append(Item("Keep it as words", KEEP))
    if chip.what == NAME:
        found += _kinds(kind, others, own)
    if chip.what == BY_KIND:
        found.append(Item("Refit it all the same", FATE, Fate.REFIT.value))
    if chip.what == SAID_FATE and not chip.has_words:
        found.append(Item("As its kind says", FATE))
    return found


def _kinds(kind: PartKind | None, others: Sequence[PartKind], own: str) -> list[Item]:
    now = kind.name if kind else ""
    names = dict.fromkeys([own, *(other.name for other in others)])
    found = [Item(f"Kind: {name}", KIND, name) for name in names if name and name != now]
    return [*found, Item("No kind", KIND, NO_KIND)] if kind else found


class ChipMenu(QMenu):
    """Goes away by itself; `picked` tells what was chosen in it."""

    picked = Signal(object)

    def __init__(self, shown: Sequence[Item], name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.items = tuple(shown)
        self.setAccessibleName(name)
        for place, item in enumerate(shown):
            action = QAction(item.text.replace("&", "&&"), self)
            action.setData(place)
            self.addAction(action)
        self.triggered.connect(self._triggered)
        self.aboutToHide.connect(self.deleteLater)

    def open_at(self, corner: QPoint) -> None:
        """Open under a corner of the screen, the first line chosen."""
        self.popup(corner)
        self.setActiveAction(self.actions()[0])

    def _triggered(self, action: QAction) -> None:
        self.picked.emit(self.items[action.data()])
