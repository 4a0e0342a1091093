"""Chips: what was understood of a line, each in its own rounded box, to be corrected where wrong.

The line leads in by a key; Left and Right walk, Enter opens the menu of a chip, Escape leads back.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui import fonts, theme
from bagtag.ui.field.chip_button import PAD, TEXT, ChipButton
from bagtag.ui.field.chip_layout import GAP, Laid, lay
from bagtag.ui.field.chip_shown import Shown

_KEYS = Qt.Key
_STEPS = {_KEYS.Key_Left: -1, _KEYS.Key_Right: 1, _KEYS.Key_Home: -999, _KEYS.Key_End: 999}
_OPEN = {_KEYS.Key_Return, _KEYS.Key_Enter, _KEYS.Key_Space, _KEYS.Key_Down}
_BACK = {_KEYS.Key_Escape, _KEYS.Key_Up}
_NO_TEXT = (
    Qt.KeyboardModifier.ControlModifier
    | Qt.KeyboardModifier.AltModifier
    | Qt.KeyboardModifier.MetaModifier
)
SAID_SHARE = 0.62
"""How much of the row a sentence may take while there are chips before it."""


class ChipRow(QWidget):
    """One row of chips and, behind them, what else there is to know or to do.

    A chip in outline stands for words that were only kept, or for what the kind says unasked.
    """

    opened = Signal(int)
    """The menu of a chip is wanted: its place in the row."""
    left = Signal()
    typed = Signal(str)
    """A letter was typed here: it belongs into the line."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.chips: tuple[Shown, ...] = ()
        self.tails: tuple[str, ...] = ()
        self.said = ""
        self.sentence = ""
        self._pool: list[ChipButton] = []
        self._laid = Laid()
        self._reach = 0
        self._begin = float(PAD)
        self._font = fonts.font(TEXT)
        self._metrics = QFontMetricsF(self._font)
        self.setFixedHeight(theme.TOUCH)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    # What is shown

    def show_chips(
        self, chips: Sequence[Shown], tails: Sequence[str] = (), said: str = "", reach: int = -1
    ) -> None:
        """`tails` are words on what there is to do, the first of them wanted most; a sentence
        `said` stands in their place. The chip `reach` is in sight, by default the last."""
        reach = reach if reach >= 0 else max(len(chips) - 1, 0)
        fresh = (tuple(chips), tuple(tails), said, "", reach)
        if fresh == (self.chips, self.tails, self.said, self.sentence, self._reach):
            return
        self.chips, self.tails, self.said, self.sentence, self._reach = fresh
        walked = self.walked
        self.setAccessibleDescription(
            ", ".join([*(c.spoken for c in chips), *filter(None, [said])])
        )
        for place, shown in enumerate(self.chips):
            self._button(place).show_chip(shown)
        if walked >= 0 and self.chips:
            self._reach = min(walked, len(self.chips) - 1)
        self._lay()
        if walked >= 0:
            self._keep_focus()

    def show_sentence(self, sentence: str) -> None:
        """What is wrong, in place of the chips."""
        self.show_chips(())
        self.sentence = sentence
        self.setAccessibleDescription(sentence)
        self.update()

    @property
    def tail(self) -> str:
        return "   ".join(self.tails)

    @property
    def walked(self) -> int:
        """The chip that has the keys; -1 for none."""
        focus = self.focusWidget()
        if not isinstance(focus, ChipButton) or not focus.hasFocus():
            return -1
        return self._pool.index(focus)

    def in_sight(self) -> tuple[Shown, ...]:
        return self.chips[self._laid.first : self._laid.end]

    def _button(self, place: int) -> ChipButton:
        while len(self._pool) <= place:
            made = ChipButton(self)
            made.clicked.connect(self._clicked)
            self._pool.append(made)
        return self._pool[place]

    def _lay(self) -> None:
        before, was_behind = self._laid.first, self._begin
        shown = self._pool[: len(self.chips)]
        wide, short = [b.wide for b in shown], [b.short for b in shown]
        self._laid = lay(wide, short, self._room(sum(short)), self._reach)
        at, walked = PAD + self._laid.left, self.walked
        for place, button in enumerate(self._pool):
            if self._laid.first <= place < self._laid.end:
                button.place(at, worded=self._laid.worded)
                at += button.width() + GAP
            elif place != walked or place >= len(self.chips):
                button.put_away()
        self._begin = self._begin_of()
        # Chips that stay as they are need no new paint: only what stands behind them does.
        left = 0 if self._laid.first or before or not self.chips else min(was_behind, self._begin)
        self.update(round(left), 0, self.width(), self.height())

    def _room(self, wanted: float) -> float:
        """What the words behind the chips leave them."""
        room = self.width() - 2 * PAD
        if self.said:
            said = self._metrics.horizontalAdvance(self.said) + PAD
            return room - min(said, max(room - wanted - GAP * len(self.chips), SAID_SHARE * room))
        return room - (self._metrics.horizontalAdvance(self.tails[0]) + PAD if self.tails else 0)

    # What is painted beside the chips

    def paintEvent(self, _: QPaintEvent) -> None:
        if not (self.chips or self.tails or self.said or self.sentence):
            return
        painter, colours = QPainter(self), theme.current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.sentence:
            painter.setFont(fonts.font(theme.BODY))
            painter.setPen(QPen(colours.accent))
            self._write(painter, PAD, self.sentence)
        else:
            painter.setFont(self._font)
            painter.setPen(QPen(colours.muted))
            at = self._paint_more(painter)
            painter.setPen(QPen(colours.ink if self.said else colours.muted))
            self._write(painter, at, self._behind(self.width() - at - PAD))
        painter.end()

    def _paint_more(self, painter: QPainter) -> float:
        """`+2` on either side for what is out of sight; where the words behind may begin."""
        laid, at = self._laid, self._begin
        if laid.first:
            self._write(painter, PAD, f"+{laid.first}")
        if laid.end < len(self.chips):
            more = f"+{len(self.chips) - laid.end}"
            self._write(painter, at, more)
            at += self._metrics.horizontalAdvance(more) + GAP
        return at + 4

    def _begin_of(self) -> float:
        """Where the last chip in sight ends."""
        in_sight = self._pool[self._laid.first : self._laid.end]
        return in_sight[-1].geometry().right() + 1.0 + GAP if in_sight else float(PAD)

    def _behind(self, room: float) -> str:
        """The sentence, or as many of the words as there is room for."""
        if self.said:
            return self._metrics.elidedText(self.said, Qt.TextElideMode.ElideRight, room)
        shown = list(self.tails)
        while len(shown) > 1 and self._metrics.horizontalAdvance("   ".join(shown)) > room:
            shown.pop()
        text = "   ".join(shown)
        return self._metrics.elidedText(text, Qt.TextElideMode.ElideRight, max(room, 0))

    def _write(self, painter: QPainter, left: float, text: str) -> None:
        metrics = painter.fontMetrics()
        base = (self.height() + metrics.ascent() - metrics.descent()) / 2
        painter.drawText(QPointF(left, base), text)

    # Walking

    def walk_in(self) -> bool:
        """Give the keys to the chip that is being typed, or the last; False where there is none."""
        if not self.chips or not self.isVisible():
            return False
        self._go_to(self._reach)
        return True

    def box_of(self, place: int) -> QRectF:
        """Where a chip is, in the row's pixels."""
        return QRectF(self._pool[place].geometry())

    def _go_to(self, place: int) -> None:
        self._reach = min(max(place, 0), len(self.chips) - 1)
        self._lay()
        self._pool[self._reach].setFocus(Qt.FocusReason.OtherFocusReason)
        self._lay()

    def _keep_focus(self) -> None:
        """The chips are others now: the keys stay on the one in the same place."""
        if not self.chips:
            self.left.emit()
        elif self._pool[self._reach] is not self.focusWidget():
            self._go_to(self._reach)

    def _clicked(self) -> None:
        button = self.sender()
        assert isinstance(button, ChipButton)
        self.opened.emit(self._pool.index(button))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, walked = Qt.Key(event.key()), self.walked
        text = event.text()
        if walked < 0:
            super().keyPressEvent(event)
        elif key in _STEPS:
            self._go_to(walked + _STEPS[key])
        elif key in _OPEN:
            self.opened.emit(walked)
        elif key in _BACK:
            self.left.emit()
        elif text.isprintable() and text.strip() and not event.modifiers() & _NO_TEXT:
            self.typed.emit(text)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press on `+2` brings those chips into sight."""
        if self._laid.first and event.position().x() < PAD + self._laid.left:
            self._reach = self._laid.first - 1
            self._lay()
        elif self._laid.end < len(self.chips) and self._is_more(event.position().x()):
            self._reach = self._laid.end
            self._lay()

    def _is_more(self, x: float) -> bool:
        return 0 <= x - self._pool[self._laid.end - 1].geometry().right() < 44

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()

    def sizeHint(self) -> QSize:
        return QSize(400, theme.TOUCH)
