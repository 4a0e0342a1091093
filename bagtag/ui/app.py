"""The program with a window: painted first, and only then the store opens behind it.

Nothing heavy is imported before the first paint: no SQLAlchemy, no services, nothing of paper.
"""

from __future__ import annotations

import linecache
import logging
import sys
from collections.abc import Callable
from types import TracebackType
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication

from bagtag.ui import fonts
from bagtag.ui.collector import Collector
from bagtag.ui.desk import Desk
from bagtag.ui.theme import Theme
from bagtag.ui.window import MainWindow

if TYPE_CHECKING:
    from bagtag.store.work import Store
    from bagtag.ui.stop_signals import StopSignals

FAULT = "Something in Bagtag went wrong. What was logged is safe; do it again, or start anew."
KEYS_FIRST = 20
"""Milliseconds after the first paint in which a person's keys come before all else."""
_log = logging.getLogger("bagtag")


class Program(QObject):
    """The application's life: the window, the store behind it, and the end in the right order."""

    def __init__(self, app: QApplication, opener: Callable[[], Store], who: str) -> None:
        super().__init__(app)
        self._app = app
        self._opener = opener
        self._signals: StopSignals | None = None
        self.desk = Desk(who, self)
        self.window = MainWindow(self.desk)
        self._collector = Collector(self)
        self._keys_first = QTimer(self)
        self._keys_first.setSingleShot(True)
        self._keys_first.setInterval(KEYS_FIRST)
        self._keys_first.timeout.connect(self._open)
        self.window.painted.connect(self._keys_first.start)
        app.aboutToQuit.connect(self.end)

    def _open(self) -> None:
        """The window is painted, and the keys that came meanwhile are taken: now the rest."""
        fonts.load()
        self.window.finish()
        self._listen()
        self.desk.open(self._opener)

    def _listen(self) -> None:
        from bagtag.ui.stop_signals import StopSignals

        self._signals = StopSignals(self._app)

    def fault(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        """Our own fault: logged whole, and said in one sentence."""
        _log.error("a fault", exc_info=(kind, error, trace))
        self.window.finish()
        self.window.message.say(FAULT, trouble=True)

    def end(self) -> None:
        """Stop what ticks, settle what is under way, close the store."""
        sys.excepthook = sys.__excepthook__
        if self._signals is not None:
            self._signals.stop()
        self._keys_first.stop()
        self.window.stop()
        self.desk.close()
        self._collector.stop()


class _Forgetful(dict[Any, Any]):
    """Keeps nothing, for `linecache.cache`.

    PySide reads the source of every module imported after it, and linecache would keep it all:
    fourteen megabytes for SQLAlchemy alone. A traceback reads its lines anew.
    """

    def __setitem__(self, key: object, value: object) -> None:
        """Kept nowhere."""


def make_app() -> QApplication:
    """The application, named and dressed."""
    linecache.cache = _Forgetful()
    if sys.platform in {"win32", "darwin"}:  # elsewhere it is Fusion already
        QApplication.setStyle("Fusion")
    app = QApplication(sys.argv[:1])
    app.setApplicationName("Bagtag")
    app.setOrganizationName("Bagtag")
    app.setDesktopFileName("bagtag")
    Theme(app)
    return app


def run(opener: Callable[[], Store], who: str) -> int:
    """Show the window and stay until it is closed; `opener` opens the store on its own thread."""
    app = make_app()
    program = Program(app, opener, who)
    sys.excepthook = program.fault
    program.window.show()
    return app.exec()
