"""In which turn Tab comes to what was made late."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.basics import is_inside


def in_turn(page: QWidget, sections: Sequence[QWidget]) -> None:
    """Tab goes through the sections of a page one after the other, in each as it went before, and
    then through what else there is on it."""
    stops = sorted(_stops(page), key=lambda stop: _place(stop, sections))
    for one, other in pairwise(stops):
        QWidget.setTabOrder(one, other)


def _stops(page: QWidget) -> Iterator[QWidget]:
    now = page.nextInFocusChain()
    while now is not None and now is not page:
        if now.focusPolicy() & Qt.FocusPolicy.TabFocus and is_inside(now, page):
            yield now
        now = now.nextInFocusChain()


def _place(stop: QWidget, sections: Sequence[QWidget]) -> int:
    mine = (at for at, section in enumerate(sections) if is_inside(stop, section))
    return next(mine, len(sections))


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
