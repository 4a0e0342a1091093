"""One area: its name, where it lies, and what opens it."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain import areas as tree
from bagtag.domain.errors import Trouble
from bagtag.domain.model import Area
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, Field, Line, button, label, tight
from bagtag.ui.forms.removal_picker import RemovalPicker
from bagtag.ui.forms.words import WordField


class AreaForm(QFrame):
    """Enter keeps what was changed, Esc leaves it."""

    done = Signal(int)
    left = Signal()
    deleted = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "card")
        self.desk = desk
        self._area: Area | None = None
        self._paths: dict[str, int] = {}
        self._opener_id: int | None = None
        self.name = Line(self, "Name of the area")
        self.inside_field = WordField("Inside", (), self, "at the top")
        self.inside = self.inside_field.line
        self.opener = RemovalPicker(desk, "Opened by", self, hint="a cover, a case half, a head")
        self.fields = {
            "name": Field("Name", self.name, self),
            "parent": self.inside_field,
            "opener": self.opener.field,
        }
        self.said = label("", self, scale="small", tone="accent")
        self.keep = button("Keep it  Enter", self, name="Keep the area")
        self.take_out = button("Take it out", self, role="quiet", name="Take the area out")
        self.leave = button("Leave it  Esc", self, role="quiet", name="Leave the area as it was")
        self.cover = button("", self, role="quiet", name="Whether something covers the area")
        self.cover.clicked.connect(self._cover)
        self.keep.clicked.connect(self.save)
        self.take_out.clicked.connect(self._take_out)
        self.leave.clicked.connect(self.left)
        self.opener.picked.connect(self._picked)
        self.opener.left.connect(self.left)
        self._lay_out()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        tight(grid, 12)
        grid.addWidget(self.fields["name"], 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.fields["parent"], 0, 1, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.opener, 1, 0, 1, 2)
        row = QHBoxLayout()
        tight(row, 8)
        for press in (self.keep, self.cover, self.take_out, self.leave):
            row.addWidget(press)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        column.setSpacing(10)
        column.addLayout(grid)
        column.addWidget(self.said)
        column.addLayout(row)

    def open(self, area: Area, areas: Sequence[Area], opener: str) -> None:
        known = tree.by_id(areas)
        inner = tree.below(areas, area.id)
        listed = tree.in_tree_order(areas)
        self._paths = {tree.path_text(known, a.id): a.id for _, a in listed if a.id not in inner}
        self._area, self._opener_id = area, area.opener_id
        self.opener.job_id = area.job_id
        self.name.setText(area.name)
        self.inside_field.suggest(list(self._paths))
        self.inside.setText(tree.path_text(known, area.parent_id))
        self.opener.show_chosen(opener)
        self.opener.setVisible(not area.is_open)
        self.cover.setText("Something covers it" if area.is_open else "Nothing covers it")
        self._say_nothing()
        self.show()
        self.name.setFocus()
        self.name.selectAll()

    def save(self) -> None:
        """Keep the name and the place, then what opens it."""
        self._say_nothing()
        area, parent_id = self._area, self._parent_id()
        if area is None or parent_id == -1:
            return
        if self.opener.line.isModified() and self.opener.line.text().strip():
            self.opener.field.say("Choose one of the lines that were found: Down, then Enter.")
            self.opener.setFocus()
            return
        if not self.opener.line.text().strip():
            self._opener_id = None
        self.desk.act(
            services.jobs.edit_area, area.id, name=self.name.text(), parent_id=parent_id,
            then=self._placed, failed=self._failed,
        )  # fmt: skip

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self.save()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _parent_id(self) -> int | None:
        """None for the top; -1, and said, when there is no such area to lie in."""
        wanted = self.inside.text().strip().casefold()
        if not wanted:
            return None
        for path, area_id in self._paths.items():
            if wanted in (path.casefold(), path.split(" > ")[-1].casefold()):
                return area_id
        self.fields["parent"].say(
            f"It cannot lie inside {self.inside.text().strip()}. Choose an area from the list."
        )
        self.inside.setFocus()
        return -1

    def _picked(self, removal_id: int, _: str) -> None:
        self._opener_id = removal_id or None
        if not removal_id:
            self.save()

    def _placed(self, _: object) -> None:
        area = self._area
        if area is None:
            return
        if self._opener_id == area.opener_id:
            self.done.emit(area.id)
            return
        self.desk.act(
            services.jobs.set_opener, area.id, self._opener_id,
            then=self._opened, failed=self._failed,
        )  # fmt: skip

    def _opened(self, _: object) -> None:
        if self._area is not None:
            self.done.emit(self._area.id)

    def _failed(self, error: BaseException) -> None:
        if not isinstance(error, Trouble):
            raise error
        field = self.fields.get(error.field)
        if field is None:
            self.said.setText(error.sentence)
            self.said.show()
            return
        field.say(error.sentence)
        field.editor.setFocus()

    def _cover(self) -> None:
        """An area that nothing covers needs no opener, and the audit asks for none."""
        area = self._area
        if area is not None:
            self.desk.act(
                services.jobs.set_open, area.id, not area.is_open,
                then=self._opened, failed=self._failed,
            )  # fmt: skip

    def _take_out(self) -> None:
        if self._area is not None:
            self.deleted.emit(self._area.id)

    def _say_nothing(self) -> None:
        self.said.hide()
        for field in self.fields.values():
            field.say("")
