"""Putting holes, and saying which fastener goes into each."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QWidget

from bagtag.domain.hole_counts import holes_named
from bagtag.ui.forms.basics import Field, Line, button, label, tight
from bagtag.ui.forms.choice import Choice
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_lines import LineList
from bagtag.ui.holes.hole_page import MapPage
from bagtag.ui.holes.hole_sheet import HoleSheet

NO_LINES = (
    "No hardware is logged for this part. Put the holes now; add bolts or nuts on the part's "
    "entry, and say here which goes into which hole."
)


class HolesPage(MapPage):
    """A click puts a hole or chooses one; a letter says what goes into it."""

    title = "Holes"
    is_of_lines = True
    hint = (
        "Click to put a hole, or to choose one. Drag to move it. Several: Ctrl and click. "
        "By keys: arrows and Enter; Page Down goes to the next hole, Ctrl and arrows move it, "
        "Delete takes it out. Alt and 1 to 5 open the pages above."
    )

    def __init__(self, draft: Draft, sheet: HoleSheet, parent: QWidget) -> None:
        super().__init__(draft, sheet, parent)
        self.caption = label("", self)
        self.lines = LineList(self)
        self.group = Line(self, "Group", hint="tightened by itself")
        self.out = button("Take out\u2002Del", self, name="Take out the chosen holes")
        self.anew = button("", self)
        self.fields = {"group": Field("Group of the chosen holes", self.group, self)}
        self._lay()
        self.lines.taken.connect(draft.take_line)
        self.group.editingFinished.connect(self._group_typed)
        self.out.clicked.connect(draft.take_out)
        self.anew.clicked.connect(draft.renumber)

    def _lay(self) -> None:
        acts = QHBoxLayout()
        tight(acts, 8)
        acts.addWidget(self.out)
        acts.addWidget(self.anew)
        acts.addStretch(1)
        self.column.insertWidget(0, self.caption)
        self.column.insertWidget(1, self.lines)
        self.column.insertWidget(2, self.fields["group"])
        self.column.insertLayout(3, acts)
        self.column.addStretch(1)

    def refresh(self) -> None:
        draft, chosen = self.draft, self.draft.chosen
        holes = [hole for hole in draft.map.holes if hole.number in chosen]
        self.caption.setText(self._caption())
        marks = {hole.mark for hole in holes} if chosen else {draft.line or None}
        self.lines.setVisible(bool(draft.held_by))
        self.lines.show_lines(draft.held_by, draft.map, marks.pop() if len(marks) == 1 else None)
        self.chain(self.lines.choices)
        groups = {hole.group for hole in holes}
        self.group.setText(groups.pop() if len(groups) == 1 else "")
        self.group.suggest(sorted({hole.group for hole in draft.map.holes if hole.group}))
        self.fields["group"].setEnabled(bool(chosen))
        self.out.setEnabled(bool(chosen))
        self.anew.setEnabled(bool(draft.map.holes))
        word = "Number from here" if chosen else "Close gaps"
        self.anew.setText(word)
        self.anew.setAccessibleName(f"{word}: number the holes anew")

    def _caption(self) -> str:
        chosen = self.draft.chosen
        if not self.draft.held_by:
            return NO_LINES
        if not chosen:
            return "Choose a line to see its holes; new holes get it"
        return f"What goes into {holes_named(chosen)}"

    def take_spot(self, x: float, y: float) -> None:
        self.draft.put_one(x, y)

    def let_go(self) -> bool:
        if not (self.draft.chosen or (self.draft.line and len(self.draft.held_by) > 1)):
            return False
        if not self.draft.chosen:
            self.draft.line = ""
        self.draft.point(())
        return True

    def accept(self) -> bool:
        here = self.focusWidget()
        if isinstance(here, Choice) and here.hasFocus():
            here.click()
            return True
        if not self.group.hasFocus():
            return False
        self.sheet.setFocus()  # which ends the typing, and gives the group
        return True

    def _group_typed(self) -> None:
        if self.draft.chosen and self.group.isModified():
            self.group.setModified(False)
            self.draft.set_group(self.group.text().strip())
