"""The drawing of what L, A and the angle are, with the figures that are filled in."""

from PySide6.QtCore import QEvent, QSize
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.adapter_picture import ASPECT, draw
from bagtag.domain.hardware import Adapter
from bagtag.domain.torque import Length
from bagtag.ui.forms.inks import inks_of
from bagtag.ui.picture import PictureWidget

_WIDEST = 450


class LeverPicture(PictureWidget):
    """Without an adapter it shows what would be measured."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Lengths of wrench and adapter")
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setMaximumWidth(_WIDEST)
        self.set_inks(*inks_of(self))

    def show_lever(self, grip: Length | None, adapter: Adapter | None) -> None:
        self.set_picture(draw(grip, adapter))
        long = f"it is {grip}" if grip is not None else "it is not known"
        self.set_sentence(
            f"From the middle of the grip to the square {long}; {adapter or 'no adapter'}."
        )

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.set_inks(*inks_of(self))

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return round(min(width, _WIDEST) / ASPECT)

    def sizeHint(self) -> QSize:
        return QSize(420, self.heightForWidth(420))

    def minimumSizeHint(self) -> QSize:
        return QSize(240, 90)
