"""The photos of one removal: chosen, dropped, pasted, or from the folder a phone syncs to."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSettings, QSize, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QHideEvent,
    QImage,
    QKeyEvent,
    QKeySequence,
    QShowEvent,
)
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.model import Photo, PhotoRole
from bagtag.ui.desk import Desk
from bagtag.ui.forms import clear_layout, label, tight
from bagtag.ui.forms_flow import FlowBox
from bagtag.ui.photo_acts import PhotoActs
from bagtag.ui.photo_sources import Coming, clipboard_pictures, keep, pictures_in, read_scaled
from bagtag.ui.photo_tile import HIGH, WIDE, PhotoTile
from bagtag.ui.photo_view import PhotoView

if TYPE_CHECKING:
    from bagtag.store.photo_files import Taken
    from bagtag.store.work import Store

EMPTY = "Drop pictures here, paste them with Ctrl+V, or choose them."


def photos_of(store: "Store", removal_id: int) -> tuple[int, tuple[Photo, ...]]:
    """The photos of a removal, without the plan of the build that its card would need."""
    no_plan = services.board.Board(0, ())
    return removal_id, services.views.card(store, removal_id, no_plan).photos


class PhotoStrip(QWidget):
    """Photos of the removal that is open, or of the entry that is not logged yet.

    Pictures are kept at once, so that a refused one is named at once; those of a new entry are
    given to it by `logged_as`.
    """

    counted = Signal(int)

    def __init__(
        self,
        desk: Desk,
        parent: QWidget | None = None,
        *,
        role: PhotoRole = PhotoRole.OFF,
        settings: QSettings | None = None,
    ) -> None:
        super().__init__(parent)
        self.desk = desk
        self.role = role
        self._removal_id: int | None = None
        self._ticket = 0
        self._logged: dict[int, int] = {}
        self._pending: list[Taken] = []
        self._photos: tuple[Photo, ...] = ()
        self._tiles: list[tuple[str, PhotoTile]] = []
        self._view: PhotoView | None = None
        self.acts = PhotoActs(settings or QSettings(), self)
        self.watch = self.acts.watch
        self._build()
        self.setAcceptDrops(True)
        self.acts.coming.connect(self.add)
        self.acts.lost.connect(self._say_lost)
        desk.changed.connect(self._hear)

    def _build(self) -> None:
        self.empty = label(EMPTY, self, scale="small", tone="muted")
        self.refused = label("", self, scale="small", tone="accent")
        self.refused.hide()
        self._tray = FlowBox(self, 10)
        self._tray.hide()
        column = QVBoxLayout(self)
        tight(column, 8)
        for part in (self._tray, self.empty, self.refused):
            column.addWidget(part)
        column.addWidget(self.acts)

    @property
    def count(self) -> int:
        return len(self._tiles)

    @property
    def tiles(self) -> list[PhotoTile]:
        return [tile for _, tile in self._tiles]

    @property
    def pending(self) -> "tuple[Taken, ...]":
        """Pictures kept for the entry that is not logged yet."""
        return tuple(self._pending)

    def open(self, removal_id: int | None, pending: "Sequence[Taken]" = ()) -> None:
        """Show the photos of a removal; None is a new entry, with what was kept for it before."""
        self._ticket += 1
        self._removal_id = removal_id
        self._pending, self._photos = list(pending), ()
        self._say([])
        self._show()
        if removal_id is not None:
            self._ask()

    def logged_as(self, removal_id: int) -> None:
        """The new entry is logged: its pictures are its own, also those still being read."""
        self._logged[self._ticket] = removal_id
        self._removal_id = removal_id
        self.give(removal_id, self._pending)
        self._pending = []

    def give(self, removal_id: int, taken: "Sequence[Taken]") -> None:
        """Give kept pictures to a removal."""
        if taken:
            self._enter(removal_id, taken)

    def add(self, coming: Sequence[Coming]) -> None:
        """Take pictures in; each that cannot be read is named, the rest are taken."""
        self._say([])
        service = services.photos.keep
        self.desk.draw(keep, service, self.desk.store, list(coming), self._ticket, then=self._kept)

    def paste(self) -> bool:
        """Take the pictures on the clipboard; False when there are none."""
        coming = clipboard_pictures()
        if coming:
            self.add(coming)
        return bool(coming)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not (event.matches(QKeySequence.StandardKey.Paste) and self.paste()):
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if pictures_in(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        coming = pictures_in(event.mimeData())
        if coming:
            event.acceptProposedAction()
            self.add(coming)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.watch.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.watch.stop()

    def _kept(self, answer: "tuple[int, list[Taken], list[str]]") -> None:
        ticket, taken, refused = answer
        removal_id = self._removal_id if ticket == self._ticket else self._logged.get(ticket)
        if removal_id is not None and taken:
            self._enter(removal_id, taken)
        elif ticket == self._ticket:
            known = {one.hash for one in self._pending}
            self._pending += [one for one in taken if one.hash not in known]
            self._show()
        if refused:
            self._say([*filter(None, [self.refused.text()]), *refused])

    def _enter(self, removal_id: int, taken: "Sequence[Taken]") -> None:
        self.desk.act(
            services.photos.enter, removal_id, tuple(taken), self.role, failed=self._not_entered
        )

    def _not_entered(self, error: BaseException) -> None:
        if not isinstance(error, Trouble):
            raise error
        self._say([error.sentence])

    def _hear(self, change: Change) -> None:
        if self._removal_id is not None and change.touches("photo"):
            self._ask()

    def _ask(self) -> None:
        self.desk.ask(photos_of, self._removal_id, then=self._show_photos, failed=self._gone)

    def _gone(self, error: BaseException) -> None:
        """The removal was taken out meanwhile; whoever shows it says so."""
        if not isinstance(error, Trouble):
            raise error

    def _show_photos(self, answer: tuple[int, tuple[Photo, ...]]) -> None:
        removal_id, photos = answer
        if removal_id == self._removal_id:
            self._photos = photos
            self._show()

    def _show(self) -> None:
        """A tile for each photo; one that is there already keeps its picture."""
        rows = [(p.hash, p.name, p.role.value) for p in self._photos]
        rows += [(t.hash, t.name, self.role.value) for t in self._pending]
        clear_layout(self._tray.flow)
        self._tiles = [(row[0], self._tile(*row)) for row in rows]
        self._tray.setVisible(bool(rows))
        self.empty.setVisible(not rows)
        self.updateGeometry()
        self.counted.emit(len(rows))

    def _tile(self, digest: str, name: str, role: str) -> PhotoTile:
        tile = PhotoTile(name, role, self._tray)
        tile.clicked.connect(self._opened)
        tile.removed.connect(self._removed)
        self._tray.flow.addWidget(tile)
        tile.show()
        ratio = self.devicePixelRatioF()
        box = QSize(round(WIDE * 1.4 * ratio), round(HIGH * 1.4 * ratio))
        path = services.photos.thumb(self.desk.store, digest)
        self.desk.draw(read_scaled, path, box, digest, then=self._painted)
        return tile

    def _painted(self, answer: tuple[str, QImage]) -> None:
        digest, image = answer
        for known, tile in self._tiles:
            if known == digest:
                tile.set_image(image)

    def _place(self) -> int:
        tile = self.sender()
        return next(n for n, (_, known) in enumerate(self._tiles) if known is tile)

    def _removed(self) -> None:
        place = self._place()
        if place < len(self._photos):
            self.desk.act(services.photos.take_out, self._photos[place].id)
        else:
            del self._pending[place - len(self._photos)]
            self._show()
        self.acts.choose.setFocus()

    def _opened(self) -> None:
        place = self._place()
        if place < len(self._photos):
            self._view = PhotoView(self.desk, self._photos, place, self)
            self._view.open()
        else:
            self._say(["It opens large once the entry is logged."])

    def _say_lost(self, sentence: str) -> None:
        self._say([sentence])

    def _say(self, sentences: Sequence[str]) -> None:
        self.refused.setText("\n".join(sentences))
        self.refused.setVisible(bool(sentences))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()
