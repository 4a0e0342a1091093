"""In which turn Tab comes to what was made late."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget


def come_last(*widgets: QWidget) -> None:
    """Tab comes to these after all else in their window, in this turn. What is made late stands at
    the end of the turn, so what stands below it on the page has to be put behind it again."""
    for widget in widgets:
        last = widget.window().previousInFocusChain()
        if last is not None and last is not widget:
            _follow(last, widget)


def _follow(before: QWidget, widget: QWidget) -> None:
    """Qt puts nothing after a widget that takes no focus, so that one does for a moment."""
    policy = before.focusPolicy()
    before.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
    QWidget.setTabOrder(before, widget)
    before.setFocusPolicy(policy)
