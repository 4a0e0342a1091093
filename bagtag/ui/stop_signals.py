"""Ctrl+C in the terminal and a polite kill end the program as closing the window does."""

import signal
import socket

from PySide6.QtCore import QObject, QSocketNotifier
from PySide6.QtWidgets import QApplication


class StopSignals(QObject):
    """While Qt's loop runs, Python hears a signal only when woken: a socket wakes it."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        self._read, self._write = socket.socketpair()
        self._write.setblocking(False)
        self._read.setblocking(False)
        self._was = signal.set_wakeup_fd(self._write.fileno(), warn_on_full_buffer=False)
        self._handlers = {one: signal.getsignal(one) for one in (signal.SIGINT, signal.SIGTERM)}
        for one in self._handlers:
            signal.signal(one, self._ignore)
        self._notifier = QSocketNotifier(self._read.fileno(), QSocketNotifier.Type.Read, self)
        self._notifier.activated.connect(self._woken)

    def stop(self) -> None:
        """Give the signals back to whom they were."""
        self._notifier.setEnabled(False)
        for one, handler in self._handlers.items():
            signal.signal(one, handler)
        signal.set_wakeup_fd(self._was)
        self._read.close()
        self._write.close()

    def _woken(self) -> None:
        told = self._read.recv(64)
        if any(number in told for number in self._handlers):
            self._app.quit()

    @staticmethod
    def _ignore(number: int, frame: object) -> None:
        """The wakeup socket carries the number; nothing is left to do here."""
