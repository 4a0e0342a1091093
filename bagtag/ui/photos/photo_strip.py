"""The photos of one removal: chosen, dropped, pasted, or from the folder a phone syncs to."""

from collections import Counter, defaultdict
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
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.photos.photo_acts import PhotoActs
from bagtag.ui.photos.photo_sources import (
    Coming,
    clipboard_pictures,
    keep,
    pictures_in,
    read_scaled,
)
from bagtag.ui.photos.photo_tile import HIGH, WIDE, PhotoTile
from bagtag.ui.photos.photo_view import PhotoView

if TYPE_CHECKING:
    from bagtag.store.photo_files import Taken
    from bagtag.store.work import Store

Owner = int | str
"""A removal by its id, or an entry that is not logged yet by its uid."""
EMPTY = "Drop pictures here, paste them with Ctrl+V, or choose them."


def photos_of(store: "Store", removal_id: int) -> tuple[int, tuple[Photo, ...]]:
    """The photos of a removal, with its id: the answer comes when another may be open."""
    return removal_id, services.photos.photos_of(store, removal_id)


class PhotoStrip(QWidget):
    """Photos of the removal that is open, or of the entry that is not logged yet.

    Pictures are kept at once, so that a refused one is named at once; those of a new entry wait
    under its uid until `logged_as` says which removal it became.
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
        self._owner: Owner = ""
        self._logged: dict[str, int] = {}
        self._pending: defaultdict[str, list[Taken]] = defaultdict(list)
        self._reading: Counter[Owner] = Counter()
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
        return tuple(self._waiting())

    @property
    def has_waiting(self) -> bool:
        """Whether pictures wait, or are still being read, for the entry that is not logged yet."""
        return isinstance(self._owner, str) and bool(self._waiting() or self._reading[self._owner])

    def open(self, owner: Owner) -> None:
        """Show the photos of a removal, or those that wait for a new entry by its uid."""
        self._owner, self._photos = owner, ()
        self._say([])
        self._show()
        if isinstance(owner, int):
            self._ask()

    def logged_as(self, uid: str, removal_id: int) -> None:
        """A new entry is logged: its pictures are its own, also those still being read."""
        self._logged[uid] = removal_id
        self._enter(removal_id, self._pending.pop(uid, []))
        if self._owner == uid:
            self.open(removal_id)

    def _waiting(self) -> "list[Taken]":
        return self._pending.get(self._owner, []) if isinstance(self._owner, str) else []

    def add(self, coming: Sequence[Coming]) -> None:
        """Take pictures in; each that cannot be read is named, the rest are taken."""
        self._say([])
        self._reading[self._owner] += len(coming)
        self._say_reading()
        service = services.photos.keep
        self.desk.draw(
            keep, service, self.desk.store, list(coming), self._owner,
            then=self._kept, failed=self._not_kept,
        )  # fmt: skip

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

    def _kept(self, answer: "tuple[Owner, list[Taken], list[str]]") -> None:
        owner, taken, refused = answer
        self._reading[owner] -= len(taken) + len(refused)
        if isinstance(owner, str) and owner not in self._logged:
            known = {one.hash for one in self._pending[owner]}
            self._pending[owner] += [one for one in taken if one.hash not in known]
            self._show()
        else:
            self._enter(self._logged[owner] if isinstance(owner, str) else owner, taken)
        if refused:
            self._say([*filter(None, [self.refused.text()]), *refused])
        self._say_reading()

    def _not_kept(self, error: BaseException) -> None:
        """The disk is full or may not be written: none of them is taken."""
        self._reading.clear()
        self._say_reading()
        self._not_entered(error)

    def _enter(self, removal_id: int, taken: "Sequence[Taken]") -> None:
        if taken:
            self.desk.act(
                services.photos.enter, removal_id, tuple(taken), self.role,
                failed=self._not_entered,
            )  # fmt: skip

    def _not_entered(self, error: BaseException) -> None:
        if not isinstance(error, Trouble):
            raise error
        self._say([error.sentence])

    def _hear(self, change: Change) -> None:
        if isinstance(self._owner, int) and change.touches("photo"):
            self._ask()

    def _ask(self) -> None:
        self.desk.ask(photos_of, self._owner, then=self._show_photos, failed=self._gone)

    def _gone(self, error: BaseException) -> None:
        """The removal was taken out meanwhile; whoever shows it says so."""
        if not isinstance(error, Trouble):
            raise error

    def _show_photos(self, answer: tuple[int, tuple[Photo, ...]]) -> None:
        removal_id, photos = answer
        if removal_id == self._owner:
            self._photos = photos
            self._show()

    def _show(self) -> None:
        """A tile for each photo; one that is there already keeps its picture."""
        rows = [(p.hash, p.name, p.role.value) for p in self._photos]
        rows += [(t.hash, t.name, self.role.value) for t in self._waiting()]
        clear_layout(self._tray.flow)
        self._tiles = [(row[0], self._tile(*row)) for row in rows]
        self._tray.setVisible(bool(rows))
        self._say_reading()
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
            del self._waiting()[place - len(self._photos)]
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

    def _say_reading(self) -> None:
        """A phone's pictures take a second each: say that they are on their way."""
        count = self._reading[self._owner]
        words = "Reading a picture…" if count == 1 else f"Reading {count} pictures…"
        self.empty.setText(words if count else EMPTY)
        self.empty.setVisible(bool(count) or not self._tiles)

    def _say(self, sentences: Sequence[str]) -> None:
        self.refused.setText("\n".join(sentences))
        self.refused.setVisible(bool(sentences))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()
