"""Close: what came off equals what went back plus what was renewed or scrapped."""

from typing import TYPE_CHECKING

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.fitting import Ref
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.stage import Stage
from bagtag.ui.stages import close_words as words
from bagtag.ui.stages.close_list import LeftoverList
from bagtag.ui.stages.close_sum import ClosingSum
from bagtag.ui.stages.close_table import CountTable

if TYPE_CHECKING:
    from bagtag.domain.closing import ClosingCount

LEFT, ITEM, FASTENER, CONTAINER = "left", "item", "fastener", "container"
WAYS = (
    Option(LEFT, "What is open"),
    Option(ITEM, "By item"),
    Option(FASTENER, "By fastener"),
    Option(CONTAINER, "By container"),
)


class CloseStage(Stage):
    title = "Close"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.sum = ClosingSum(self)
        self.verdict = label("", self, scale="big")
        self.under = label("", self, tone="muted")
        self.build = button("Go to the build", self, role="primary")
        self.ways = Choices("How the count is shown", WAYS, self, columns=len(WAYS))
        self.left = LeftoverList(self)
        self.items = CountTable("The count by item", words.ITEM_HEADS, self)
        self.fasteners = CountTable("The count by fastener", words.FASTENER_HEADS, self)
        self.containers = CountTable("The count by container", words.CONTAINER_HEADS, self)
        self._shown = list(WAYS)
        self._lay()
        self._connect()

    def _lay(self) -> None:
        self.pages = QStackedWidget(self)
        self._page_of = {
            LEFT: self.left,
            ITEM: self.items,
            FASTENER: self.fasteners,
            CONTAINER: self.containers,
        }
        for page in self._page_of.values():
            self.pages.addWidget(page)
        top = QHBoxLayout()
        top.addWidget(self.verdict, 1)
        top.addWidget(self.build)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addLayout(top)
        column.addWidget(self.sum)
        column.addWidget(self.under)
        column.addWidget(self.ways)
        column.addWidget(self.pages, 1)

    def _connect(self) -> None:
        self.build.clicked.connect(self._to_build)
        self.ways.chosen.connect(self._turn)
        self.left.chosen.connect(self._show_step)
        self.items.chosen.connect(self._show_step)

    def enter(self) -> None:
        if self.desk.job_id:
            self.desk.ask(services.closing.closing_count, self.desk.job_id, then=self._show)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.sum.fit(event.size().height())

    def _show(self, count: "ClosingCount") -> None:
        called = words.called_in(count)
        self.sum.show_sum(count.total)
        self.verdict.setText(words.verdict(count))
        self.under.setText(words.under(count))
        self.left.show_rows(count.leftovers)
        self.items.show_rows([words.item_row(line) for line in count.items])
        self.fasteners.show_rows([words.fastener_row(line) for line in count.fasteners])
        self.containers.show_rows([words.container_row(one, called) for one in count.containers])
        self._offer(count)

    def _offer(self, count: "ClosingCount") -> None:
        """The ways that have something to show, and one of them chosen."""
        has = {
            LEFT: bool(count.leftovers),
            ITEM: bool(count.items),
            FASTENER: bool(count.fasteners),
            CONTAINER: bool(count.containers),
        }
        self.build.setVisible(has[LEFT])
        self.sum.setVisible(has[ITEM])
        self.ways.setVisible(any(has.values()))
        self.pages.setVisible(any(has.values()))
        shown = [way for way in WAYS if has[way.value]]
        if shown != self._shown:
            self._shown = shown
            self.ways.set_options(shown)
        if shown and not has.get(self.ways.value, False):
            self.ways.set_value(shown[0].value)
        self._turn()

    def _turn(self) -> None:
        if self.ways.value is not None:
            self.pages.setCurrentWidget(self._page_of[self.ways.value])

    def _show_step(self, ref: Ref) -> None:
        self.desk.show_step.emit(ref)

    def _to_build(self) -> None:
        self.desk.show_stage.emit("Build")
