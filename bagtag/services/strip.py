"""Strip: log what comes off, put in what was forgotten, move, correct, take out."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from uuid import uuid4

from bagtag.domain import asking, contradictions, hardware, log_place, resolve, which_way
from bagtag.domain.change import Change
from bagtag.domain.entry import Entry, checked
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Anchor, Beside, part
from bagtag.domain.joint import tightened_alike
from bagtag.domain.model import Origin, Removal, TagRole
from bagtag.domain.which_way import Fact
from bagtag.services import containers, forgetting, kinds, links
from bagtag.services import jobs as job_cases
from bagtag.services.codes_drawn import tie
from bagtag.store import belongings, jobs, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Extras:
    """What goes with a new entry beside its fields.

    `before` puts it in before that removal, else it comes last; `container_wanted` ("bag 12") is
    found or made; `tag_code` is a blank tag that was scanned for it. `origin` says whether it came
    off at all; a part that was never logged stands where it goes in: `beside` the step that it
    names, instead of `before`. `off_id` is the part that it was taken off.
    """

    before: int | None = None
    container_wanted: str = ""
    tag_code: str = ""
    origin: Origin = Origin.OFF
    beside: Anchor | None = None
    off_id: int | None = None


def log_removal(
    store: Store, job_id: int, entry: Entry, extras: Extras = Extras(), *, who: str = ""
) -> Change:
    """One line of the strip log; `new_id` is its id. Saying an entry's uid again adds nothing."""
    clean = asked(store, checked(entry))
    uid = clean.uid or str(uuid4())

    def do(act: Act) -> None:
        known = removals.id_of_uid(act.connection, uid)
        if known is not None:
            act.new_id = known
            return
        act.new_id = enter(act, job_id, clean, extras, uid=uid)

    return store.act(f"log {clean.name}", do, who=who, job_id=job_id)


def asked(store: Store, entry: Entry) -> Entry:
    """The entry with the questions of its kind that it leaves open, to be asked again."""
    kind = kinds.of(store).of(entry.name, entry.kind)
    left = asking.still_open(kind, entry.which_way)
    return replace(entry, unanswered=tuple(sorted(question.id for question in left)))


def enter(act: Act, job_id: int, entry: Entry, extras: Extras, *, uid: str) -> int:
    """Insert a line that was checked and asked about, within another act; returns its id."""
    entry = links.tie(act, job_id, entry, uid)
    before = extras.before if extras.beside is None else _beside(act, job_id, extras.beside)
    number, serial, position = _numbered(act, job_id, before)
    columns = _placed(act, job_id, entry, extras)
    removal_id = act.insert(
        tables.removal,
        uid=uid,
        job_id=job_id,
        number=number,
        serial=serial,
        position=position,
        replacement="wanted",
        logged_at=rows.now(),
        logged_by=act.who,
        origin=extras.origin.value,
        off_id=extras.off_id,
        **columns,
    )
    tie(act, extras.tag_code, TagRole.PART, job_id, removal_id=removal_id)
    links.tie_waiting(act, job_id, removal_id)
    return removal_id


def _beside(act: Act, job_id: int, anchor: Anchor) -> int | None:
    """The line before which a part stands in the log so that it goes in beside another: the log is
    read backwards, so what goes in after stands before."""
    if anchor.of is None or anchor.of.removal_id is None:
        wanted = removals.ids_in_order(act.connection, job_id)[:1]
        return wanted[0] if wanted and anchor.beside is Beside.AFTER else None
    other = _needed(removals.get(act.connection, anchor.of.id), job_id)
    if anchor.beside is Beside.AFTER:
        return other.id
    below = removals.following(act.connection, job_id, other.position)
    return below.id if below is not None else None


def _placed(act: Act, job_id: int, entry: Entry, extras: Extras) -> dict[str, object]:
    """The columns of an entry, its area and container being of this job."""
    area = jobs.get_area(act.connection, entry.area_id) if entry.area_id else None
    if entry.area_id and (area is None or area.job_id != job_id):
        raise BadInput("This area is not in this job. Choose it again.", field="area_id")
    if extras.container_wanted:
        wanted = containers.found_or_made(act, job_id, extras.container_wanted)
        entry = replace(entry, container_id=wanted)
    elif entry.container_id:
        holder = belongings.get_container(act.connection, entry.container_id)
        if holder is None or holder.job_id != job_id:
            raise BadInput(
                "This container is not in this job. Choose it again.", field="container_id"
            )
    return entry_columns(entry)


