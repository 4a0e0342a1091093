"""The hole map of a part: put, numbered, each with its fastener, in the order of tightening."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import BadInput, Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.ask_keys import AskKeys
from bagtag.ui.forms.basics import ENTER, button, label, tight
from bagtag.ui.holes.ground_page import GroundPage, drawn, on_photo
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_panel import Panel
from bagtag.ui.holes.hole_photo import PhotoUnder
from bagtag.ui.holes.hole_sheet import HoleSheet
from bagtag.ui.holes.holes_page import HolesPage
from bagtag.ui.holes.order_page import OrderPage
from bagtag.ui.holes.page_bar import PageBar
from bagtag.ui.holes.pattern_page import PatternPage
from bagtag.ui.holes.scale_page import ScalePage
from bagtag.ui.holes.template_dialog import open_template

if TYPE_CHECKING:
    from bagtag.services.holes import MapView

NOT_KEPT = "The map is changed and not kept. Keep it with Ctrl+Enter, or press Esc once more."
NO_HOLES = "There is no hole on the map yet: click where one is, or put a pattern in."
NO_SCALE = "A template needs a scale: click two holes and say how far apart they are."


def open_hole_map(desk: Desk, parent: QWidget | None, removal_id: int) -> HoleMapDialog:
    """Open the hole map of a part over its window; it goes away by itself."""
    dialog = HoleMapDialog(desk, parent, removal_id)
    dialog.open()
    return dialog


class HoleMapDialog(QDialog):
    """Ctrl+Enter keeps the map, Esc lets go of what is chosen and then leaves."""

    def __init__(self, desk: Desk, parent: QWidget | None, removal_id: int) -> None:
        super().__init__(parent)
        self.desk, self._removal_id = desk, removal_id
        self._part = ""
        self._was_kept = self._is_busy = self._is_warned = self._wants_template = False
        self.setWindowTitle("Hole map")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.draft = Draft(self)
        self.sheet = HoleSheet(self.draft, self)
        self.head = label("Hole map", self, scale="head")
        self._make_pages()
        self._make_acts()
        self._keys = AskKeys(self)
        self._photo = PhotoUnder(desk, self.sheet)
        self._lay()
        self._connect()
        self.sheet.setFocus()
        desk.ask(services.holes.map_view, removal_id, then=self._show, failed=self._gone)

    def _make_pages(self) -> None:
        self.holes = HolesPage(self.draft, self.sheet, self)
        self.pattern = PatternPage(self.draft, self.sheet, self)
        self.order = OrderPage(self.draft, self.sheet, self)
        self.scale = ScalePage(self.draft, self.sheet, self)
        self.ground = GroundPage(self.draft, self.sheet, self)
        pages = (self.holes, self.pattern, self.order, self.scale, self.ground)
        self.panel = Panel(self.draft, pages, self)
        self.bar = PageBar([page.title for page in pages], self.sheet, self)

    def _make_acts(self) -> None:
        self.keep = Act("Keep it", "Ctrl+Return", self, role="primary")
        self.keep.setText("Keep it\u2002Ctrl+Enter")
        QShortcut(QKeySequence("Ctrl+Enter"), self).activated.connect(self.keep.click)
        self.template = Act("Print 1:1 template", "Ctrl+P", self)
        self.back = Act("Undo", "Ctrl+Z", self, role="quiet")
        self.again = Act("Redo", "Ctrl+Shift+Z", self, role="quiet")
        self.leave = button("Leave it\u2002Esc", self, role="quiet", name="Leave it")
        self.wrong = label("", self, tone="accent")
        self.wrong.hide()

    def _lay(self) -> None:
        middle = QHBoxLayout()
        middle.setSpacing(16)
        middle.addWidget(self.sheet, 1)
        middle.addWidget(self.panel)
        acts = QHBoxLayout()
        tight(acts, 8)
        for act in (self.keep, self.template, self.leave):
            acts.addWidget(act)
        acts.addStretch(1)
        for act in (self.back, self.again):
            acts.addWidget(act)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 14, 20, 14)
        column.setSpacing(8)
        column.addWidget(self.head)
        column.addWidget(self.bar)
        column.addLayout(middle, 1)
        column.addWidget(self.wrong)
        column.addLayout(acts)
        above = self.parentWidget()
        if above is not None:
            self.resize(above.window().size() * 0.96)
        else:
            self.resize(1180, 760)

    def _connect(self) -> None:
        self.bar.chosen.connect(self.panel.open_page)
        self.sheet.spot.connect(self.panel.take_spot)
        self.sheet.hole.connect(self.panel.take_hole)
        self.draft.changed.connect(self._changed)
        self.draft.refused.connect(self._refused)
        self._keys.pressed.connect(self._key)
        self._photo.missed.connect(self.say_wrong)
        self.keep.clicked.connect(self.save)
        self.template.clicked.connect(self.print_template)
        self.back.clicked.connect(self.draft.undo)
        self.again.clicked.connect(self.draft.redo)
        self.leave.clicked.connect(self.reject)

    # What is shown

    def _show(self, view: MapView) -> None:
        self._part = f"{view.removal.number} {view.removal.name}"
        self.setWindowTitle(f"Holes of {self._part}")
        self.ground.show_photos(view.photos)
        found = view.hole_map
        self._was_kept = found is not None
        if found is None:
            found = on_photo(view.photos[0]) if view.photos else drawn(200, 150)
        self.draft.begin(found, view.held_by)
        if found.photo and self.ground.photo(found.photo) is None:
            self.bar.choose(self.ground.title)

    def _say_head(self) -> None:
        side = self.draft.map.seen_from
        seen = f", seen from {side}" if side else ""
        self.head.setText(f"Holes of {self._part}{seen}")

    def _gone(self, error: Exception) -> None:
        self.desk.tell_error(error)
        super().reject()

    def _changed(self) -> None:
        self._is_warned = False
        self.say_wrong("")
        self._say_head()
        self.keep.setEnabled(self.draft.is_changed)
        self.back.setEnabled(self.draft.can_undo)
        self.again.setEnabled(self.draft.can_redo)
        digest = self.draft.map.photo
        self._photo.show(digest, self.ground.photo(digest))

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            if not self._keys.end():  # a scanner's own end key
                self._enter(adding=_adds(event))
        elif event.key() == Qt.Key.Key_Escape or not self._keys.hear(event):
            super().keyPressEvent(event)

    def _enter(self, *, adding: bool) -> None:
        page, on_map = self.panel.page, self.sheet.hasFocus()
        if on_map and not (page.takes_enter and self.sheet.cross is None):
            self.sheet.press_cross(adding=adding)
        else:
            page.accept()

    def _key(self, key: str) -> None:
        """A key that came alone, and so is no scan."""
        if key == "0":
            self.sheet.fit()
        elif key == " " and self.sheet.hasFocus():
            self.sheet.press_cross()
        elif key.upper() in self.holes.lines.marks:
            self.bar.choose(self.holes.title)
            self.draft.take_line(key.upper())

    # Keep, print, leave

    def save(self) -> None:
        """Keep the map as it is, once however often the key is pressed."""
        if self._is_busy or not self.draft.is_changed:
            return
        holes = services.holes
        self._saving = self.draft.map
        if not self._saving.holes and not self._was_kept:
            self.say_wrong(NO_HOLES)
            return
        self._is_busy = True
        told = {"then": self._kept, "failed": self._not_kept}
        if self._saving.holes:
            self.desk.act(holes.save_map, self._removal_id, self._saving, **told)
        else:
            self.desk.act(holes.delete_map, self._removal_id, **told)

    def _kept(self, _: object) -> None:
        self._is_busy = False
        self._was_kept = bool(self._saving.holes)
        self.draft.kept(self._saving)
        what = "Kept: the" if self._saving.holes else "No more a map of the"
        self.desk.say(f"{what} holes of {self._part}.")
        if self._wants_template:
            self._wants_template = False
            open_template(self.desk, self, self._removal_id)
        else:
            self.accept()

    def _not_kept(self, error: Exception) -> None:
        self._is_busy = self._wants_template = False
        if isinstance(error, Trouble):
            self._say(error)
        else:
            self.desk.tell_error(error)

    def print_template(self) -> None:
        """The template is of the map as it is kept, so it is kept first."""
        if not self.draft.map.holes:
            self.say_wrong(NO_HOLES)
        elif self.draft.map.millimetres_per_unit() is None:
            self.bar.choose(self.scale.title)
            self.say_wrong(NO_SCALE)
        elif self.draft.is_changed:
            self._wants_template = True
            self.save()
        else:
            open_template(self.desk, self, self._removal_id)

    def reject(self) -> None:
        """Esc lets go first, and leaves what is not kept only when it is pressed again."""
        if self.panel.page.let_go():
            return
        if self.draft.is_changed and not self._is_warned:
            self._is_warned = True
            self.say_wrong(NOT_KEPT)
            return
        super().reject()

    def closeEvent(self, event: QCloseEvent) -> None:
        """The window's own cross: as Esc, but at once past what is only chosen."""
        if self.draft.is_changed and not self._is_warned:
            self._is_warned = True
            self.say_wrong(NOT_KEPT)
            event.ignore()
        else:
            super().closeEvent(event)

    # What is wrong

    def _refused(self, wrong: BadInput) -> None:
        self._say(wrong)

    def _say(self, trouble: Trouble) -> None:
        if not self.panel.page.say_wrong(trouble):
            self.say_wrong(trouble.sentence)

    def say_wrong(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))


def _adds(event: QKeyEvent) -> bool:
    return bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
