"""The open sheet between its page and the store: what is typed counts at once and is kept at once.

A caliper types faster than the store answers. So the sheet as it stands is kept here and reckoned
on the spot; what comes back from the store is shown only when no act is under way any more.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from bagtag import services
from bagtag.domain.errors import BadInput, NotFound, Trouble
from bagtag.domain.measuring.check import checked
from bagtag.domain.measuring.sheet import MeasureSheet, Reading
from bagtag.domain.model import Fate
from bagtag.ui.desk import Desk

if TYPE_CHECKING:
    from bagtag.services.measuring import SheetView


class SheetWork(QObject):
    shown = Signal(object)
    """A `SheetView` to be shown."""
    refused = Signal(str, str, str)
    """What was being kept (a place, "limits size", "given stroke", "decision"), the field the
    trouble names, and its sentence."""
    gone = Signal()
    """The sheet is no longer there."""

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self.desk = desk
        self.sheet_id = 0
        self.view: SheetView | None = None
        self._under_way: deque[str] = deque()

    @property
    def sheet(self) -> MeasureSheet:
        assert self.view is not None, "no sheet is open"
        return self.view.sheet

    def open(self, sheet_id: int) -> None:
        self.sheet_id, self.view = sheet_id, None
        self.refresh()

    def close(self) -> None:
        self.sheet_id, self.view = 0, None

    def refresh(self) -> None:
        """Ask how the sheet stands in the store; while acts are under way, once they are done."""
        if self.sheet_id and not self._under_way:
            self.desk.ask(_view_today, self.sheet_id, then=self._known, failed=self._unknown)

    # What is typed

    def take(self, reading: Reading) -> None:
        """A figure was read at a place."""
        others = [one for one in self.sheet.readings if one.key != reading.key]
        if self._now(reading.key, readings=(*others, reading)):
            self._act(reading.key, services.measuring.take_reading, self.sheet_id, reading)

    def drop(self, key: str) -> None:
        """The figure at a place was taken out of its field."""
        kept = tuple(one for one in self.sheet.readings if one.key != key)
        if len(kept) < len(self.sheet.readings) and self._now(key, readings=kept):
            self._act(key, services.measuring.drop_reading, self.sheet_id, key)

    def put(self, what: str, **values: Any) -> None:
        """Limits, what is given, title, note or unit are others now."""
        if all(getattr(self.sheet, name) == value for name, value in values.items()):
            return
        if self._now(what, **values):
            self._act(what, services.measuring.save, self.sheet)

    def decide(self, fate: Fate, why: str, work: str, who: str) -> None:
        service = services.measuring.decide
        self._act("decision", service, self.sheet_id, fate, why=why, work=work, who=who)

    def undecide(self) -> None:
        self._act("decision", services.measuring.undecide, self.sheet_id)

    def _now(self, what: str, **values: Any) -> bool:
        """The sheet with these values, reckoned at once; False, and said, where they cannot be."""
        assert self.view is not None
        try:
            sheet = checked(replace(self.view.sheet, **values))
        except BadInput as wrong:
            self.refused.emit(what, wrong.field, wrong.sentence)
            return False
        self.view = services.measuring.reckon(sheet, self.view.removal)
        self.shown.emit(self.view)
        return True

    def _act(self, what: str, service: Callable[..., Any], *args: Any, **named: Any) -> None:
        self._under_way.append(what)
        self.desk.act(service, *args, then=self._done, failed=self._failed, **named)

    # What comes back

    def _done(self, _: object) -> None:
        self._under_way.popleft()
        if not self._under_way:
            self.refresh()

    def _failed(self, error: Exception) -> None:
        what = self._under_way.popleft()
        self.refresh()
        if isinstance(error, Trouble):
            self.refused.emit(what, error.field, error.sentence)
        else:
            self.desk.tell_error(error)

    def _known(self, view: SheetView) -> None:
        if view.sheet.id == self.sheet_id and not self._under_way:
            self.view = view
            self.shown.emit(view)

    def _unknown(self, error: Exception) -> None:
        if not isinstance(error, NotFound):
            self.desk.tell_error(error)
            return
        self.close()
        self.desk.tell_error(error)
        self.gone.emit()


def _view_today(store: Any, sheet_id: int) -> SheetView:
    return services.measuring.view(store, sheet_id, today=date.today())
