"""Garbage is collected on the main thread, and nothing speaks for a window that is gone."""

import gc
import weakref

import shiboken6
from PySide6.QtCore import QObject, QRect
from PySide6.QtGui import QPaintEvent

from bagtag.ui.collector import Collector, collect_due
from bagtag.ui.desk import Desk
from bagtag.ui.window import MainWindow


class _Knot:
    def __init__(self):
        self.me = self


def test_what_is_due_is_collected(qapp):
    gc.collect()
    gone = weakref.ref(_Knot())
    litter = [[] for _ in range(gc.get_threshold()[0] + 10)]
    collect_due()
    assert gone() is None
    assert len(litter) > 700 - 10


def test_pythons_own_collector_is_off_until_it_is_stopped(qapp):
    parent = QObject()
    collector = Collector(parent)
    assert not gc.isenabled()
    collector.stop()
    assert gc.isenabled()
    gc.disable()  # as the tests run


def test_a_window_that_dies_while_it_is_painted_tells_nobody(qtbot):
    """What was to be told after the paint went out for a window deleted meanwhile."""
    desk = Desk("Ada")
    with qtbot.captureExceptions() as raised:
        for _ in range(5):
            window = MainWindow(desk)
            window.show()
            window.paintEvent(QPaintEvent(QRect(0, 0, 1, 1)))
            shiboken6.delete(window)
            qtbot.wait(5)
    assert raised == []
    desk.close()
