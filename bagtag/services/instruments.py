"""What the bench measures with: instruments belong to no job, so every job sees the same ones."""

from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.instrument_check import UNITS, calibration, checked_instrument
from bagtag.store import between, rows_between, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

__all__ = [
    "UNITS",
    "add_instrument",
    "all_instruments",
    "calibration",
    "delete_instrument",
    "edit_instrument",
    "get_instrument",
]


def all_instruments(store: Store) -> tuple[Instrument, ...]:
    """Every instrument, by name."""
    with store.read() as connection:
        return tuple(between.instruments(connection))


def get_instrument(store: Store, instrument_id: int) -> Instrument:
    with store.read() as connection:
        found = between.get_instrument(connection, instrument_id)
    if found is None:
        raise NotFound("This instrument is no longer in the list. Choose another one.")
    return found


def add_instrument(store: Store, one: Instrument, *, who: str = "") -> Change:
    """An instrument more; `new_id` is its id."""
    columns = rows_between.instrument_columns(checked_instrument(one))

    def do(act: Act) -> None:
        _check_alone(act, str(columns["name"]))
        act.insert(tables.instrument, **columns)

    return store.act(f"add the instrument {columns['name']}", do, who=who)


def _check_alone(act: Act, name: str, own: int = 0) -> None:
    """A reading knows its instrument by name, so that no two are called alike."""
    others = (one for one in between.instruments(act.connection) if one.id != own)
    if any(one.name.casefold() == name.casefold() for one in others):
        raise BadInput(
            f"An instrument is called {name} already. Add its range or number to the name.",
            field="name",
        )


def edit_instrument(store: Store, one: Instrument, *, who: str = "") -> Change:
    """Write an instrument anew, found by its id. Readings taken with it stay as they were read."""
    columns = rows_between.instrument_columns(checked_instrument(one))
    get_instrument(store, one.id)

    def do(act: Act) -> None:
        _check_alone(act, str(columns["name"]), one.id)
        act.update(tables.instrument, one.id, **columns)

    return store.act(f"edit the instrument {columns['name']}", do, who=who)


def delete_instrument(store: Store, instrument_id: int, *, who: str = "") -> Change:
    """Take an instrument out of the list; undo brings it back."""
    one = get_instrument(store, instrument_id)

    def do(act: Act) -> None:
        act.delete(tables.instrument, instrument_id)

    return store.act(f"take the instrument {one.name} out", do, who=who)
