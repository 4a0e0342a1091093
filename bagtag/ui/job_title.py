"""The job's title at the top left: pressed, it lists the jobs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Signal
from PySide6.QtGui import QAction, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QMenu, QSizePolicy, QWidget

from bagtag.ui import fonts, theme

if TYPE_CHECKING:
    from bagtag.services.jobs import JobRow

LIMIT = 60
"""As many characters of a title as a menu line shows."""


class JobTitle(QAbstractButton):
    """`chosen` names a job, 0 for one that is still to be opened."""

    chosen = Signal(int)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.jobs: tuple[JobRow, ...] = ()
        self.is_known = False
        self._menu: QMenu | None = None
        self.setFont(fonts.font(18, bold=True))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.clicked.connect(self.open_menu)
        self.set_title("")

    def set_title(self, title: str) -> None:
        self.title = title or ("Open a job" if self.is_known else "")
        self.setAccessibleName(f"Job: {title}" if title else "No job is chosen")
        self.setToolTip(f"{title}\nChoose or open another job (Ctrl+J)".strip())
        self.updateGeometry()
        self.update()

    def set_jobs(self, jobs: Sequence[JobRow]) -> None:
        self.jobs, self.is_known = tuple(jobs), True

    def open_menu(self) -> None:
        """List the jobs, and a way to open one more."""
        menu = self._fresh_menu()
        for job in self.jobs:
            title = job.title if len(job.title) <= LIMIT else f"{job.title[:LIMIT]}…"
            shown = f"{job.number}  {title}".replace("&", "&&")
            self._add(menu, shown, job.id)
        if self.jobs:
            menu.addSeparator()
        self._add(menu, "Open another job" if self.jobs else "Open a job", 0)
        menu.popup(self.mapToGlobal(QPoint(0, self.height())))

    def sizeHint(self) -> QSize:
        width = QFontMetrics(self.font()).horizontalAdvance(self.title)
        return QSize(min(width, 420) + 30, theme.TOUCH)

    def minimumSizeHint(self) -> QSize:
        return QSize(130, theme.TOUCH)

    def paintEvent(self, _: QPaintEvent) -> None:
        if not self.title:
            return
        colours = theme.current()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self.font())
        painter.setPen(QPen(colours.ink))
        shown, base = _shortened(self.title, self.font(), self.width() - 26), self.height() / 2 + 6
        painter.drawText(QPointF(4, base), shown)
        end = 4 + QFontMetrics(self.font()).horizontalAdvance(shown) + 8
        painter.setPen(QPen(colours.muted, 2))
        painter.drawLine(QPointF(end, base - 7), QPointF(end + 5, base - 2))
        painter.drawLine(QPointF(end + 5, base - 2), QPointF(end + 10, base - 7))
        if self.hasFocus():
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 4, -1, -2), 5, 5)
        painter.end()

    def _fresh_menu(self) -> QMenu:
        if self._menu is not None:
            self._menu.deleteLater()
        self._menu = QMenu(self)
        self._menu.setAccessibleName("Jobs")
        return self._menu

    def _add(self, menu: QMenu, text: str, job_id: int) -> None:
        action = QAction(text, menu)
        action.setData(job_id)
        action.triggered.connect(self._triggered)
        menu.addAction(action)

    def _triggered(self) -> None:
        action = self.sender()
        assert isinstance(action, QAction)
        self.chosen.emit(action.data())


def _shortened(text: str, font: object, width: int) -> str:
    """Cut at the end with an ellipsis where it is too wide."""
    metrics = QFontMetrics(font)  # type: ignore[call-overload]  # `object` is a QFont here
    if metrics.horizontalAdvance(text) <= width:
        return text
    while text and metrics.horizontalAdvance(text + "…") > width:
        text = text[:-1]
    return text.rstrip() + "…"