def entry_columns(entry: Entry) -> dict[str, object]:
    return {
        "name": entry.name,
        "quantity": entry.quantity,
        "area_id": entry.area_id,
        "which_way": which_way.to_data(entry.which_way),
        "held_by": hardware.to_data(entry.held_by),
        "condition": entry.condition,
        "fate": entry.fate.value,
        "goes_on": entry.goes_on,
        "note": entry.note,
        "container_id": entry.container_id,
        "kind": entry.kind,
        "side": entry.side.value if entry.side else "",
        "size": entry.size,
        "hazards": [hazard.value for hazard in entry.hazards],
        "unanswered": list(entry.unanswered),
    }


def _numbered(act: Act, job_id: int, before: int | None) -> tuple[str, int, int]:
    """The number on the label, its whole part, and the place in the log."""
    if before is None:
        serial, last = removals.end_of_log(act.connection, job_id)
        return str(serial), serial, log_place.after(last)
    position = _room_before(act, job_id, before)
    previous = removals.before(act.connection, job_id, position)
    number = previous.number if previous else "0"
    stem = number.rstrip("abcdefghijklmnopqrstuvwxyz")
    taken = removals.numbers_like(act.connection, job_id, stem)
    return log_place.inserted_number(number, taken), int(stem), position


def _room_before(act: Act, job_id: int, removal_id: int) -> int:
    """A free position just before a removal; the log is spread where there is none."""
    following = _needed(removals.get(act.connection, removal_id), job_id)
    previous = removals.before(act.connection, job_id, following.position)
    position = log_place.between(previous.position if previous else None, following.position)
    if position is not None:
        return position
    for rank, id_ in enumerate(removals.ids_in_order(act.connection, job_id), start=1):
        act.update(tables.removal, id_, position=rank * log_place.STEP)
    return _room_before(act, job_id, removal_id)


def _needed(removal: Removal | None, job_id: int | None = None) -> Removal:
    if removal is None or (job_id is not None and removal.job_id != job_id):
        raise NotFound("This entry is no longer in the log. Choose it again.")
    return removal


def correct_removal(
    store: Store, removal_id: int, entry: Entry, extras: Extras = Extras(), *, who: str = ""
) -> Change:
    """Write an entry anew; its number, place, tag and photos stay."""
    clean = asked(store, checked(entry))
    removal = get_removal(store, removal_id)

    def do(act: Act) -> None:
        tied = links.tie(act, removal.job_id, clean, removal.uid)
        columns = _placed(act, removal.job_id, tied, extras)
        now = _needed(removals.get(act.connection, removal_id))
        if _differs(act, removal_id, columns):
            act.update(tables.removal, removal_id, version=now.version + 1, **columns)
        if not tightened_alike(clean.held_by, now.held_by):
            forgetting.untick_part(act, removal_id)
        if columns["area_id"] != now.area_id:
            job_cases.check_openers(act, removal.job_id)

    return store.act(f"correct {removal.number} {clean.name}", do, who=who, job_id=removal.job_id)


def _differs(act: Act, removal_id: int, columns: dict[str, object]) -> bool:
    image = act.image(tables.removal, removal_id) or {}
    return any(image[key] != value for key, value in columns.items())


def move_removal(store: Store, removal_id: int, before: int | None, *, who: str = "") -> Change:
    """Put a line elsewhere in the log, before another or (None) last. Its number stays."""
    removal = get_removal(store, removal_id)
    if before == removal_id:
        raise BadInput("A line cannot be put before itself. Choose another line.")

    def do(act: Act) -> None:
        if before is None:
            _, last = removals.end_of_log(act.connection, removal.job_id)
            position = log_place.after(last)
        else:
            position = _room_before(act, removal.job_id, before)
        act.update(tables.removal, removal_id, position=position)

    return store.act(f"move {removal.number} {removal.name}", do, who=who, job_id=removal.job_id)


