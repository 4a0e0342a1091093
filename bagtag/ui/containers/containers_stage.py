"""Containers: what stands in what, what lies where, and the labels for them."""

from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.model import ContainerKind
from bagtag.ui.card.card_asks import AskCount
from bagtag.ui.containers.containers_map import ContainersMap
from bagtag.ui.containers.containers_panel import ContainersPanel
from bagtag.ui.containers.containers_where import Whereabouts, read, to_know
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act, Letter
from bagtag.ui.forms.basics import tight
from bagtag.ui.forms.flow import Flow
from bagtag.ui.forms.lone_keys import LoneKeys
from bagtag.ui.forms.scroll import Emptiness
from bagtag.ui.sheets.label_dialog import open_labels
from bagtag.ui.stage import Stage

KEYS = {
    ContainerKind.BAG: "B",
    ContainerKind.TRAY: "T",
    ContainerKind.TOTE: "O",
    ContainerKind.SHELF: "S",
}
PANEL, WIDE_PANEL, WIDE = 300, 340, 1100
"""How wide the panel is, and from which width of the page on it is wider, in pixels."""


class ContainersStage(Stage):
    title = "Containers"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.where = Whereabouts((), {})
        self.chosen = 0
        self._alone = LoneKeys(self)
        self.top = QWidget(self)
        self.add = {kind: Letter(f"Add {kind.value}", key, self.top) for kind, key in KEYS.items()}
        self.labels = Act("Print labels", "", self.top)
        self.part_tags = Act("Print part tags", "", self.top)
        self.blank = Act("Blank tags", "", self.top)
        self.ask = AskCount(self)
        self.panel = ContainersPanel(self)
        self.empty = Emptiness(self)
        self.empty.say(
            "No container yet",
            "Add a bag or a tray here, or name one when you log a part: shift fork R, bag 12.",
        )
        self.map = ContainersMap(self)
        self._lay()
        self._connect()
        self._show(self.where)

    def _lay(self) -> None:
        flow = Flow(self.top, 8)
        for act in (*self.add.values(), self.labels, self.part_tags, self.blank):
            flow.addWidget(act)
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addWidget(self.panel)
        row.addWidget(self.map, 1)
        row.addWidget(self.empty, 1)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addWidget(self.top)
        column.addWidget(self.ask)
        column.addLayout(row, 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.panel.setFixedWidth(WIDE_PANEL if self.width() >= WIDE else PANEL)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._alone.hear(event):
            super().keyPressEvent(event)

    def _letter(self, letter: str) -> None:
        for press in self.add.values():
            if press.letter == letter:
                press.click()

    def _connect(self) -> None:
        self._alone.pressed.connect(self._letter)
        for act in self.add.values():
            act.clicked.connect(self._add)
        self.labels.clicked.connect(self.print_all)
        self.part_tags.clicked.connect(self.print_parts)
        self.blank.clicked.connect(self.ask.open_now)
        self.ask.answered.connect(self._make_blank)
        self.map.pressed.connect(self.press)
        self.map.dropped.connect(self.put)
        self.panel.saved.connect(self._save)
        self.panel.deleted.connect(self._delete)
        self.panel.printed.connect(self._print_one)
        self.panel.benched.connect(self._bench)
        self.panel.left.connect(self._back)

    # What is shown

    def enter(self) -> None:
        if self.desk.job_id:
            self.desk.ask(read, self.desk.job_id, then=self._show)

    def show_container(self, container_id: int) -> None:
        """Show one container, for example because its tag was scanned."""
        self.chosen = container_id
        self.enter()

    def _show(self, where: Whereabouts) -> None:
        self.where = where
        self.map.show_all(where, self.chosen)
        self.map.setVisible(bool(where.containers))
        self.empty.setVisible(not where.containers)
        self.labels.setEnabled(bool(where.containers))
        self._show_panel()

    def _show_panel(self) -> None:
        row = self.where.row(self.chosen)
        if row is None:
            self.chosen = 0 if self.where.containers else self.chosen
            self.panel.show_bench(self.where)
        else:
            self.panel.show_container(row, self.where)
            inside = tuple(self.where.all_inside(self.chosen))
            self.desk.ask(to_know, self.desk.job_id, self.chosen, inside, then=self.panel.tell)

    def press(self, container_id: int) -> None:
        """Put the chosen parts into a container; without any, show what lies in it."""
        parts = self.panel.parts.chosen()
        if parts and container_id != self.chosen:
            self.map.choose(self.chosen)
            self.put(container_id, parts)
            return
        self.chosen = 0 if container_id == self.chosen else container_id
        self.map.choose(self.chosen)
        self._show_panel()

    def _back(self) -> None:
        self.chosen = 0
        self.map.choose(0)
        self._show_panel()

    # What can be done

    def put(self, container_id: int | None, removal_ids: list[int]) -> None:
        if removal_ids:
            self.desk.act(services.containers.put, removal_ids, container_id)

    def _bench(self, removal_ids: list[int]) -> None:
        self.put(None, removal_ids)

    def _add(self) -> None:
        kind = next(kind for kind, act in self.add.items() if act is self.sender())
        self.desk.act(services.containers.add_container, self.desk.job_id, kind, then=self._added)

    def _added(self, change: Change) -> None:
        if change.new_id:
            self.show_container(change.new_id)

    def _save(self, name: str, parent_id: int | None) -> None:
        self.desk.act(
            services.containers.edit_container,
            self.chosen,
            name=name,
            parent_id=parent_id,
            then=self._saved,
            failed=self._not_saved,
        )

    def _saved(self, _: Change) -> None:
        self.panel.say_wrong(None)

    def _not_saved(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.panel.say_wrong(error)
        else:
            self.desk.tell_error(error)

    def _delete(self) -> None:
        self.desk.act(services.containers.delete_container, self.chosen)

    # Labels

    def _print_one(self) -> None:
        self._print((self.chosen,))

    def print_all(self) -> None:
        """Labels for every container, or for the chosen one and all that stand in it."""
        ids = tuple(row.container.id for row in self.where.containers)
        self._print(self._family(self.chosen) if self.chosen else ids)

    def print_parts(self) -> None:
        """A tag for every part of the log."""
        self.desk.ask(services.labels.of_job, self.desk.job_id, then=self._print_parts)

    def _print_parts(self, removal_ids: tuple[int, ...]) -> None:
        order = services.labels.LabelOrder(self.desk.job_id, removal_ids=removal_ids)
        open_labels(self.desk, order, self)

    def _family(self, container_id: int) -> tuple[int, ...]:
        inner = [row.container.id for row in self.where.standing_in(container_id)]
        return (container_id, *(id_ for one in inner for id_ in self._family(one)))

    def _print(self, ids: tuple[int, ...]) -> None:
        order = services.labels.LabelOrder(self.desk.job_id, container_ids=ids)
        open_labels(self.desk, order, self)

    def _make_blank(self) -> None:
        try:
            count = self.ask.count()
        except Trouble as trouble:
            self.ask.field.say(trouble.sentence)
            return
        self.desk.act(services.tags.make_blank, count, then=self._blank_made, failed=self._no_blank)

    def _blank_made(self, made: tuple[Change, list[str]]) -> None:
        self.ask.hide()
        order = services.labels.LabelOrder(self.desk.job_id, codes=tuple(made[1]))
        open_labels(self.desk, order, self)

    def _no_blank(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.ask.field.say(error.sentence)
        else:
            self.desk.tell_error(error)
