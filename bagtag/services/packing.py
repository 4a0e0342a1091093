"""What is written of one part that goes with a batch, within the act that sends it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime
from datetime import time as clock
from uuid import uuid4

from bagtag.domain.entry import Entry, checked
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Anchor, part
from bagtag.domain.kinds import is_always_renewed
from bagtag.domain.model import Away, Fate, Origin, Removal
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import ShopPart, Wanted
from bagtag.services import batches, kinds, strip
from bagtag.store import between, removals, rows, sendings, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

Entries = Mapping[ShopPart, Entry]


def entries_of(store: Store, wanted: Sequence[Wanted]) -> Entries:
    """What is logged of all that the shop takes off, with what the kinds say of it."""
    return {piece: entry_of(store, piece) for one in wanted for piece in one.by_shop}


def entry_of(store: Store, one: ShopPart) -> Entry:
    """A part that the shop takes off as it is logged: renewed where its kind always is."""
    once = is_always_renewed(kinds.of(store).of(one.name, ""))
    fate = Fate.RENEW if once else Fate.REFIT
    return strip.asked(store, checked(Entry(one.name, one.quantity, fate=fate)))


def check_parts(act: Act, job_id: int, wanted: Sequence[Wanted]) -> dict[int, Removal]:
    """The parts that go, by id; BadInput where one is not of the job, is named twice, is away
    already, in again or scrapped."""
    ids = [one.removal_id for one in wanted]
    where = sendings.whereabouts(act.connection, ids)
    for id_ in ids:
        if id_ not in where.parts or where.parts[id_].job_id != job_id:
            raise BadInput("This part is not in this job. Choose it again.", field="removals")
        if ids.count(id_) > 1:
            raise BadInput(
                f"{_called(where.parts[id_])} is packed twice. Take one out.", field="removals"
            )
    for sentence in batches.kept_here(where).values():
        raise BadInput(sentence, field="removals")
    return dict(where.parts)


def pack(act: Act, whole: SendOut, removal: Removal, one: Wanted, known: Entries) -> int:
    """A part goes with a batch, and with it what the shop takes off; returns its time away."""
    away_id = _goes(act, whole, removal.id, one)
    set_off(act, removal, one.off)
    for piece in one.by_shop:
        take_off(act, whole, removal, known[piece])
    return away_id


def _goes(act: Act, whole: SendOut, removal_id: int, one: Wanted) -> int:
    return act.insert(
        tables.away,
        removal_id=removal_id,
        send_out_id=whole.id,
        work=one.work,
        asks=rows.asks_data(one.asks),
        **time_columns(whole),
    )


def time_columns(whole: SendOut) -> dict[str, object]:
    """What a part's time away says of its batch."""
    promised = whole.promised.isoformat() if whole.promised else None
    return {"shop": whole.shop, "sent_at": _sent_at(whole.out_on), "due": promised}


def _sent_at(out_on: date) -> str:
    """The time as the store keeps it: now, or noon of another day."""
    if out_on == date.today():
        return rows.now()
    return datetime.combine(out_on, clock(12)).astimezone().isoformat(timespec="milliseconds")


def take_off(act: Act, whole: SendOut, removal: Removal, entry: Entry) -> int:
    """The shop takes something off a part: it becomes a line of the log that goes in after that
    part, and is away with the batch; returns the line's id."""
    beside = Anchor(of=part(removal.id))
    extras = strip.Extras(origin=Origin.SHOP, beside=beside, off_id=removal.id)
    there = replace(entry, area_id=removal.area_id)
    piece_id = strip.enter(act, whole.job_id, there, extras, uid=str(uuid4()))
    _goes(act, whole, piece_id, Wanted(piece_id))
    return piece_id


def set_off(act: Act, removal: Removal, off: Sequence[int]) -> None:
    """Say what was taken off a part first: these, and of what is at the bench no other."""
    here = between.taken_off(act.connection, [removal.id]).get(removal.id, [])
    found = removals.by_ids(act.connection, [*here, *off])
    for id_ in here:
        if id_ not in off and found[id_].origin is not Origin.SHOP:
            act.update(tables.removal, id_, off_id=None)
    for id_ in off:
        other = found.get(id_)
        if other is None or other.job_id != removal.job_id:
            raise BadInput("What was taken off is not in this job. Choose it again.", field="off")
        _check_ring(act, removal, other)
        act.update(tables.removal, id_, off_id=removal.id)


def _check_ring(act: Act, removal: Removal, other: Removal) -> None:
    above: Removal | None = removal
    while above is not None and above.off_id is not None:
        if above.off_id == other.id:
            raise BadInput(
                f"{_called(other)} cannot be taken off {_called(removal)}, which was taken off it. "
                "Leave one of the two out.",
                field="off",
            )
        above = removals.get(act.connection, above.off_id)


def pieces(act: Act, one: Away) -> list[tuple[Away, Removal]]:
    """What the shop took off a part of a batch, with its own time away; what an earlier shop took
    off it and was packed by itself is none."""
    went = between.went_with(act.connection, [one.send_out_id or 0]).get(one.send_out_id or 0, [])
    ids = [time.removal_id for time in went]
    found, first = removals.by_ids(act.connection, ids), sendings.first_times(act.connection, ids)
    both = ((time, found[time.removal_id]) for time in went if first[time.removal_id] == time.id)
    return [pair for pair in both if _is_piece(pair[1], one.removal_id)]


def _is_piece(removal: Removal, of: int) -> bool:
    return removal.origin is Origin.SHOP and removal.off_id == of


def unpack(act: Act, one: Away) -> None:
    """A part did not go after all: its time away goes, and with it what the shop was to take off,
    which is on it still."""
    for time, removal in pieces(act, one):
        forget_piece(act, time, removal)
    act.delete(tables.away, one.id)


def forget_piece(act: Act, one: Away, removal: Removal) -> None:
    """The shop did not take this off: it leaves the log again, with what was taken off it."""
    unpack(act, one)
    strip.take_out(act, removal)


def _called(removal: Removal) -> str:
    return f"{removal.number} {removal.name}"
