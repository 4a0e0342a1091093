"""The acts of the card: only those that make sense for the part as it stands now."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize
from PySide6.QtGui import QKeySequence, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.standing import Standing
from bagtag.ui.card.card_parts import HOLES, PASSES, TORQUE
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import TOUCH
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.views import BenchCard

FITTED, PHOTO, TAG, CORRECT = "F6", "F4", "F7", "F8"
IN_STRIP, AWAY, TWINS = "F9", "F10", "Shift+F7"
GAP = 8


class ActRow(QWidget):
    """The first acts always in sight, the others beside them or, where it is narrow, unfolded."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.acts: Sequence[Act] = ()
        self._lines = 1
        self._wanted: set[Act] = set()
        self.more = Act("More", "", self, role="quiet")
        self.more.setCheckable(True)
        self.more.toggled.connect(self._fold)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def offer(self, wanted: set[Act]) -> None:
        """Show these of the acts, the first of them first."""
        self._wanted = wanted
        self._fold()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fold()

    def sizeHint(self) -> QSize:
        return QSize(320, self._lines * (TOUCH + GAP) - GAP)

    def _fold(self) -> None:
        """Show what makes sense, as many as one line has room for, the rest when asked for."""
        wanted = [act for act in self.acts if act in self._wanted]
        narrow = _width(wanted) > self.width()
        kept = wanted
        while narrow and not self.more.isChecked() and _width([*kept, self.more]) > self.width():
            kept = kept[:-1]
        self.more.say("Less" if self.more.isChecked() else "More")
        self.more.offer(narrow)
        for act in self.acts:
            act.offer(act in self._wanted)
            act.setVisible(act in kept)
        self._place([*kept, self.more] if narrow else kept)

    def _place(self, acts: Sequence[Act]) -> None:
        """From left to right, line by line."""
        x, line = 0, 0
        for act in acts:
            wide = act.sizeHint().width()
            if x and x + wide > self.width():
                x, line = 0, line + 1
            act.setGeometry(x, line * (TOUCH + GAP), wide, TOUCH)
            x += wide + GAP
        if self._lines != line + 1:
            self._lines = line + 1
            self.updateGeometry()


class PageAct(Act):
    """An act that says the key which its page answers to."""

    def __init__(self, word: str, key: str, parent: QWidget) -> None:
        self._page_key = QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)
        super().__init__(word, "", parent)

    def say(self, word: str) -> None:
        super().say(word)
        self.setText(f"{word}\u2002{self._page_key}")
        self.setToolTip(f"{word} ({self._page_key})")


class CardActs(ActRow):
    """What can be done with a part."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.fitted = Act("Fitted", FITTED, self, role="primary")
        self.take_back = Act("Take back", FITTED, self)
        self.came_back = Act("It is back", AWAY, self, role="primary")
        self.photo = Act("Photo as fitted", PHOTO, self)
        self.tag = Act("Print tag", TAG, self)
        self.correct = Act("Correct", CORRECT, self)
        self.in_strip = Act("Show in strip", IN_STRIP, self)
        self.send_away = Act("Send away", AWAY, self)
        self.twins = Act("Twin tags", TWINS, self)
        self.why = Act("Why here", "", self)
        self.later = Act("Tighten later", "", self)
        self.asks = Act("Measure at sign-off", "", self)
        self.holes = PageAct("Hole map", HOLES, self)
        self.passes = PageAct("Passes", PASSES, self)
        self.torque = PageAct("Torque", TORQUE, self)
        self.acts = (
            *(self.fitted, self.came_back, self.take_back, self.tag, self.photo, self.correct),
            *(self.in_strip, self.send_away, self.why, self.later, self.asks, self.holes),
            *(self.passes, self.torque, self.twins),
        )
        self.offer({self.tag, self.correct, self.in_strip, self.twins})

    def show_card(self, card: "BenchCard") -> None:
        word, away = card.standing, card.away is not None
        done, scrapped = word is Standing.IN, word is Standing.SCRAPPED
        can_be_fitted = not away and word in (Standing.NEXT, Standing.WAITS, Standing.OFF)
        wanted = {self.tag, self.correct, self.in_strip, self.twins}
        wanted |= {self.fitted} if can_be_fitted else set()
        wanted |= {self.take_back, self.photo} if done else set()
        wanted |= {self.send_away} if not (away or done or scrapped) else set()
        wanted |= {self.came_back} if away else set()
        wanted |= set() if scrapped else {self.why}
        wanted |= set() if done or scrapped else {self.asks}
        wanted |= {self.later} if _can_wait(card) else set()
        wanted |= set() if scrapped else {self.holes, self.torque}
        wanted |= set() if done or scrapped else {self.passes}
        mark(self.fitted, role="plain" if card.hindrances else "primary")
        self.offer(wanted)


def _can_wait(card: "BenchCard") -> bool:
    """Whether its fasteners can be run in by hand now and get their torque later."""
    is_open = card.standing not in (Standing.IN, Standing.SCRAPPED)
    return is_open and bool(card.removal.held_by) and not card.torque_later


def _width(acts: Sequence[Act]) -> int:
    return sum(act.sizeHint().width() + GAP for act in acts) - GAP
