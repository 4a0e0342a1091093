"""Photos of removals: taken in whole, kept once, unreadable ones named and the rest taken."""

from collections.abc import Sequence
from pathlib import Path

from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.model import Photo, PhotoRole
from bagtag.services import strip
from bagtag.store import belongings, joints, pictures, tables
from bagtag.store.act import Act
from bagtag.store.photo_files import Taken
from bagtag.store.pictures import Pixels
from bagtag.store.work import Store

Source = Path | tuple[str, bytes]
"""A picture file, or a name and the bytes of one (pasted, dropped, taken by the camera)."""


def photos_of(store: Store, removal_id: int) -> tuple[Photo, ...]:
    """The photos of a removal, in the order they were added."""
    strip.get_removal(store, removal_id)
    with store.read() as connection:
        return tuple(belongings.photos_of(connection, [removal_id]).get(removal_id, ()))


def add(
    store: Store,
    removal_id: int,
    sources: Sequence[Source],
    role: PhotoRole = PhotoRole.OFF,
    *,
    who: str = "",
) -> tuple[Change, list[str]]:
    """Take pictures for a removal; also a sentence for each that cannot be taken."""
    taken, refused = keep(store, sources)
    return enter(store, removal_id, taken, role, who=who), refused


def keep(store: Store, sources: Sequence[Source]) -> tuple[list[Taken], list[str]]:
    """Keep the files, and a sentence for each that is none; needs no database, so it may run
    beside it. What is kept is entered with `enter`, so that no row is ever without its file."""
    taken: list[Taken] = []
    refused: list[str] = []
    for source in sources:
        try:
            taken.append(_take(store, source))
        except BadInput as wrong:
            refused.append(wrong.sentence)
    return taken, refused


def enter(
    store: Store,
    removal_id: int,
    taken: Sequence[Taken],
    role: PhotoRole = PhotoRole.OFF,
    *,
    who: str = "",
) -> Change:
    """Give kept pictures to a removal; one it has already is not given twice."""
    return enter_all(store, [removal_id], taken, role, who=who)


def enter_all(
    store: Store,
    removal_ids: Sequence[int],
    taken: Sequence[Taken],
    role: PhotoRole = PhotoRole.OFF,
    *,
    who: str = "",
) -> Change:
    """Give the same kept pictures to several removals of a job, in one act: a photo of a tray
    shows many parts."""
    ids = tuple(dict.fromkeys(removal_ids))
    first = strip.get_removal(store, ids[0])

    def do(act: Act) -> None:
        known = belongings.photos_of(act.connection, ids)
        for removal_id in ids:
            have = {photo.hash for photo in known.get(removal_id, []) if photo.role is role}
            for one in {one.hash: one for one in taken if one.hash not in have}.values():
                act.insert(tables.photo, removal_id=removal_id, **_columns(one, role))

    count = "a photo" if len(taken) == 1 else f"{len(taken)} photos"
    whose = f"{first.number} {first.name}" if len(ids) == 1 else f"{len(ids)} parts"
    return store.act(f"add {count} to {whose}", do, who=who, job_id=first.job_id)


def _take(store: Store, source: Source) -> Taken:
    if isinstance(source, Path):
        return store.photos.take(source, source.name)
    name, data = source
    return store.photos.take(data, name)


def _columns(taken: Taken, role: PhotoRole) -> dict[str, object]:
    at = taken.taken_at
    return {
        "hash": taken.hash,
        "ext": taken.ext,
        "name": taken.name[:200],
        "role": role.value,
        "taken_at": at.isoformat() if at else None,
        "width": taken.width,
        "height": taken.height,
    }


def take_out(store: Store, photo_id: int, *, who: str = "") -> Change:
    """Take a photo off its removal; the file stays, so that undo brings it back."""
    photo = _get(store, photo_id)
    removal = strip.get_removal(store, photo.removal_id)

    def do(act: Act) -> None:
        act.delete(tables.photo, photo_id)
        _refuse_under_map(act, photo)

    title = f"take a photo off {removal.number} {removal.name}"
    return store.act(title, do, who=who, job_id=removal.job_id)


def _refuse_under_map(act: Act, photo: Photo) -> None:
    on = joints.map_of(act.connection, photo.removal_id)
    left = belongings.photos_of(act.connection, [photo.removal_id]).get(photo.removal_id, ())
    if on is not None and on.photo == photo.hash and photo.hash not in {p.hash for p in left}:
        raise BadInput("The hole map lies on this photo. Put the map on another photo first.")


def set_role(store: Store, photo_id: int, role: PhotoRole, *, who: str = "") -> Change:
    """Say whether a photo shows the part as it came off or as fitted."""
    photo = _get(store, photo_id)
    removal = strip.get_removal(store, photo.removal_id)
    return store.act(
        f"photo {role.value}",
        lambda act: act.update(tables.photo, photo_id, role=role.value),
        who=who,
        job_id=removal.job_id,
    )


def thumb(store: Store, digest: str) -> Path:
    """The thumbnail of a photo by its hash."""
    return store.photos.thumb(digest)


def original(store: Store, photo: Photo) -> Path:
    """The file of a photo, as it came."""
    return store.photos.path(photo.hash, photo.ext)


def upright(store: Store, photo: Photo) -> Pixels | None:
    """The pixels of a photo, upright, of any kind that is taken; None where its file is missing
    or no longer good."""
    try:
        return pictures.upright(original(store, photo).read_bytes(), photo.name)
    except (OSError, BadInput):
        return None


def _get(store: Store, photo_id: int) -> Photo:
    with store.read() as connection:
        photo = belongings.get_photo(connection, photo_id)
    if photo is None:
        raise NotFound("This photo is no longer in the job.")
    return photo
