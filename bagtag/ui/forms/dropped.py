"""Files as they are dropped on a screen or lie on the clipboard."""

from pathlib import Path

from PySide6.QtCore import QMimeData


def files_in(mime: QMimeData) -> list[Path]:
    """Those of this machine, in the order they come."""
    return [Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile()]
