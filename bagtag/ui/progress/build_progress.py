"""How far a build is, as a quiet bar, and the line of words below it."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from bagtag.ui.theme import current


class Progress(QWidget):
    """A quiet bar: fitted, can go in now, the rest."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._shares = (0.0, 0.0)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_shares(self, done: int, ready: int, of: int) -> None:
        self._shares = (done / of, (done + ready) / of) if of else (0.0, 0.0)
        self.setAccessibleName(f"{done} of {of} fitted, {ready} can go in now")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(120, 6)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        colours = current()
        done, ready = self._shares
        for share, colour in ((1.0, colours.line), (ready, colours.muted), (done, colours.accent)):
            painter.setBrush(colour)
            if share:
                wide = max(self.width() * share, self.height())
                painter.drawRoundedRect(QRectF(0, 0, wide, self.height()), 3, 3)
        painter.end()


class OneLine(QLabel):
    """A sentence on one line, a shorter one where there is no room for it, and that cut where there
    is none for that; the whole of it in its tool tip."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.sentence = self._brief = ""
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("scale", "small")
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def say(self, sentence: str, brief: str = "") -> None:
        self.sentence, self._brief = sentence, brief or sentence
        self.setToolTip(sentence)
        self.setAccessibleName(sentence)
        self._cut()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._cut()

    def _cut(self) -> None:
        metrics, right = self.fontMetrics(), Qt.TextElideMode.ElideRight
        fits = metrics.horizontalAdvance(self.sentence) <= self.width()
        said = self.sentence if fits else self._brief
        self.setText(metrics.elidedText(said, right, self.width()))
