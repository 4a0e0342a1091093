"""Pictures as they come: dropped, pasted, chosen; and how they are decoded off the main thread."""

from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMimeData, QSize, Qt
from PySide6.QtGui import QGuiApplication, QImage, QImageReader

from bagtag.ui.forms.dropped import files_in

if TYPE_CHECKING:
    from bagtag.store.photo_files import Taken
    from bagtag.store.work import Store

Coming = Path | QImage
"""A file, or pixels that have no file yet."""


def pictures_in(mime: QMimeData) -> list[Coming]:
    """Files first; a browser that drags a picture gives its pixels too."""
    files = files_in(mime)
    if files:
        return list(files)
    image = mime.imageData() if mime.hasImage() else None
    return [image] if isinstance(image, QImage) and not image.isNull() else []


def clipboard_pictures() -> list[Coming]:
    mime = QGuiApplication.clipboard().mimeData()
    return pictures_in(mime) if mime is not None else []


def keep(
    service: Callable[..., tuple[list["Taken"], list[str]]],
    store: "Store",
    coming: Sequence[Coming],
    owner: int | str,
) -> tuple[int | str, list["Taken"], list[str]]:
    """Keep pictures by `services.photos.keep`; runs in the pool. Whose they are comes back too."""
    sources = [one if isinstance(one, Path) else _as_png(one, n) for n, one in enumerate(coming)]
    taken, refused = service(store, sources)
    return owner, taken, refused


def _as_png(image: QImage, number: int) -> tuple[str, bytes]:
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]  # the stub wants bytes, Qt takes str
    stamp = f"{datetime.now():%Y-%m-%d %H.%M.%S}"
    return f"pasted {stamp}{f' {number + 1}' if number else ''}.png", bytes(data.data())


def read_scaled(path: Path, box: QSize, key: Any) -> tuple[Any, QImage]:
    """A picture upright and no larger than `box` (empty: as it is); runs in the pool.

    The image is null where Qt cannot read the file.
    """
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    reader.setAllocationLimit(1024)
    size = reader.size()
    if size.isValid() and box.isValid():
        turned = QSize(max(size.width(), size.height()), max(size.width(), size.height()))
        scaled = turned.scaled(box, Qt.AspectRatioMode.KeepAspectRatio)
        share = max(scaled.width(), 1) / max(turned.width(), 1)
        if share < 1:
            reader.setScaledSize(QSize(round(size.width() * share), round(size.height() * share)))
    return key, reader.read()
