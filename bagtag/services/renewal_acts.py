"""What is done about new parts: written down, ordered, arrived, sent back, compared.

A line that only stands for itself yet (its id is 0) is written down by the first act on it. The
state of a part's own line is kept on the part in the same act: nothing else writes it there.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, datetime
from uuid import uuid4

from bagtag.domain import renewal_steps
from bagtag.domain.change import Change
from bagtag.domain.clean import TEXT_LIMIT, clean_text, whole
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.model import Fate, Removal, Replacement
from bagtag.domain.new_part import NewPart
from bagtag.domain.phrases import capital
from bagtag.domain.renewal_check import check_days, checked
from bagtag.domain.renewal_words import called
from bagtag.domain.renewals import RenewLine, is_implied, own_line
from bagtag.store import between, removals, rows_between, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

GONE = "This line is no longer in the list. Choose it again."


def save(store: Store, new_part: NewPart, *, arrived: int | None = None, who: str = "") -> Change:
    """Write what is said of a line: name, size, number, supplier, count, price, days, note. What
    has arrived and was compared stays as it is kept, unless it was counted anew: `arrived`."""
    clean = checked(new_part)

    def do(act: Act) -> None:
        saved(act, clean)
        if arrived is not None:
            _keep(act, renewal_steps.recounted(written(act, clean), arrived))

    word = "change" if clean.id else "add"
    return store.act(f"{word} {called(clean)}", do, who=who, job_id=clean.job_id)


def saved_all(act: Act, clean: Sequence[NewPart]) -> None:
    """The same inside an open act of many lines of one job that were checked."""
    fresh = [one for one in clean if not one.id and one.removal_id is None]
    rows_ = [rows_between.new_part_columns(one) | {"uid": str(uuid4())} for one in fresh]
    act.insert_all(tables.renewal, rows_)
    others = [one for one in clean if one.id or one.removal_id is not None]
    job_id = others[0].job_id if others else None
    known = {one.id: one for one in between.new_parts(act.connection, job_id)} if others else {}
    for one in others:
        saved(act, one, known.get(one.id))


def saved(act: Act, clean: NewPart, known: NewPart | None = None) -> None:
    """The same of one line; `known` is how it is kept, where that was read already."""
    now = known or _known(act, clean) or _written_down(act, clean)
    new = replace(
        now,
        what=clean.what,
        size=clean.size,
        part_number=clean.part_number,
        supplier=clean.supplier,
        count=clean.count,
        price=clean.price,
        currency=clean.currency,
        ordered_on=clean.ordered_on,
        due=clean.due,
        note=clean.note,
    )
    if new != now or new.removal_id is not None:
        _keep(act, new)


def order(
    store: Store, parts: Sequence[NewPart], on: date, due: date | None = None, *, who: str = ""
) -> Change:
    """Lines of one job were ordered on a day, and are due on another where that is known. One that
    is kept without a supplier takes the supplier it comes with."""
    if not parts:
        raise BadInput("Choose at least one line to order.", field="parts")
    if len({part.job_id for part in parts}) > 1:
        raise BadInput("These lines are of several jobs. Order them job by job.", field="parts")
    check_days(on, due)

    def do(act: Act) -> None:
        for part in parts:
            now, supplier = written(act, part), checked(part).supplier
            _keep(act, renewal_steps.ordered(now, on, due, supplier))

    said = called(parts[0]) if len(parts) == 1 else f"{len(parts)} lines"
    return store.act(f"order {said}", do, who=who, job_id=parts[0].job_id)


def arrive(store: Store, new_part: NewPart, count: int, on: date, *, who: str = "") -> Change:
    """So many pieces of a line came on a day."""
    whole(count, "What has come", field="count")

    def change(now: NewPart) -> NewPart:
        return renewal_steps.arrived(now, count, on)

    return _change(store, new_part, f"{called(new_part)} arrived", change, who)


def wrong(
    store: Store,
    new_part: NewPart,
    why: str,
    on: date,
    *,
    count: int | None = None,
    who: str = "",
) -> Change:
    """Pieces that are here are wrong and go back, all of them or `count`: they are wanted again."""
    said = clean_text(why, limit=TEXT_LIMIT, field="why", what="The reason")
    if not said:
        raise BadInput("Say what is wrong with it, for example: 2 mm too wide.", field="why")

    def change(now: NewPart) -> NewPart:
        return renewal_steps.sent_back(now, said, on, count)

    return _change(store, new_part, f"{called(new_part)} goes back", change, who)


def compare(
    store: Store, new_part: NewPart, is_same: bool, note: str = "", *, who: str = ""
) -> Change:
    """The new part was held against the old one. One that is not the same goes back; the note says
    why, and all of it is wanted again."""
    said = clean_text(note, limit=TEXT_LIMIT, field="note", what="The note")
    if not is_same:
        return wrong(store, new_part, said, date.today(), who=who)

    def change(now: NewPart) -> NewPart:
        return renewal_steps.compared(now, datetime.now().astimezone(), who, said)

    return _change(store, new_part, f"compare {called(new_part)}", change, who)


def remove(store: Store, new_part: NewPart, *, who: str = "") -> Change:
    """Take a line out of the list: one that was added, or whose part is not renewed any more."""

    def do(act: Act) -> None:
        now = written(act, new_part)
        removal = _removal(act, now)
        if removal is not None and is_implied(removal, now.line):
            raise BadInput(_stays(removal, now), field="parts")
        act.delete(tables.renewal, now.id)
        if removal is not None and not now.line:
            act.update(tables.removal, removal.id, replacement=Replacement.WANTED.value)

    name = f"take {called(new_part)} off the list"
    return store.act(name, do, who=who, job_id=new_part.job_id)


def _stays(removal: Removal, now: NewPart) -> str:
    name = f"{removal.number} {removal.name}"
    if now.line:
        return f"{capital(called(now))} is new each time on {name}. Change its hardware instead."
    return f"{name} is to be renewed. Decide otherwise of the part itself instead."


def accept(store: Store, line: RenewLine, *, who: str = "") -> Change:
    """A suggestion is taken: its part's fate becomes renew."""
    removal = line.removal
    if removal is None or not line.is_suggestion:
        raise BadInput("This line is in the list already. Choose a suggestion.", field="parts")

    def do(act: Act) -> None:
        if removals.get(act.connection, removal.id) is None:
            raise NotFound(GONE)
        act.update(tables.removal, removal.id, fate=Fate.RENEW.value)

    name = f"renew {removal.number} {removal.name}"
    return store.act(name, do, who=who, job_id=removal.job_id)