def delete_removal(store: Store, removal_id: int, *, who: str = "") -> Change:
    """Take a line out of the log, with its photos and tags; undo brings all of it back."""
    removal = get_removal(store, removal_id)

    def do(act: Act) -> None:
        gone = take_out(act, removal)
        act.name += f" and {gone} rule{'s' * (gone != 1)} that named it" if gone else ""

    return store.act(f"delete {removal.number} {removal.name}", do, who=who, job_id=removal.job_id)


def take_out(act: Act, removal: Removal) -> int:
    """Delete a line and all that hangs on it, within another act; returns how many rules go."""
    removal_id = removal.id
    gone = forgetting.forget_step(act, part(removal_id))
    forgetting.forget_removal(act, removal)
    for area_id in jobs.opened_by(act.connection, removal_id):
        act.update(tables.area, area_id, opener_id=None)
    for photo in belongings.photos_of(act.connection, [removal_id]).get(removal_id, []):
        act.delete(tables.photo, photo.id)
    for tag in belongings.tags_of(act.connection, [removal_id]).get(removal_id, []):
        act.delete(tables.tag, tag.id)
    forgetting.forget_between(act, removal_id)
    forgetting.forget_joint(act, part(removal_id))
    act.delete(tables.removal, removal_id)
    return gone


def against(
    store: Store, job_id: int, entry: Entry, removal_id: int | None = None
) -> tuple[str, ...]:
    """What an entry, as it stands in its form, says against the entries near it: one sentence
    each. With `removal_id` it is the correction of that one."""
    if not entry.name.strip():
        return ()
    with store.read() as connection:
        job = jobs.get(connection, job_id)
        near = removals.near(connection, job_id, entry.area_id)
        now = removals.get(connection, removal_id) if removal_id else None
    if job is None:
        return ()
    written = _as_removal(entry, now or _LAST)
    others = [removal for removal in near if removal.id != written.id]
    found = contradictions.between([*others, written], job.datum, kinds.of(store))
    return tuple(one.sentence for one in found if written.uid in one.uids)


def told(store: Store, job_id: int, entry: Entry) -> tuple[Fact, ...]:
    """The facts of an entry as it stands in its form, each with what can be computed added, its
    other parts tied as they will be when it is logged."""
    with store.read() as connection:
        near = removals.near(connection, job_id, entry.area_id)
        facts = resolve.linked(entry.which_way, near, entry)
        written = _as_removal(replace(entry, which_way=facts), replace(_LAST, uid=entry.uid))
        return resolve.told(written, removals.tied_to(connection, [written]))


def as_logged(store: Store, removal_id: int) -> tuple[Removal, tuple[str, ...]]:
    """A removal as it was just logged, and what it says against the entries near it."""
    removal = get_removal(store, removal_id)
    said = against(store, removal.job_id, entry_of(removal), removal_id)
    return removal, said


_LAST = Removal(id=0, uid="", job_id=0, number="this", position=1 << 60, name="")
"""Where an entry stands that is not logged yet: after all others."""


def _as_removal(entry: Entry, base: Removal) -> Removal:
    same = {field.name for field in fields(Entry)} - {"uid"}
    return replace(base, **{name: getattr(entry, name) for name in same})


def get_removal(store: Store, removal_id: int) -> Removal:
    with store.read() as connection:
        return _needed(removals.get(connection, removal_id))


def find_removal(store: Store, job_id: int, number: str) -> Removal:
    """The removal with this running number in a job."""
    with store.read() as connection:
        found = removals.by_number(connection, job_id, number.strip())
    if found is None:
        raise NotFound(f"No line of this job has the number {number}.")
    return found


def entry_of(removal: Removal) -> Entry:
    """A removal as its form shows it."""
    return Entry(
        name=removal.name,
        quantity=removal.quantity,
        area_id=removal.area_id,
        which_way=removal.which_way,
        held_by=removal.held_by,
        condition=removal.condition,
        fate=removal.fate,
        goes_on=removal.goes_on,
        note=removal.note,
        container_id=removal.container_id,
        uid=removal.uid,
        kind=removal.kind,
        side=removal.side,
        size=removal.size,
        hazards=removal.hazards,
        unanswered=removal.unanswered,
    )


def log_ids(store: Store, job_id: int) -> Sequence[int]:
    """The ids of the whole log, in the order off."""
    with store.read() as connection:
        return removals.ids_in_order(connection, job_id)
