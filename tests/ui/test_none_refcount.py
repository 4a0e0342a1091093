"""The toolkit takes no reference from None that it never had.

PySide6 6.12.0 on Python 3.11 does on many calls, until the interpreter dies of it
(https://github.com/python/cpython/issues/93762 tells what the message means).
"""

import sys

from PySide6.QtCore import QModelIndex, QTimer
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QWidget

CALLS = 1000


def test_calls_into_the_toolkit_do_not_use_none_up(qtbot):
    widget, index = QWidget(), QModelIndex()
    qtbot.addWidget(widget)
    image = QImage(8, 8, QImage.Format.Format_ARGB32)
    painter = QPainter(image)
    before = sys.getrefcount(None)
    for _ in range(CALLS):
        painter.fillRect(0, 0, 2, 2, QColor("black"))
        index.data()
        widget.property("there is none")
    painter.end()
    assert sys.getrefcount(None) > before - CALLS / 2


def test_rounds_of_a_timer_do_not_use_none_up(qtbot):
    rounds = []
    before = sys.getrefcount(None)
    for _ in range(100):
        QTimer.singleShot(0, lambda: rounds.append(1))
    qtbot.waitUntil(lambda: len(rounds) == 100)
    assert sys.getrefcount(None) > before - 50
