"""A small gearbox that is back together, and jobs drawn at random, for the closing count."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime

from hypothesis import strategies as st

from bagtag.domain.closing import Closing, closing_count
from bagtag.domain.fitting import Counted, Ref, Task, TaskKind, part, task
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import (
    Area,
    Away,
    Container,
    ContainerKind,
    Fate,
    Origin,
    Removal,
    Replacement,
    SignOff,
)

NOON = datetime(2026, 11, 3, 12, tzinfo=UTC)
DUE = date(2026, 11, 17)
AREAS = (Area(1, 1, "outside", is_open=True), Area(2, 1, "gearbox", 1, opener_id=1),
         Area(3, 1, "selector", 2))  # fmt: skip
SHELF, TRAY = (
    Container(1, 1, ContainerKind.SHELF, "B"),
    Container(2, 1, ContainerKind.TRAY, "3", 1),
)
BAGS = (Container(12, 1, ContainerKind.BAG, "12", 2), Container(9, 1, ContainerKind.BAG, "9", 2))
LONG, SHORTER = HeldBy(6, "bolt", "M6", 16), HeldBy(4, "bolt", "M6", 12)


def removal(number, name, quantity=1, **fields):
    return Removal(number, f"u{number}", 1, str(number), number * 1024, name, quantity, **fields)


def signed(ref, *counts):
    """A sign-off; `counts` are (line, off, back)."""
    ids = {"removal_id": ref.removal_id, "task_id": ref.task_id}
    return SignOff(
        ref.id, who="N. Birch", at=NOON, counts=tuple(Counted(*c) for c in counts), **ids
    )


def away(removal_id, due=None):
    return {removal_id: Away(1, removal_id, "the cylinder grinder", "bore", NOON, due)}


COVER = removal(1, "cover", area_id=1, held_by=(LONG, SHORTER), container_id=1)
GASKET = removal(2, "gasket", area_id=1, fate=Fate.RENEW, replacement=Replacement.HERE)
DOWEL = removal(3, "dowel", area_id=2, container_id=12)
STUDS = removal(4, "studs", 8, area_id=2, container_id=9, held_by=(HeldBy(8, "nut", "M8"),))
PINS = removal(5, "split pins", 2, area_id=3, fate=Fate.SCRAP, held_by=(HeldBy(None, "washer"),))
JETS = removal(6, "oil jets", 4, area_id=3, origin=Origin.SHOP)
FILTER = removal(7, "oil filter", area_id=1, origin=Origin.NEW)
PARTS = (COVER, GASKET, DOWEL, STUDS, PINS, JETS, FILTER)
TASKS = (
    Task(1, "t1", 1, TaskKind.TIGHTENING, "torque the studs", removal_id=4),
    Task(2, "t2", 1, TaskKind.HOLD_POINT, "look at the selector", area_id=3),
    Task(3, "t3", 1, TaskKind.FILL_OIL, "fill the gearbox"),
)
REFS = (*(part(p.id) for p in PARTS if p is not PINS), *(task(one.id) for one in TASKS))
DONE = Closing(PARTS, {ref: signed(ref) for ref in REFS}, TASKS, AREAS, (SHELF, TRAY, *BAGS))


def without(*refs, closing=DONE):
    """The job with some steps not signed."""
    kept = {ref: one for ref, one in closing.sign_offs.items() if ref not in refs}
    return replace(closing, sign_offs=kept)


def changed(number, closing=DONE, **fields):
    """The job with one part changed."""
    parts = tuple(replace(p, **fields) if p.id == number else p for p in closing.removals)
    return replace(closing, removals=parts)


def counted(number, *counts, closing=DONE):
    """The job with fasteners counted at the sign-off of one part."""
    return replace(
        closing, sign_offs={**closing.sign_offs, part(number): signed(part(number), *counts)}
    )


def found(closing):
    """(likely, step, sentence) of each leftover."""
    return [(one.likely, one.ref, one.sentence) for one in closing_count(closing).leftovers]


# Jobs drawn at random

_THREADS = st.sampled_from(["", "M6", "M8", "3/8-16"])
_LENGTHS = st.sampled_from([None, 12.0, 16.0, 30.0])
_LINE = st.builds(
    HeldBy,
    st.none() | st.integers(0, 6),
    st.sampled_from(["bolt", "nut", "screw"]),
    _THREADS,
    _LENGTHS,
    one_time=st.booleans(),
)
_HELD = st.lists(_LINE, max_size=3).map(tuple)


@st.composite
def _removals(draw):
    fields = {
        "area_id": st.sampled_from([None, 1, 2, 3]),
        "held_by": _HELD,
        "fate": st.sampled_from(Fate),
        "container_id": st.sampled_from([None, 1, 2, 9, 12, 99]),
        "replacement": st.sampled_from(Replacement),
        "origin": st.sampled_from(Origin),
    }
    return [
        removal(number, draw(st.sampled_from(["dowel", "cover", "oil jets"])),
                draw(st.integers(1, 9)), **{k: draw(v) for k, v in fields.items()})
        for number in range(1, draw(st.integers(0, 7)) + 1)
    ]  # fmt: skip


@st.composite
def _sign_offs(draw, removals, tasks) -> Mapping[Ref, SignOff]:
    made = {}
    for one in removals:
        if draw(st.booleans()):
            lines = st.integers(0, 3), st.integers(0, 8), st.integers(0, 8)
            counts = draw(st.lists(st.tuples(*lines), max_size=3))
            made[part(one.id)] = signed(part(one.id), *counts)
    return made | {task(one.id): signed(task(one.id)) for one in tasks if draw(st.booleans())}


@st.composite
def closings(draw):
    """Any job, however unlikely."""
    parts = draw(_removals())
    tasks = [
        Task(n, f"t{n}", 1, draw(st.sampled_from(TaskKind)), draw(st.sampled_from(["", "oil it"])),
             area_id=draw(st.sampled_from([None, 2, 3])),
             removal_id=draw(st.sampled_from([None, 1, 2])))
        for n in range(1, draw(st.integers(0, 3)) + 1)
    ]  # fmt: skip
    out = {p.id: away(p.id)[p.id] for p in parts if draw(st.integers(0, 4)) == 0}
    signs = draw(_sign_offs(parts, tasks))
    return Closing(parts, signs, tasks, AREAS, (SHELF, TRAY, *BAGS), out)


def finished(closing):
    """The same job brought to its end: all that is not scrapped is in, counted, decided and back,
    every task signed."""
    parts = [
        replace(
            p,
            fate=Fate.REFIT if p.fate is Fate.DECIDE else p.fate,
            held_by=tuple(replace(line, count=line.count or 0) for line in p.held_by),
        )
        for p in closing.removals
    ]
    refs = [part(p.id) for p in parts if p.fate is not Fate.SCRAP]
    refs += [task(one.id) for one in closing.tasks]
    return replace(closing, removals=parts, sign_offs={r: signed(r) for r in refs}, away={})
