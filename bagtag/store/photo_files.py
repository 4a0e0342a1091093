"""Photo files, each stored once under its content hash, byte for byte as it came.

    root/ab/abcdef….jpg           the file itself
    root/thumbs/ab/abcdef….jpg    its thumbnail, upright
    root/temp/                    what is being written; a crash may leave something here

A file is written under a name of its own, synced and renamed, so that one half written never
carries a hash and one photo may be taken from two sides at once.
"""

import errno
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from uuid import uuid4

from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.store import pictures


@dataclass(frozen=True, slots=True)
class Taken:
    """A picture in the store: sha256 in hex, `ext` without a dot, upright size in pixels.

    `taken_at` is the camera's own time, with its offset if the camera wrote one.
    """

    hash: str
    ext: str
    name: str
    width: int
    height: int
    taken_at: datetime | None


class PhotoFiles:
    """The folder of photos. Every method may be called from any thread."""

    def __init__(self, root: Path, *, fsync: bool = True) -> None:
        self.root = root
        self._fsync = fsync

    def take(self, source: Path | bytes, name: str) -> Taken:
        """Store a picture and its thumbnail; `name` is what the person knows it by.

        BadInput, naming it, when it cannot be read as a whole picture; StoreTrouble when the
        disk is full or may not be written. Taking it again changes nothing, and mends a copy in
        the store that has gone bad.
        """
        data = source if isinstance(source, bytes) else _read(source, name)
        picture = pictures.read(data, name)
        digest = hashlib.sha256(data).hexdigest()
        if not self.verify(digest, picture.ext):
            self.keep(self.path(digest, picture.ext), data, name)
        if not self.thumb(digest).exists():
            self.keep(self.thumb(digest), picture.thumb, name)
        return Taken(digest, picture.ext, name, picture.width, picture.height, picture.taken_at)

    def path(self, digest: str, ext: str) -> Path:
        """Where the file is, whether or not it is there."""
        return self.root / digest[:2] / f"{digest}.{ext}"

    def thumb(self, digest: str) -> Path:
        """Where its thumbnail is, whether or not it is there."""
        return self.root / "thumbs" / digest[:2] / f"{digest}.jpg"

    def verify(self, digest: str, ext: str) -> bool:
        """Whether the file is there and still has the content it is named for."""
        try:
            with self.path(digest, ext).open("rb") as file:
                return hashlib.file_digest(file, "sha256").hexdigest() == digest
        except OSError:
            return False

    def remake_thumb(self, digest: str, ext: str) -> Path:
        """Make the thumbnail anew from the stored file, or StoreTrouble when that is gone."""
        path = self.path(digest, ext)
        try:
            data = path.read_bytes()
        except OSError as error:
            raise StoreTrouble(
                f"The photo file {path} cannot be read ({_reason(error)}). "
                "Put it back from a backup, or add the picture again."
            ) from error
        self.keep(self.thumb(digest), pictures.read(data, path.name).thumb, path.name)
        return self.thumb(digest)

    def all_hashes(self) -> dict[str, str]:
        """Hash and `ext` of every file that is there, whatever the database knows of it."""
        files = self.root.glob("[0-9a-f][0-9a-f]/*.*")
        return {file.stem: file.suffix[1:] for file in files if len(file.stem) == 64}

    def sweep(self, older_than: datetime) -> int:
        """Remove what was left half written before `older_than`; how many files that were."""
        swept = 0
        for file in self.root.glob("temp/*"):
            with suppress(OSError):  # another process may sweep too
                if file.stat().st_mtime < older_than.timestamp():
                    file.unlink()
                    swept += 1
        return swept

    def keep(self, target: Path, data: bytes, name: str) -> None:
        """Write a file whole or not at all; StoreTrouble, naming it, when the disk stands in the
        way."""
        temp = self.root / "temp" / uuid4().hex
        with _disk_trouble(name, self.root):
            self._make_folder(temp.parent)
            self._make_folder(target.parent)
            try:
                self._write(temp, data)
                temp.replace(target)
            except OSError:
                with suppress(OSError):
                    temp.unlink(missing_ok=True)
                raise
            self._settle(target.parent)

    def _write(self, temp: Path, data: bytes) -> None:
        with temp.open("xb", buffering=0) as file:
            rest = memoryview(data)
            while rest:
                rest = rest[file.write(rest) :]
            if self._fsync:
                os.fsync(file.fileno())

    def _make_folder(self, folder: Path) -> None:
        if folder.is_dir():
            return
        folder.mkdir(parents=True, exist_ok=True)
        for made in (folder.parent, folder.parent.parent):
            self._settle(made)

    def _settle(self, folder: Path) -> None:
        """Make the names in `folder` survive a power cut; Windows has no such call and no need."""
        if not self._fsync or os.name == "nt":
            return
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _read(source: Path, name: str) -> bytes:
    """All of the file, or BadInput; something that is no picture is not read to its end."""
    try:
        with source.open("rb") as file:
            pictures.kind(file.read(pictures.HEAD), name)
            file.seek(0)
            return file.read()
    except OSError as error:
        raise BadInput(
            f"{name} cannot be read ({_reason(error)}). Copy it to this computer and add that."
        ) from error


@contextmanager
def _disk_trouble(name: str, root: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise StoreTrouble(_in_words(error, name, root)) from error


def _in_words(error: OSError, name: str, root: Path) -> str:
    kept = f"{name} was not stored"
    if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
        return f"{kept}: the disk is full. Make room on the disk of {root} and add it again."
    if error.errno in (errno.EROFS, errno.EACCES, errno.EPERM):
        return f"{kept}: {root} may not be written. Choose a folder or disk that may be written."
    return f"{kept}: {root} cannot be written ({_reason(error)}). Look at that disk and try again."


def _reason(error: OSError) -> str:
    return (error.strerror or type(error).__name__).lower()
