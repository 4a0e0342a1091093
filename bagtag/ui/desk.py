"""The desk: what every screen is handed. One way to ask, one way to act, one signal of change.

a person's act -> desk.act(service function) -> one transaction -> Change -> desk.changed
-> the screens that show what was touched -> desk.ask(service function) -> fresh rows
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from bagtag.domain.errors import Trouble
from bagtag.ui.worker import Answer, Worker

if TYPE_CHECKING:
    from bagtag.store.work import Store


class Desk(QObject):
    """The open store, the chosen job and person, and the background threads."""

    ready = Signal()
    """The store is open; services may be asked."""
    refused = Signal(str)
    """The store cannot be opened; the sentence says why."""
    changed = Signal(object)
    """A `Change`: something in the store is different now."""
    job_chosen = Signal(int)
    """Another job is shown; 0 for none."""
    said = Signal(str, bool)
    """A sentence for the message bar, and whether it is trouble."""
    show_removal = Signal(int)
    """A removal is to be shown on its card."""
    show_step = Signal(object)
    """A step of the build (a `Ref`) is to be shown, be it a removal or a task."""
    check_in = Signal(int, int)
    """A part (the second id) of a send-out (the first) is back and is to be looked at."""
    show_stage = Signal(str)
    """A stage of the job ("Strip") is to be shown."""

    def __init__(self, who: str, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.who = who
        self.job_id = 0
        self._store: Store | None = None
        self._records = Worker(1, "store", self)
        self._records.answered.connect(self._spread)
        self._pictures = Worker(2, "pictures", self)

    @property
    def is_open(self) -> bool:
        return self._store is not None

    @property
    def idle(self) -> bool:
        """Whether nothing is under way in the background."""
        return self._records.idle and self._pictures.idle

    def open(self, open_store: Callable[[], Store]) -> None:
        """Open the store in the background."""
        self._records.run(open_store, self._opened, self._not_opened)

    def choose_job(self, job_id: int) -> None:
        self.job_id = job_id
        self.job_chosen.emit(job_id)

    def ask(
        self, read: Callable[..., Any], *args: Any, then: Answer, failed: Answer | None = None
    ) -> None:
        """Call `read(store, *args)` on the store's thread; `then` gets what it returns."""
        work = partial(self._with_store, read, *args)
        self._records.run(work, then, failed or self.tell_error)

    def act(
        self,
        service: Callable[..., Any],
        *args: Any,
        then: Answer | None = None,
        failed: Answer | None = None,
        **kwargs: Any,
    ) -> None:
        """Call a service that changes the store: `service(store, *args, who=…, **kwargs)`.

        The service returns a Change, or a tuple that begins with one.
        Its Change goes out by `changed` before `then` gets the result. `failed` gets the error
        where a form wants to show it beside a field; else the message bar says it.
        """
        kwargs.setdefault("who", self.who)
        work = partial(self._with_store, service, *args, **kwargs)
        self._records.run(work, then, failed or self.tell_error)

    def draw(
        self,
        work: Callable[..., Any],
        *args: Any,
        then: Answer | None = None,
        failed: Answer | None = None,
    ) -> None:
        """Call `work(*args)` in the pool for pictures and paper."""
        self._pictures.run(partial(work, *args), then, failed or self.tell_error)

    def say(self, sentence: str) -> None:
        self.said.emit(sentence, False)

    def tell_error(self, error: BaseException) -> None:
        """Trouble is said in its sentence; anything else is a fault of ours and is raised."""
        if not isinstance(error, Trouble):
            raise error
        self.said.emit(error.sentence, True)

    @property
    def store(self) -> Store:
        assert self._store is not None, "the store is not open yet"
        return self._store

    def close(self) -> None:
        """Settle the background work and close the store."""
        self._pictures.close()
        self._records.close()
        if self._store is not None:
            self._store.close()

    def _spread(self, result: object) -> None:
        from bagtag.domain.change import Change  # dataclasses can wait for the first paint

        change = result[0] if isinstance(result, tuple) and result else result
        if isinstance(change, Change):
            self.changed.emit(change)

    def _with_store(self, service: Callable[..., Any], *args: Any, **kwargs: Any) -> Any:
        return service(self.store, *args, **kwargs)

    def _opened(self, store: Store) -> None:
        self._store = store
        self.ready.emit()

    def _not_opened(self, error: BaseException) -> None:
        if not isinstance(error, Trouble):
            raise error
        self.refused.emit(error.sentence)
