"""Asking again and again while something moves: one question at a time, and only the newest counts.

The store has one thread: of ten places that a step is moved past, the first is asked about and the
last, and nothing waits behind the eight between.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, Signal

from bagtag.ui.desk import Desk


class Newest(QObject):
    """`answered` and `failed` come for the newest question alone."""

    answered = Signal(object)
    failed = Signal(object)

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self.desk = desk
        self.is_waiting = False
        """Whether the newest question is still to be answered."""
        self._busy = False
        self._next: tuple[Callable[..., Any], tuple[Any, ...]] | None = None

    def ask(self, read: Callable[..., Any], *args: Any) -> None:
        self.is_waiting = True
        self._next = read, args
        self._go_on()

    def forget(self) -> None:
        """Nothing that was asked counts any more."""
        self.is_waiting = False
        self._next = None

    def _go_on(self) -> None:
        if self._busy or self._next is None:
            return
        (read, args), self._next = self._next, None
        self._busy = True
        self.desk.ask(read, *args, then=self._answer, failed=self._failure)

    def _answer(self, answer: object) -> None:
        if self._is_newest():
            self.answered.emit(answer)

    def _failure(self, error: object) -> None:
        if self._is_newest():
            self.failed.emit(error)

    def _is_newest(self) -> bool:
        self._busy = False
        newest = self.is_waiting and self._next is None
        self.is_waiting = self._next is not None
        self._go_on()
        return newest
