"""Files that are named by the sha256 of their content, each stored once, byte for byte as it came.

    root/ab/abcdef….jpg

A file is written under a name of its own in a folder beside them, synced and renamed, so that one
half written never carries a hash and one file may be taken from two sides at once.
"""

import errno
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from uuid import uuid4

from bagtag.domain.errors import BadInput, StoreTrouble


class HashedFiles:
    """A folder of such files; what is being written lies in `temp`, and a crash may leave something
    there. Every method may be called from any thread."""

    def __init__(self, root: Path, temp: Path, *, fsync: bool = True) -> None:
        self.root = root
        self.temp = temp
        self._fsync = fsync

    def path(self, digest: str, ext: str) -> Path:
        """Where the file is, whether or not it is there."""
        return self.root / digest[:2] / f"{digest}.{ext}"

    def verify(self, digest: str, ext: str) -> bool:
        """Whether the file is there and still has the content it is named for."""
        try:
            with self.path(digest, ext).open("rb") as file:
                return hashlib.file_digest(file, "sha256").hexdigest() == digest
        except OSError:
            return False

    def keep(self, target: Path, data: bytes, name: str) -> None:
        """Write a file whole or not at all; StoreTrouble, naming it, when the disk stands in the
        way."""
        temp = self.temp / uuid4().hex
        with _disk_trouble(name, self.temp.parent):
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


def unreadable(name: str, error: OSError) -> BadInput:
    """What is said of a file that a person gave and that cannot be read."""
    return BadInput(
        f"{name} cannot be read ({reason(error)}). Copy it to this computer and add that."
    )


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
    return f"{kept}: {root} cannot be written ({reason(error)}). Look at that disk and try again."


def reason(error: OSError) -> str:
    """What the system says of it, as it stands in a sentence."""
    return (error.strerror or type(error).__name__).lower()
