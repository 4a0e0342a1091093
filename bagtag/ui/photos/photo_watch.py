"""A folder where a phone's pictures arrive: each new one is told of once it is whole."""

from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QSettings, QTimer, Signal

PICTURES = {".jpg", ".jpeg", ".png", ".heic", ".heif", ".webp", ".tif", ".tiff", ".bmp", ".gif"}
SETTLE_MS = 400
_KEY = "photos/watched_folder"

Mark = tuple[int, int]
"""Size in bytes and time of change in nanoseconds: what stays the same once a file is whole."""


class PhotoWatch(QObject):
    """Watches one folder. A picture is found when its size has stopped changing.

    A phone's sync writes a file in pieces, or under another name first; so a file is only told of
    when it was the same at two looks, `SETTLE_MS` apart.
    """

    found = Signal(list)
    """New pictures, as Paths, the oldest first."""
    moved = Signal(str)
    """The watched folder is another one now; empty for none."""
    lost = Signal(str)
    """The watched folder is gone; the sentence says so."""

    def __init__(self, settings: QSettings, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        self._watcher = QFileSystemWatcher(self)
        self._watcher.directoryChanged.connect(self._stir)
        self._timer = QTimer(self)
        self._timer.setInterval(SETTLE_MS)
        self._timer.timeout.connect(self._look)
        self._seen: dict[Path, Mark] = {}
        self._growing: dict[Path, Mark] = {}

    @property
    def folder(self) -> Path | None:
        """The folder the person chose, kept from one start to the next."""
        kept = str(self._settings.value(_KEY, ""))
        return Path(kept) if kept else None

    @property
    def running(self) -> bool:
        return bool(self._watcher.directories())

    def choose(self, folder: Path | None) -> None:
        """Watch another folder, or (None) none."""
        self.stop()
        self._settings.setValue(_KEY, str(folder) if folder else "")
        self.start()
        self.moved.emit(str(folder) if folder else "")

    def start(self) -> None:
        """Begin: what lies in the folder already is no news."""
        folder = self.folder
        if folder is None or self.running:
            return
        if not folder.is_dir():
            self._tell_lost(folder)
            return
        self._seen, self._growing = self._pictures(folder), {}
        self._watcher.addPath(str(folder))

    def stop(self) -> None:
        self._timer.stop()
        if self._watcher.directories():
            self._watcher.removePaths(self._watcher.directories())

    def _stir(self) -> None:
        """Something in the folder changed: look at it again when the clock has ticked."""
        folder = self._present()
        if folder is not None:
            for path, mark in self._fresh(folder).items():
                self._growing.setdefault(path, mark)
            self._keep_looking()

    def _look(self) -> None:
        """What is the same as at the last look is whole."""
        folder = self._present()
        if folder is None:
            return
        fresh = self._fresh(folder)
        whole = [path for path, mark in fresh.items() if self._growing.get(path) == mark]
        self._seen |= {path: fresh[path] for path in whole}
        self._growing = {path: mark for path, mark in fresh.items() if path not in self._seen}
        self._keep_looking()
        if whole:
            self.found.emit(sorted(whole, key=self._written))

    def _present(self) -> Path | None:
        """The folder, while it is there; else it is said that it is gone."""
        folder = self.folder
        if folder is not None and not folder.is_dir():
            self.stop()
            self._tell_lost(folder)
            return None
        return folder

    def _fresh(self, folder: Path) -> dict[Path, Mark]:
        now = self._pictures(folder)
        return {path: mark for path, mark in now.items() if path not in self._seen}

    def _keep_looking(self) -> None:
        """The clock runs only while a file is still being written."""
        if not self._growing:
            self._timer.stop()
        elif not self._timer.isActive():
            self._timer.start()

    def _written(self, path: Path) -> tuple[int, str]:
        return self._seen[path][1], path.name

    def _pictures(self, folder: Path) -> dict[Path, Mark]:
        try:
            return dict(filter(None, map(_marked, folder.iterdir())))
        except OSError:
            return {}

    def _tell_lost(self, folder: Path) -> None:
        self.lost.emit(f"The folder {folder} is not there any more. Choose the folder to watch.")


def _marked(path: Path) -> tuple[Path, Mark] | None:
    """A picture with its mark; None for other files, hidden ones, empty ones and folders."""
    if path.suffix.casefold() not in PICTURES or path.name.startswith("."):
        return None
    try:
        facts = path.stat()
    except OSError:
        return None
    return (path, (facts.st_size, facts.st_mtime_ns)) if facts.st_size else None
