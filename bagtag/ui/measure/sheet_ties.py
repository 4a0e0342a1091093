"""Ties a sheet's page to the store: what is typed is kept, what comes back is shown."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import figures
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.model import Fate
from bagtag.ui.desk import Desk
from bagtag.ui.measure.instrument_form import open_instrument
from bagtag.ui.measure.sheet_page import SheetPage
from bagtag.ui.measure.sheet_work import SheetWork


class SheetTies(QObject):
    """`work` has the sheet that is open; `gone` says that it is no longer there."""

    gone = Signal()

    def __init__(self, desk: Desk, page: SheetPage) -> None:
        super().__init__(page)
        self.desk, self.page = desk, page
        self.work = SheetWork(desk, self)
        self.work.shown.connect(page.show_view)
        self.work.refused.connect(page.say)
        self.work.gone.connect(self.gone)
        page.table.typed.connect(self._typed)
        page.limits.changed.connect(self._limits)
        page.given.changed.connect(self._given)
        page.more.changed.connect(self._texts)
        page.more.out.clicked.connect(self._take_out)
        page.with_.unit_chosen.connect(self._unit)
        page.with_.add_wanted.connect(self._add_instrument)
        page.with_.edit_wanted.connect(self._edit_instrument)
        page.decision.decided.connect(self._decide)
        page.decision.taken_back.connect(self.work.undecide)
        page.print.clicked.connect(self._print)

    @property
    def is_open(self) -> bool:
        return bool(self.work.sheet_id)

    def open(self, sheet_id: int) -> None:
        self._ask_instruments()
        self.work.open(sheet_id)

    def hear(self, change: Change) -> None:
        if change.touches("instrument"):
            self._ask_instruments()
        self.work.refresh()

    # What is typed

    def _typed(self, key: str, text: str) -> None:
        cell = self.page.table.cell(key)
        if cell is None or self.work.view is None:
            return
        if not text:
            self.work.drop(key)
            return
        wanted = cell.place.unit or self.work.sheet.unit
        try:
            value, unit = figures.reading(text, wanted, field="readings")
            self.work.take(self.page.with_.reading(key, value, unit))
        except BadInput as wrong:
            cell.say(wrong.sentence)

    def _limits(self, key: str, limits: object) -> None:
        if self.work.view is not None:
            self.work.put(f"limits {key}", limits=limits)

    def _given(self, key: str, given: object) -> None:
        if self.work.view is not None:
            self.work.put(f"given {key}", given=given)

    def _texts(self) -> None:
        if self.work.view is not None:
            more = self.page.more
            self.work.put("more", title=more.title.text(), note=more.note.text())

    def _unit(self, unit: str) -> None:
        """Figures without a unit are in this one from now on; what is kept has its own."""
        if self.work.view is not None:
            self.work.put("more", unit=unit)

    # What is done

    def _decide(self, fate: Fate, why: str, work: str, who: str) -> None:
        if self.work.view is not None:
            self.work.decide(fate, why, work, who)

    def _take_out(self) -> None:
        """Closed first: nobody is to be told that the sheet he takes out is gone."""
        sheet_id = self.work.sheet_id
        self.work.close()
        self.desk.act(services.measuring.delete_sheet, sheet_id, then=self._taken_out)

    def _taken_out(self, _: Change) -> None:
        self.gone.emit()

    def _print(self) -> None:
        from bagtag.ui.sheets.measure_dialog import open_measure_page

        view = self.work.view
        part = view.removal if view is not None else None
        called = f"{part.number} {part.name}" if part is not None else ""
        open_measure_page(self.desk, self.page, self.work.sheet_id, called)

    # Instruments

    def _ask_instruments(self) -> None:
        self.desk.ask(services.instruments.all_instruments, then=self._instruments_known)

    def _instruments_known(self, known: Sequence[Instrument]) -> None:
        self.page.with_.show_instruments(known)

    def _add_instrument(self) -> None:
        open_instrument(self.desk, self.page).chosen.connect(self.page.with_.want)

    def _edit_instrument(self, one: Instrument | None) -> None:
        if one is not None:
            open_instrument(self.desk, self.page, one).chosen.connect(self.page.with_.want)
