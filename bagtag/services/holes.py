"""Hole maps: where the holes of a part are, and which of its fasteners goes into each."""

from dataclasses import dataclass

from bagtag.domain import hardware, holes
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput
from bagtag.domain.hole_check import checked, marked
from bagtag.domain.holes import HoleMap
from bagtag.domain.model import Photo, Removal
from bagtag.services import strip
from bagtag.store import belongings, joints, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class MapView:
    """A part, its hole map where it has one, and the photos a map may lie on. Each of the part's
    lines of hardware has its letter, as the map will name it."""

    removal: Removal
    hole_map: HoleMap | None
    photos: tuple[Photo, ...]
    held_by: tuple[hardware.HeldBy, ...]


def map_view(store: Store, removal_id: int) -> MapView:
    removal = strip.get_removal(store, removal_id)
    with store.read() as connection:
        found = joints.map_of(connection, removal_id)
        photos = belongings.photos_of(connection, [removal_id]).get(removal_id, ())
    return MapView(removal, found, tuple(photos), marked(removal.held_by))


def save_map(store: Store, removal_id: int, hole_map: HoleMap, *, who: str = "") -> Change:
    """Keep the hole map of a part, and the letters of its lines of hardware with it."""
    removal = strip.get_removal(store, removal_id)

    def do(act: Act) -> None:
        now = act.image(tables.removal, removal_id)
        held = marked(hardware.from_data(now["held_by"] if now else ()))
        kept = checked(hole_map)
        _check_photo(act, removal_id, kept)
        act.update(tables.removal, removal_id, held_by=hardware.to_data(held))
        _put(act, removal_id, kept)

    called = f"{removal.number} {removal.name}"
    return store.act(f"map the holes of {called}", do, who=who, job_id=removal.job_id)


def _check_photo(act: Act, removal_id: int, kept: HoleMap) -> None:
    photos = belongings.photos_of(act.connection, [removal_id]).get(removal_id, ())
    if kept.photo and kept.photo not in {photo.hash for photo in photos}:
        raise BadInput(
            "The photo under the holes is no longer with this part. Choose another one.",
            field="photo",
        )


def _put(act: Act, removal_id: int, kept: HoleMap) -> None:
    data = holes.to_data(kept)
    known = joints.map_id(act.connection, removal_id)
    if known is None:
        act.insert(tables.hole_map, removal_id=removal_id, data=data)
    else:
        act.update(tables.hole_map, known, data=data)


def delete_map(store: Store, removal_id: int, *, who: str = "") -> Change:
    """Take the hole map of a part away; undo brings it back."""
    removal = strip.get_removal(store, removal_id)

    def do(act: Act) -> None:
        known = joints.map_id(act.connection, removal_id)
        if known is None:
            raise BadInput(f"{removal.number} {removal.name} has no hole map.")
        act.delete(tables.hole_map, known)

    called = f"{removal.number} {removal.name}"
    return store.act(f"drop the hole map of {called}", do, who=who, job_id=removal.job_id)
