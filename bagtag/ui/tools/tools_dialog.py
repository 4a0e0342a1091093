"""Tools: what to lay out for what is still to fit, laid out, and counted back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.kinds import fold
from bagtag.domain.model import Area
from bagtag.domain.tools import COUNT, ToolSheet
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import ENTER, Field, Line, label, tight
from bagtag.ui.tools.special_form import open_special
from bagtag.ui.tools.tools_about import ToolAbout
from bagtag.ui.tools.tools_lines import ToolLine, Where, lines_of
from bagtag.ui.tools.tools_list import ToolsList
from bagtag.ui.tools.tools_out import StillOut
from bagtag.ui.tools.tools_print import open_tools_page
from bagtag.ui.tools.tools_span import ToolsSpan

if TYPE_CHECKING:
    from bagtag.services.tools import Span

LEAST = 720, 500
NOTHING = "Nothing that is still to fit asks for a tool."
_NONE_OUT = "Nothing is laid out."
_ALL_BACK = "All that was laid out is counted back."


def open_tools(desk: Desk, parent: QWidget | None, job_id: int) -> ToolsDialog:
    """Open the tools of a job."""
    dialog = ToolsDialog(desk, parent, job_id)
    dialog.open()
    return dialog


class ToolsDialog(QDialog):
    """The list at the left, the chosen tool in full at the right, what is still out above both."""

    def __init__(self, desk: Desk, parent: QWidget | None, job_id: int) -> None:
        super().__init__(parent)
        self.desk, self.job_id = desk, job_id
        self.sheet = ToolSheet()
        self._back: set[str] = set()
        self._asked: Span | None = None
        self.setWindowTitle("Tools to lay out")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._make()
        self._lay()
        self._connect()
        desk.ask(services.jobs.areas_of, job_id, then=self._areas_known)
        self._ask()
        self.list.setFocus()

    def _make(self) -> None:
        self.span = ToolsSpan(self)
        self.out = StillOut(self)
        self.none = label("", self, tone="muted")
        self.list = ToolsList(self)
        self.about = ToolAbout(self)
        self.unknown = label("", self, tone="accent")
        self.other = Line(self, "Another tool to lay out", hint="lamp, rag, feeler gauge")
        self.field = Field("Another tool: write it, Enter lays it out", self.other, self)
        self.next = Act("Lay it out", "", self, role="primary")
        self.all = Act("Lay all out", "Ctrl+L", self)
        self.special = Act("Special tool", "Ctrl+T", self)
        self.print = Act("Print", "Ctrl+P", self)
        self.close_it = Act("Close", "", self, role="quiet")
        self.close_it.setText("Close\u2002Esc")
        self.cautions = label("", self, scale="small", tone="muted")

    def _lay(self) -> None:
        right = QVBoxLayout()
        tight(right, 10)
        right.addWidget(self.about, 1)
        right.addWidget(self.field)
        self.body = QWidget(self)
        middle = QHBoxLayout(self.body)
        tight(middle, 16)
        middle.addWidget(self.list, 8)
        middle.addLayout(right, 5)
        acts = QHBoxLayout()
        tight(acts, 10)
        for act in (self.next, self.all, self.special, self.print):
            acts.addWidget(act)
        acts.addStretch(1)
        acts.addWidget(self.close_it)
        column = QVBoxLayout(self)
        column.setSizeConstraint(QLayout.SizeConstraint.SetNoConstraint)  # it never grows by itself
        self.setMinimumSize(*LEAST)
        column.setContentsMargins(20, 16, 20, 14)
        column.setSpacing(10)
        for widget in (self.span, self.out, self.none, self.unknown):
            column.addWidget(widget)
        column.addWidget(self.body, 1)
        column.addStretch(0)
        column.addLayout(acts)
        column.addWidget(self.cautions)
        self.resize(*_size(self.parentWidget()))

    def _connect(self) -> None:
        self.span.changed.connect(self._ask)
        self.span.choosing.connect(self._make_room)
        self.list.moved.connect(self._offer)
        self.list.laid_out.connect(self.lay_out)
        self.list.counted_back.connect(self.count_back)
        self.next.clicked.connect(self.list.do_next)
        self.all.clicked.connect(self.lay_all)
        self.special.clicked.connect(self.note_special)
        self.print.clicked.connect(self.print_it)
        self.close_it.clicked.connect(self.reject)
        self.other.textChanged.connect(self._mended)
        self.desk.changed.connect(self._heard)

    # What is shown

    def _areas_known(self, areas: Sequence[Area]) -> None:
        self.span.set_areas(areas)

    def _make_room(self, is_choosing: bool) -> None:
        """While an area is chosen its list has the room of the tools."""
        self.body.setHidden(is_choosing)
        self._offer()

    def _heard(self, change: Change) -> None:
        if change.job_id in (0, self.job_id):
            self._ask()

    def _ask(self) -> None:
        span = self.span.span
        if span is not None:
            self._asked = span
            self.desk.ask(sheet_of, self.job_id, span, then=self._known)

    def _known(self, answer: tuple[Span, ToolSheet]) -> None:
        span, sheet = answer
        if span == self._asked:
            self._show(sheet)

    def _show(self, sheet: ToolSheet) -> None:
        self._back -= {fold(one.name) for one in sheet.out}
        self.sheet = sheet
        self.list.show_lines(lines_of(sheet, self._back))
        self.out.show_sheet(sheet)
        self.none.setText(self._calm_words())
        self.none.setVisible(not sheet.out)
        self._say_unknown()
        self.cautions.setText(" ".join(TORQUE_CAUTIONS if sheet.has_torque else ()))
        self.cautions.setVisible(sheet.has_torque)
        self._offer()

    def _calm_words(self) -> str:
        if not self.sheet.rows:
            return NOTHING
        return _ALL_BACK if self._back else f"{_NONE_OUT} {COUNT}"

    def _say_unknown(self) -> None:
        """Fasteners that nothing tells a tool for, in one line."""
        told = [f"{one.called} ({one.what})" for one in self.sheet.unknown[:3]]
        more = len(self.sheet.unknown) - len(told)
        told += [f"{more} more"] if more > 0 else []
        self.unknown.setText(f"! Look at the heads first: {', '.join(told)}." if told else "")
        self.unknown.setVisible(bool(told))

    def _offer(self) -> None:
        """The acts that make sense now."""
        here = self.list.here
        self.about.show_tool(here)
        is_out = here is not None and here.where is Where.OUT
        self.next.say("Count it back" if is_out else "Lay it out")
        self.next.setText(f"{self.next.word}\u2002Enter")
        is_shown = not self.body.isHidden()
        self.next.setEnabled(is_shown and here is not None and here.is_counted)
        self.all.setEnabled(is_shown and bool(self._not_out()))

    def _not_out(self) -> list[str]:
        """The tools of the list that are counted and not out, by name."""
        tools = [line for line in self.list.tools.lines if isinstance(line, ToolLine)]
        return [tool.name for tool in tools if tool.is_counted and tool.where is Where.AWAY]

    # What is done

    def lay_out(self, name: str) -> None:
        self._take([name])

    def lay_all(self) -> None:
        """All that is not out yet and was not counted back."""
        if names := self._not_out():
            self._take(names)

    def _take(self, names: Sequence[str]) -> None:
        take = services.tools.take_out
        self.desk.act(take, self.job_id, names, then=self._taken, failed=self._refused)

    def _taken(self, _: Change) -> None:
        if self.other.hasFocus():
            self.other.clear()

    def _refused(self, error: Exception) -> None:
        if isinstance(error, Trouble) and error.field == "name":
            self.field.say(error.sentence)
        else:
            self.desk.tell_error(error)

    def _mended(self) -> None:
        self.field.say("")

    def count_back(self, tool_id: int) -> None:
        """Count one back; it keeps its tick until it is laid out again."""
        out = next((one for one in self.sheet.out if one.id == tool_id), None)
        if out is not None:
            self._back |= {fold(out.name)} if out.count == 1 else set()
            self.desk.act(services.tools.count_one_back, tool_id)

    def note_special(self) -> None:
        """For the part that the chosen tool is for first, or for another."""
        need = self.list.here.need if self.list.here is not None else None
        refs = [step.ref for step in need.steps if step.ref.removal_id] if need else []
        open_special(self.desk, self, refs[0] if refs else None)

    def print_it(self) -> None:
        if self._asked is not None:
            open_tools_page(self.desk, self, self._asked)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in ENTER:
            super().keyPressEvent(event)
        elif self.other.hasFocus():
            self._take([self.other.text()])
        else:
            self.list.setFocus()


def _size(above: QWidget | None) -> tuple[int, int]:
    """As large as the window has room for, at most what is comfortable."""
    if above is None:
        return 1040, 700
    window = above.window()
    return min(1040, window.width() - 20), min(700, window.height() - 20)


def sheet_of(store: Any, job_id: int, span: Span) -> tuple[Span, ToolSheet]:
    """What to lay out, and for which span."""
    return span, services.tools.lay_out(store, job_id, span)
