"""The torque wrenches of the bench: they belong to no job, so every job sees the same ones."""

from bagtag.domain.change import Change
from bagtag.domain.errors import NotFound
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import checked_wrench
from bagtag.store import joints, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


def all_wrenches(store: Store) -> tuple[Wrench, ...]:
    """Every torque wrench, that with the smallest scale first."""
    with store.read() as connection:
        return tuple(joints.wrenches(connection))


def get_wrench(store: Store, wrench_id: int) -> Wrench:
    with store.read() as connection:
        found = joints.get_wrench(connection, wrench_id)
    if found is None:
        raise NotFound("This wrench is no longer in the list. Choose another one.")
    return found


def add_wrench(store: Store, wrench: Wrench, *, who: str = "") -> Change:
    """A wrench more; `new_id` is its id."""
    columns = rows.wrench_columns(checked_wrench(wrench))

    def do(act: Act) -> None:
        act.insert(tables.wrench, **columns)

    return store.act(f"add the wrench {columns['name']}", do, who=who)


def edit_wrench(store: Store, wrench: Wrench, *, who: str = "") -> Change:
    """Write a wrench anew, found by its id."""
    columns = rows.wrench_columns(checked_wrench(wrench))
    get_wrench(store, wrench.id)

    def do(act: Act) -> None:
        act.update(tables.wrench, wrench.id, **columns)

    return store.act(f"edit the wrench {columns['name']}", do, who=who)


def delete_wrench(store: Store, wrench_id: int, *, who: str = "") -> Change:
    """Take a wrench out of the list; undo brings it back."""
    one = get_wrench(store, wrench_id)

    def do(act: Act) -> None:
        act.delete(tables.wrench, wrench_id)

    return store.act(f"take the wrench {one.name} out", do, who=who)
