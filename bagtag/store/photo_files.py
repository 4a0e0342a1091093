"""Photo files, each stored once under its content hash, byte for byte as it came.

root/ab/abcdef….jpg           the file itself
root/thumbs/ab/abcdef….jpg    its thumbnail, upright
root/temp/                    what is being written; a crash may leave something here
"""

import hashlib
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from bagtag.domain.errors import StoreTrouble
from bagtag.store import pictures
from bagtag.store.hashed_files import HashedFiles, reason, unreadable


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


class PhotoFiles(HashedFiles):
    """The folder of photos. Every method may be called from any thread."""

    def __init__(self, root: Path, *, fsync: bool = True) -> None:
        super().__init__(root, root / "temp", fsync=fsync)

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

    def thumb(self, digest: str) -> Path:
        """Where its thumbnail is, whether or not it is there."""
        return self.root / "thumbs" / digest[:2] / f"{digest}.jpg"

    def remake_thumb(self, digest: str, ext: str) -> Path:
        """Make the thumbnail anew from the stored file, or StoreTrouble when that is gone."""
        path = self.path(digest, ext)
        try:
            data = path.read_bytes()
        except OSError as error:
            raise StoreTrouble(
                f"The photo file {path} cannot be read ({reason(error)}). "
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
        for file in self.temp.glob("*"):
            with suppress(OSError):  # another process may sweep too
                if file.stat().st_mtime < older_than.timestamp():
                    file.unlink()
                    swept += 1
        return swept


def _read(source: Path, name: str) -> bytes:
    """All of the file, or BadInput; something that is no picture is not read to its end."""
    try:
        with source.open("rb") as file:
            pictures.kind(file.read(pictures.HEAD), name)
            file.seek(0)
            return file.read()
    except OSError as error:
        raise unreadable(name, error) from error
