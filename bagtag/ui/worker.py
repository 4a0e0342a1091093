"""Background work: one thread for the store, a small pool for pictures and paper.

Every piece of work answers on the main thread with its result or its error, in the order asked.
Only ids and frozen rows cross; no thread but the main one owns a QObject.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, cast
from weakref import WeakMethod

from PySide6.QtCore import QObject, Qt, Signal
from shiboken6 import isValid

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor

Answer = Callable[[Any], None]


class Worker(QObject):
    """A queue of work with `threads` threads. Answers must be bound methods of living objects."""

    answered = Signal(object)
    """A result, before its own answer is given."""
    _finished = Signal(object, object)

    def __init__(self, threads: int, name: str, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._threads, self._name = threads, name
        self._pool: ThreadPoolExecutor | None = None
        # Queued also for work that is done at once: no answer comes before `run` has returned.
        self._finished.connect(self._deliver, Qt.ConnectionType.QueuedConnection)
        self._open = True
        self._busy = 0

    @property
    def idle(self) -> bool:
        """Whether every piece of work has been answered."""
        return self._busy == 0

    def run(self, work: Callable[[], Any], then: Answer | None, failed: Answer) -> None:
        """Do `work` in the background; `then` gets its result, `failed` its exception."""
        if not self._open:
            return
        self._busy += 1
        answers = _weak(then), _weak(failed)
        future = self._started().submit(work)
        future.add_done_callback(_Courier(self, answers))

    def _started(self) -> ThreadPoolExecutor:
        """The threads, made when they are first needed: the window is painted before that."""
        if self._pool is None:
            from concurrent.futures import ThreadPoolExecutor

            self._pool = ThreadPoolExecutor(self._threads, thread_name_prefix=self._name)
        return self._pool

    def _deliver(self, future: Future[Any], answers: tuple[Any, Any]) -> None:
        self._busy -= 1
        then, failed = answers
        error = future.exception()
        if error is None:
            self.answered.emit(future.result())
        answer = _strong(failed if error is not None else then)
        if answer is not None:
            answer(error if error is not None else future.result())

    def close(self) -> None:
        """Finish what was begun, drop what was not, and answer nobody any more."""
        self._open = False
        if self._pool is not None:
            self._pool.shutdown(wait=True, cancel_futures=True)


class _Courier:
    """Carries a finished future to the main thread; holds no QObject of its own."""

    def __init__(self, worker: Worker, answers: tuple[Any, Any]) -> None:
        self.worker = worker
        self.answers = answers

    def __call__(self, future: Future[Any]) -> None:
        if not future.cancelled():
            self.worker._finished.emit(future, self.answers)


def _weak(answer: Answer | None) -> Any:
    """A bound method is held weakly, so that waiting work keeps no screen alive."""
    return WeakMethod(answer) if hasattr(answer, "__self__") else answer


def _strong(answer: Any) -> Answer | None:
    """The answer, unless the screen that asked is gone, be it here or only on Qt's side."""
    if not isinstance(answer, WeakMethod):
        return cast("Answer | None", answer)
    method = answer()
    asker = getattr(method, "__self__", None)
    return None if isinstance(asker, QObject) and not isValid(asker) else method
