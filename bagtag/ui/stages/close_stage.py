"""Close: what came off equals what went back plus what was renewed or scrapped."""

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.model import Fate, Removal
from bagtag.ui.card.card_parts import Scroll, keyless
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Press, button, clear_layout, label, tight
from bagtag.ui.stage import Stage
from bagtag.ui.stages.close_sum import ClosingSum

if TYPE_CHECKING:
    from bagtag.services.closing import ClosingCount

MOST = 200
"""How many parts are named that do not add up; the rest are counted."""


class Left(Press):
    """A part that is still on the bench; pressing it shows it."""

    def __init__(self, removal: Removal, parent: QWidget) -> None:
        pieces = f"{removal.quantity} × " if removal.quantity > 1 else ""
        said = f"{removal.number}   {pieces}{removal.name}"
        super().__init__(keyless(f"{said}   ({why(removal)})"), parent)
        self.removal_id = removal.id
        self.setProperty("role", "quiet")
        self.setStyleSheet("text-align: left;")
        self.setAccessibleName(f"Show {said}, {why(removal)}")


def why(removal: Removal) -> str:
    """What is missing before the part counts."""
    if removal.fate is Fate.DECIDE:
        return "not decided yet"
    return "renewal not fitted" if removal.fate is Fate.RENEW else "not fitted"


class CloseStage(Stage):
    title = "Close"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.sum = ClosingSum(self)
        self.verdict = label("", self, scale="big")
        self.under = label("", self, tone="muted")
        self.view = Scroll(self, "What does not add up yet")
        tight(self.view.column, 0)
        self.left: list[Left] = []
        self.build = button("Go to the build", self, role="primary")
        self.build.clicked.connect(self._to_build)
        column = QVBoxLayout(self)
        tight(column, 12)
        top = QHBoxLayout()
        top.addWidget(self.verdict, 1)
        top.addWidget(self.build)
        column.addLayout(top)
        column.addWidget(self.sum)
        column.addWidget(self.under)
        column.addWidget(self.view, 1)

    def enter(self) -> None:
        if self.desk.job_id:
            self.desk.ask(services.closing.closing_count, self.desk.job_id, then=self._show)

    def _show(self, count: "ClosingCount") -> None:
        self.sum.show_count(count)
        self.sum.setVisible(bool(count.off))
        self.verdict.setText(verdict(count))
        self.under.setText(under(count))
        self.build.setVisible(bool(count.left))
        clear_layout(self.view.column)
        self.left = [Left(removal, self.view.body) for removal in count.left[:MOST]]
        for press in self.left:
            press.clicked.connect(self._show_left)
            self.view.column.addWidget(press)
        rest = len(count.left) - MOST
        if rest > 0:
            self.view.column.addWidget(label(f"and {rest} more", self.view.body, tone="muted"))
        self.view.column.addStretch(1)

    def _show_left(self) -> None:
        press = self.sender()
        assert isinstance(press, Left)
        self.desk.show_removal.emit(press.removal_id)

    def _to_build(self) -> None:
        self.desk.show_stage.emit("Build")


def verdict(count: "ClosingCount") -> str:
    if not count.off:
        return "Nothing has come off yet"
    if count.adds_up:
        return "Nothing is left on the bench"
    pieces = sum(removal.quantity for removal in count.left)
    return f"{pieces} piece{'s' * (pieces != 1)} still to account for"


def under(count: "ClosingCount") -> str:
    if not count.off:
        return "Log parts under Strip as they come off; here they are counted back in."
    if count.adds_up:
        return "All that came off is back in, renewed or scrapped, to the piece. Close the job."
    away = f" {count.away} of them {'is' if count.away == 1 else 'are'} away." if count.away else ""
    return f"Counted in pieces. These have not gone back, been renewed or been scrapped:{away}"
