"""What the recognisers saw, sifted: one of each where one can be, no drive without a fastener."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from bagtag.domain.hardware import Torque
from bagtag.domain.model import ContainerKind, Fate
from bagtag.domain.which_way import Clocking
from bagtag.scan.tape_extra import OneTime
from bagtag.scan.tape_fastener import Fastener
from bagtag.scan.tape_fit import Lubrication
from bagtag.scan.tape_text import Found
from bagtag.scan.tape_torque import Range

_SMALLEST_FIRST = [kind.value for kind in ContainerKind]


def with_hardware(seen: Sequence[Found]) -> list[Found]:
    """Without the words that mean something only beside a fastener, where there is none."""
    if any(is_hardware(f) for f in seen):
        return list(seen)
    return [_of_the_part(f) for f in seen if not f.needs_hardware]


def is_hardware(found: Found) -> bool:
    """A fastener, or what only a fastener can have: a torque."""
    return isinstance(found.value, Fastener | Torque | Range) or found.value == OneTime()


def _of_the_part(found: Found) -> Found:
    """`new each time` and `threads oiled`, where no fastener is named, are said of the part."""
    if isinstance(found.value, OneTime):
        return replace(found, kind="fate", value=Fate.RENEW)
    if isinstance(found.value, Lubrication):
        return replace(found, kind="goes on", value=found.value.text)
    return found


def settled(seen: Sequence[Found]) -> list[Found]:
    """What holds together. What cannot hold beside the rest goes to the note, word for word."""
    kept = sorted(seen, key=lambda f: f.start)
    kept = _only_one(kept, "count", key=lambda f: 0)
    kept = _only_one(kept, "area", key=lambda f: 0)
    kept = _only_one(kept, "size", key=lambda f: 0)
    kept = _only_one(kept, "container", key=_smallest)
    return _view_of_something(_one_fate(kept))


def _only_one(seen: Sequence[Found], kind: str, key: Callable[[Found], int]) -> list[Found]:
    first = min((f for f in seen if f.kind == kind), key=key, default=None)
    if first is None:
        return list(seen)
    return [f if f.kind != kind or f.value == first.value else _in_note(f) for f in seen]


def _smallest(found: Found) -> int:
    """A bag before the tray or shelf it lies on."""
    kind = str(found.value).split(" ")[0]
    return _SMALLEST_FIRST.index(kind) if kind in _SMALLEST_FIRST else len(_SMALLEST_FIRST)


def _one_fate(seen: list[Found]) -> list[Found]:
    """Two fates that differ leave it to be decided, with their words in the note."""
    if len({f.value for f in seen if f.kind == "fate"}) < 2:
        return seen
    return [replace(f, value=Fate.DECIDE, noted=True) if f.kind == "fate" else f for f in seen]


def _view_of_something(seen: list[Found]) -> list[Found]:
    """`seen from the clutch side` needs a clocking that it can belong to."""
    if any(isinstance(f.value, Clocking) for f in seen):
        return seen
    return [_in_note(f) if f.kind == "clocking" else f for f in seen]


def _in_note(found: Found) -> Found:
    return replace(found, kind="note", value=None, noted=True)
