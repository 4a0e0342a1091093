"""Part kinds: those that come with the program and a user's own, read from their files.

A user's own files lie in the folder `kinds` beside the store. A broken one is named with its line
and left out; all others hold. A file that is changed is read again when it is next needed.
"""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from bagtag import resources
from bagtag.domain import kind_form
from bagtag.domain.errors import BadInput
from bagtag.domain.kinds import Kinds, PartKind
from bagtag.store.work import Store

Stamp = tuple[str, int, int]


@dataclass(frozen=True, slots=True)
class Loaded:
    """The kinds, and one sentence for each file that is broken."""

    kinds: Kinds
    troubles: tuple[str, ...] = ()


def own_folder(store: Store) -> Path:
    """Where a user's own files of part kinds lie; it need not be there."""
    return store.location.database.parent / "kinds"


def of(store: Store) -> Kinds:
    """The kinds of a store."""
    return load(own_folder(store)).kinds


def troubles(store: Store) -> tuple[str, ...]:
    """One sentence for each broken file of part kinds: which line, and what belongs there."""
    return load(own_folder(store)).troubles


def load(folder: Path) -> Loaded:
    """The kinds that come with the program and those in the files of a folder."""
    files = sorted(folder.glob("*.toml")) if folder.is_dir() else []
    return _loaded(tuple(_stamp(file) for file in files))


def _stamp(file: Path) -> Stamp:
    state = file.stat()
    return str(file), state.st_mtime_ns, state.st_size


@lru_cache(maxsize=8)
def _loaded(own: tuple[Stamp, ...]) -> Loaded:
    kinds, wrong = list(_shipped()), []
    for name, _, _ in own:
        try:
            kinds += _read(Path(name), own=True)
        except (BadInput, OSError, UnicodeDecodeError) as trouble:
            wrong.append(_sentence(name, trouble))
    return Loaded(Kinds(kinds), tuple(wrong))


@lru_cache(maxsize=1)
def _shipped() -> tuple[PartKind, ...]:
    files = sorted(resources.find("kinds").glob("*.toml"))
    return tuple(kind for file in files for kind in _read(file))


def _read(file: Path, *, own: bool = False) -> tuple[PartKind, ...]:
    return kind_form.read(file.read_text(encoding="utf-8"), file.name, own=own)


def _sentence(name: str, trouble: Exception) -> str:
    if isinstance(trouble, BadInput):
        return f"{trouble.sentence} Its kinds are left out until it is mended."
    return f"{Path(name).name} cannot be read as text. Save it as UTF-8."
