"""The field with the focus is in sight, with the whole form it belongs to where that fits."""

from collections.abc import Sequence

from PySide6.QtCore import QObject, QPoint, Qt, QTimer
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from bagtag.ui.forms.basics import is_inside

AIR = 40
LATER = 60
"""Milliseconds until a page that comes up has its measures."""


class InSight(QObject):
    """Scrolls an area after its focus; `wholes` are forms to be shown whole where they fit."""

    def __init__(self, area: QScrollArea, wholes: Sequence[QWidget]) -> None:
        super().__init__(area)
        self._area, self._inner = area, area.widget()
        self._wholes = wholes
        self._timer = QTimer(self)  # a form that just came up has its place only a moment later
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._bring)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._focus_moved)

    def _focus_moved(self, _: QWidget | None, now: QWidget | None) -> None:
        if now is not None and self._inner is not None and is_inside(now, self._inner):
            self._timer.start(0)

    def bring_later(self) -> None:
        """Once a page that only now comes up has its measures."""
        self._timer.start(LATER)

    def _bring(self) -> None:
        now = self._inner.focusWidget() if self._inner is not None else None
        if now is None:
            return
        for whole in self._wholes:
            if is_inside(now, whole):
                self._area.ensureWidgetVisible(whole, 0, 12)
        if now in self._wholes:
            self._show_top(now)
        else:
            self._area.ensureWidgetVisible(now, 0, AIR)

    def _show_top(self, whole: QWidget) -> None:
        """Of a form that is higher than the view, its beginning."""
        if whole.height() > self._area.viewport().height() and self._inner is not None:
            top = whole.mapTo(self._inner, QPoint(0, 0)).y()
            self._area.verticalScrollBar().setValue(top)


def scrolling(inner: QWidget, parent: QWidget) -> QScrollArea:
    """An area that scrolls `inner` up and down and shows the ground behind it."""
    area = QScrollArea(parent)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    inner.setProperty("bare", True)
    area.setWidget(inner)
    area.viewport().setAutoFillBackground(False)
    return area