def set_state(
    store: Store, removal_ids: Sequence[int], state: Replacement, on: date, *, who: str = ""
) -> Change:
    """Say in one word where the new parts of these removals of one job stand."""
    with store.read() as connection:
        found = removals.by_ids(connection, removal_ids)
    if not found or len(found) < len(set(removal_ids)):
        raise NotFound("This entry is no longer in the log. Choose it again.")
    job_id = found[removal_ids[0]].job_id

    def do(act: Act) -> None:
        for removal_id in removal_ids:
            now = own_line(found[removal_id])
            now = _known(act, now) or now
            if now.state is not state:
                _keep(act, renewal_steps.put_at(written(act, now), state, on))

    return store.act(f"new part {state.value}", do, who=who, job_id=job_id)


def _change(
    store: Store, part: NewPart, name: str, change: Callable[[NewPart], NewPart], who: str
) -> Change:
    def do(act: Act) -> None:
        _keep(act, change(written(act, part)))

    return store.act(name, do, who=who, job_id=part.job_id)


def written(act: Act, part: NewPart) -> NewPart:
    """The line as it is kept, written down now where nothing was yet."""
    return _known(act, part) or _written_down(act, checked(part))


def _written_down(act: Act, part: NewPart) -> NewPart:
    if part.id:
        raise NotFound(GONE)
    removal = _removal(act, part)
    if removal is not None and removal.job_id != part.job_id:
        raise BadInput("This part is not in this job. Choose it again.", field="removal_id")
    new = replace(part, uid=part.uid or str(uuid4()))
    return replace(new, id=act.insert(tables.renewal, **rows_between.new_part_columns(new)))


def _known(act: Act, part: NewPart) -> NewPart | None:
    if part.id:
        return between.get_new_part(act.connection, part.id)
    if part.removal_id is None:
        return None
    of_part = between.new_parts_of(act.connection, part.removal_id)
    return next((one for one in of_part if one.line == part.line), None)


def _removal(act: Act, part: NewPart) -> Removal | None:
    if part.removal_id is None:
        return None
    removal = removals.get(act.connection, part.removal_id)
    if removal is None:
        raise NotFound(GONE)
    return removal


def _keep(act: Act, part: NewPart) -> None:
    """Write a line, and on its part where the new one stands."""
    columns = rows_between.new_part_columns(part)
    act.update(tables.renewal, part.id, **columns)
    if part.removal_id is not None and not part.line:
        act.update(tables.removal, part.removal_id, replacement=part.state.value)
