"""Papers of send-outs, of any kind, each stored once under its content hash, as it came.

photos/documents/ab/abcdef….pdf
"""

import hashlib
import os
import re
from dataclasses import dataclass
from pathlib import Path

from bagtag.domain.clean import tidied
from bagtag.domain.errors import BadInput
from bagtag.store.hashed_files import HashedFiles, unreadable

MOST_BYTES = 200_000_000


@dataclass(frozen=True, slots=True)
class Kept:
    """A paper in the store: sha256 in hex, `ext` without a dot, and what it is known by."""

    hash: str
    ext: str
    name: str


class DocumentFiles(HashedFiles):
    """The folder of papers, inside that of the photos, so that one copy holds both. What is half
    written lies where the photos' does, and is swept with it."""

    def __init__(self, photos: Path) -> None:
        super().__init__(photos / "documents", photos / "temp")

    def take(self, source: Path | bytes, name: str) -> Kept:
        """Store a file. BadInput when it cannot be read, is empty or too large; StoreTrouble when
        the disk is full or may not be written. Taking it again changes nothing."""
        data = source if isinstance(source, bytes) else _read(source, name)
        _check_size(len(data), name)
        kept = Kept(hashlib.sha256(data).hexdigest(), _ext(name), tidied(name)[:200] or "paper")
        if not self.verify(kept.hash, kept.ext):
            self.keep(self.path(kept.hash, kept.ext), data, name)
        return kept


def _read(source: Path, name: str) -> bytes:
    try:
        with source.open("rb") as file:
            _check_size(os.fstat(file.fileno()).st_size, name)
            return file.read()
    except OSError as error:
        raise unreadable(name, error) from error


def _check_size(size: int, name: str) -> None:
    if not size:
        raise BadInput(f"{name} is empty. Save it again and add that.")
    if size > MOST_BYTES:
        raise BadInput(
            f"{name} has {size / 1e6:.0f} MB, and {MOST_BYTES / 1e6:.0f} is the most that is "
            "taken. Save it smaller and add that."
        )


def _ext(name: str) -> str:
    said = Path(name).suffix[1:].lower()
    return said if re.fullmatch("[a-z0-9]{1,8}", said) else "bin"
