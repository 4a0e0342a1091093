"""From what holds the job up to where it is settled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from bagtag.ui.holding.holding_words import stage_of

if TYPE_CHECKING:
    from bagtag.services.readiness import HeldRow
    from bagtag.ui.holding.holding_page import HoldingPage
    from bagtag.ui.stage import Stage
    from bagtag.ui.window_work import WindowWork

BACK = "Esc or F11 goes back to what holds the job up."


class HoldingWork(QObject):
    """Made with the page. From where a row is settled, Escape leads back, so long as nobody goes
    elsewhere."""

    def __init__(self, page: HoldingPage, work: WindowWork) -> None:
        super().__init__(work)
        self._work = work
        self._gone_to: Stage | None = None
        self._heard: set[Stage] = set()
        page.settle.connect(self.settle)
        page.left.connect(self._to_build)
        page.typed.connect(work.type_in_field)

    def settle(self, row: HeldRow) -> None:
        """Go to where a row is settled: its send-out, its new part, its sheet."""
        stage = stage_of(row)
        if stage == "Build":
            self._work.show_step(row.ref)
            return
        self._work.go_to(stage)
        page = self._work.page_of(stage)
        if stage == "Away":
            if row.send_out_id:  # an older store sent each part by itself
                page.show_batch(row.send_out_id)  # type: ignore[attr-defined]  # an AwayStage
        elif stage == "Measure" and row.sheet_id:
            page.show_sheet(row.sheet_id)  # type: ignore[attr-defined]  # a MeasureStage
        elif row.ref.removal_id:
            page.show_part(row.ref.removal_id)  # type: ignore[attr-defined]  # Renew or Measure
        self._lead_back(page)

    # And back

    def forget(self) -> None:
        """The person has gone elsewhere: Escape does not lead back from there."""
        self._gone_to = None
        message = self._work.window.message
        if message.text == BACK:
            message.clear()

    def _lead_back(self, page: Stage) -> None:
        if page not in self._heard:
            self._heard.add(page)
            page.escaped.connect(self._come_back)
        self._gone_to = page
        self._work.desk.say(BACK)

    def _come_back(self) -> None:
        if self._gone_to is not None and self._work.page is self._gone_to:
            self._work.open_holding()

    def _to_build(self) -> None:
        self._work.go_to("Build")
