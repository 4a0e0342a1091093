"""The left side of the containers page: the bench, or the container that is chosen."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QComboBox, QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.errors import Trouble
from bagtag.domain.phrases import capital
from bagtag.ui.card.card_block import Block
from bagtag.ui.containers.containers_where import Whereabouts
from bagtag.ui.forms.basics import TOUCH, Field, Line, button, label
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.stages.stage_list import PartList

if TYPE_CHECKING:
    from bagtag.services.containers import ContainerRow
    from bagtag.services.views import StripRow

NOWHERE = "nothing"
SAID = 3
"""So much is said of what lies in a container before it goes in; the rest is counted."""
LEAST = 3
"""So many parts are in sight, however little room there is."""


class PartsHere(PartList):
    """As many as there is room for, and no fewer than three in sight, or all."""

    def show_rows(self, rows: "Sequence[StripRow]") -> None:
        super().show_rows(rows)
        self.setVisible(bool(rows))
        high = max(self.sizeHintForRow(0), 0) * min(len(rows), LEAST)
        self.setMinimumHeight(high + 2 * self.frameWidth() + 2)

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), self.minimumHeight())


class ContainersPanel(QFrame):
    saved = Signal(str, object)
    """A new name and the id it stands in (None: nothing)."""
    deleted = Signal()
    printed = Signal()
    benched = Signal(list)
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.row: ContainerRow | None = None
        self._parents: list[int | None] = [None]
        self.setProperty("surface", "card")
        self.head = label("", self, scale="head")
        self.view = Scroll(self, "The container")
        inside = self.view.body
        self.parts = PartsHere("Parts that lie here", inside)
        self.before = Block(inside)
        self.hint = label("", inside, scale="small", tone="muted")
        self.bench = button("Put on the bench", inside)
        self.form = QWidget(inside)
        self.name = Line(self.form, "Number or name")
        self.parent_box = QComboBox(self.form)
        self.parent_box.setMinimumHeight(TOUCH)
        self.fields = {
            "name": Field("Number", self.name, self.form),
            "parent": Field("Stands in", self.parent_box, self.form),
        }
        self.save = button("Save", self.form)
        self.print = button("Print label", self.form)
        self.delete = button("Delete", self.form)
        self.back = button("Back to the bench", self.form, role="quiet")
        self._lay()
        self._connect()

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 2, 12)
        column.setSpacing(8)
        column.addWidget(self.head)
        column.addWidget(self.view, 1)
        self.view.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        inside = self.view.column
        inside.setContentsMargins(0, 0, 12, 0)
        inside.setSpacing(8)
        inside.addWidget(self.before)
        inside.addWidget(self.parts, 1)
        for widget in (self.hint, self.bench, self.form):
            inside.addWidget(widget)
        form = QVBoxLayout(self.form)
        form.setContentsMargins(0, 0, 0, 0)
        form.setSpacing(8)
        pair_of_fields = QHBoxLayout()
        pair_of_fields.addWidget(self.fields["name"], 2)
        pair_of_fields.addWidget(self.fields["parent"], 3)
        form.addLayout(pair_of_fields)
        for pair in ((self.save, self.print), (self.delete, self.back)):
            row = QHBoxLayout()
            for press in pair:
                row.addWidget(press, 1)
            form.addLayout(row)

    def _connect(self) -> None:
        self.save.clicked.connect(self._save)
        self.name.returnPressed.connect(self._save)
        self.print.clicked.connect(self.printed)
        self.delete.clicked.connect(self.deleted)
        self.back.clicked.connect(self.left)
        self.bench.clicked.connect(self._bench)
        self.parts.changed.connect(self._count)

    def show_bench(self, where: Whereabouts) -> None:
        loose = where.on_the_bench
        self.row = None
        self.before.say("", ())
        self.form.hide()
        self.head.setText(f"On the bench, {len(loose)}" if loose else "Nothing lies loose")
        self.parts.show_rows(loose)
        self._count()

    def show_container(self, row: "ContainerRow", where: Whereabouts) -> None:
        same = self.row is not None and self.row.container == row.container
        self.row = row
        inside = where.inside(row.container.id)
        count = f", {len(inside)}" if inside else ", empty"
        self.head.setText(capital(row.container.label) + count)
        self.parts.show_rows(inside)
        self.delete.setEnabled(not inside and not where.standing_in(row.container.id))
        self.form.show()
        if not same:
            self._fill(row, where)
        self._count()

    def tell(self, told: "tuple[int, tuple[str, ...]]") -> None:
        """What is to be known of what lies in a container before it goes in."""
        container_id, sentences = told
        if self.row is not None and self.row.container.id == container_id:
            more = len(sentences) - SAID
            shown = sentences[:SAID] if more > 0 else sentences
            rest = (f"and {more} more; each card says what",) if more > 0 else ()
            self.before.say("Before these go in", (*shown, *rest))

    def _fill(self, row: "ContainerRow", where: Whereabouts) -> None:
        self.name.setText(row.container.name)
        others = [r.container for r in where.containers if r.container.id != row.container.id]
        self._parents = [None, *(other.id for other in others)]
        self.parent_box.clear()
        self.parent_box.addItems([NOWHERE, *(other.label for other in others)])
        parent = row.container.parent_id
        self.parent_box.setCurrentIndex(
            self._parents.index(parent) if parent in self._parents else 0
        )
        self.say_wrong(None)

    def say_wrong(self, error: Trouble | None) -> None:
        for name, field in self.fields.items():
            mine = error is not None and (error.field or "name") == name
            field.say(error.sentence if error is not None and mine else "")

    def _count(self) -> None:
        chosen = len(self.parts.chosen())
        self.bench.setVisible(bool(chosen) and self.row is not None)
        if chosen:
            self.hint.setText(f"{chosen} chosen. Press the container they go into, or drag them.")
        elif self.parts.isVisibleTo(self):
            self.hint.setText("Space chooses parts; then press the container they go into.")
        else:
            self.hint.setText("" if self.row else "Every part that is off lies in a container.")

    def _save(self) -> None:
        self.saved.emit(self.name.text(), self._parents[self.parent_box.currentIndex()])

    def _bench(self) -> None:
        self.benched.emit(self.parts.chosen())
