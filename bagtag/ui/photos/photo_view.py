"""One photo large, and from one to the next by key."""

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QImage, QKeyEvent, QPixmap, QResizeEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.model import Photo, PhotoRole
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Press, button, label, tight
from bagtag.ui.photos.photo_sources import read_scaled

_ROLES = {PhotoRole.OFF: PhotoRole.FITTED, PhotoRole.FITTED: PhotoRole.OFF}
_KEYS = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_PageUp: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_PageDown: 1,
}


class PhotoView(QDialog):
    """Arrows turn over, Space is full size and back, R says what it shows, Esc closes."""

    def __init__(
        self, desk: Desk, photos: Sequence[Photo], place: int = 0, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.desk = desk
        self._photos = list(photos)
        self.place = place
        self.full_size = False
        self._image = QImage()
        self.setWindowTitle("Photo")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.title = label("", self, scale="head")
        self.detail = label("", self, scale="small", tone="muted")
        self.sheet = QLabel(self)
        self.sheet.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.sheet.setTextFormat(Qt.TextFormat.PlainText)
        self.area = QScrollArea(self)
        self.area.setWidget(self.sheet)
        self.area.setWidgetResizable(True)
        self.area.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._build()
        self.resize(_most_of(parent))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFocus()
        self._turn_to(place)

    def _build(self) -> None:
        self.previous = button("Previous  ←", self, name="Previous photo")
        self.next = button("Next  →", self, name="Next photo")
        self.size_button = button("", self, name="Full size or fitted")
        self.role_button = button("", self, name="As it came off, or as fitted")
        self.shut = button("Close  Esc", self, name="Close")
        acts = QHBoxLayout()
        tight(acts, 8)
        for press, slot in (
            (self.previous, self._back), (self.next, self._on), (self.size_button, self._resize),
            (self.role_button, self._change_role),
        ):  # fmt: skip
            press.clicked.connect(slot)
            acts.addWidget(press)
        acts.addStretch(1)
        self.shut.clicked.connect(self.close)
        acts.addWidget(self.shut)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        column.setSpacing(8)
        column.addWidget(self.title)
        column.addWidget(self.detail)
        column.addWidget(self.area, 1)
        column.addLayout(acts)

    @property
    def photo(self) -> Photo:
        return self._photos[self.place]

    @property
    def image(self) -> QImage:
        return self._image

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _KEYS.get(Qt.Key(event.key()))
        on_button = isinstance(self.focusWidget(), Press)
        if step is not None:
            self._turn_to(self.place + step)
        elif event.key() == Qt.Key.Key_R:
            self._change_role()
        elif event.key() == Qt.Key.Key_Space and not on_button:
            self._resize()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _back(self) -> None:
        self._turn_to(self.place - 1)

    def _on(self) -> None:
        self._turn_to(self.place + 1)

    def _turn_to(self, place: int) -> None:
        if not 0 <= place < len(self._photos):
            return
        self.place = place
        self.previous.setEnabled(place > 0)
        self.next.setEnabled(place < len(self._photos) - 1)
        self.title.setText(self.photo.role.value.capitalize())
        other = _ROLES[self.photo.role].value
        self.role_button.setText(f"It shows it {other}  R")
        self.detail.setText(_detail(self.photo, place, len(self._photos)))
        self._image = QImage()
        self.sheet.setText("Reading the picture…")
        path = services.photos.original(self.desk.store, self.photo)
        self.desk.draw(read_scaled, path, QSize(), self.photo.hash, then=self._read)
        self._say_size()

    def _read(self, answer: tuple[str, QImage]) -> None:
        digest, image = answer
        if digest != self.photo.hash:
            return
        if image.isNull():
            path = services.photos.thumb(self.desk.store, digest)
            self.desk.draw(read_scaled, path, QSize(), digest, then=self._read_small)
            return
        self._image = image
        self._fit()

    def _read_small(self, answer: tuple[str, QImage]) -> None:
        """What Qt cannot read (a phone's HEIC) is shown from the small copy, and says so."""
        digest, image = answer
        if digest != self.photo.hash:
            return
        if image.isNull():
            self.sheet.setText("The file of this photo is missing from the store.")
            return
        self.detail.setText(f"{self.detail.text()}. Shown from its small copy")
        self._image = image
        self._fit()

    def _fit(self) -> None:
        if self._image.isNull():
            return
        ratio = self.devicePixelRatioF()
        image = self._image
        room = self.area.viewport().size() * ratio
        if not self.full_size:
            smooth = Qt.TransformationMode.SmoothTransformation
            image = image.scaled(room, Qt.AspectRatioMode.KeepAspectRatio, smooth)
        pixmap = QPixmap.fromImage(image)
        pixmap.setDevicePixelRatio(ratio)
        self.sheet.setPixmap(pixmap)
        size = pixmap.deviceIndependentSize().toSize()
        self.sheet.setMinimumSize(size if self.full_size else QSize(1, 1))

    def _resize(self) -> None:
        self.full_size = not self.full_size
        self._say_size()
        self._fit()

    def _say_size(self) -> None:
        self.size_button.setText("Fit it  Space" if self.full_size else "Full size  Space")

    def _change_role(self) -> None:
        role = _ROLES[self.photo.role]
        self.desk.act(services.photos.set_role, self.photo.id, role, then=self._role_changed)

    def _role_changed(self, _: object) -> None:
        self.desk.ask(services.views.card, self.photo.removal_id, then=self._refresh)

    def _refresh(self, card: object) -> None:
        photos = {photo.id: photo for photo in getattr(card, "photos", ())}
        self._photos = [photos.get(photo.id, photo) for photo in self._photos]
        self.title.setText(self.photo.role.value.capitalize())
        self.role_button.setText(f"It shows it {_ROLES[self.photo.role].value}  R")


def _detail(photo: Photo, place: int, count: int) -> str:
    taken = f"{photo.taken_at:%d %B %Y, %H:%M}" if photo.taken_at else "time not known"
    size = f"{photo.width} × {photo.height}"
    return f"{place + 1} of {count}. {photo.name}, {size}, {taken}"


def _most_of(parent: QWidget | None) -> QSize:
    if parent is None:
        return QSize(1000, 700)
    return parent.window().size().expandedTo(QSize(640, 480)) * 0.92
