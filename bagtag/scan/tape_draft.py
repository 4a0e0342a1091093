"""One line of hardware in the making: a fastener with the words about it, and the line they say.

What cannot be one figure, or stands twice and differs, goes to the line's note, word for word.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from bagtag.domain.hardware import Adapter, HeldBy, Stretch, Torque
from bagtag.domain.torque_pairs import mismatch
from bagtag.scan.tape_extra import OneTime, Tool
from bagtag.scan.tape_fastener import PLAIN_KIND, Fastener
from bagtag.scan.tape_fit import Head, Lubrication, Washers
from bagtag.scan.tape_remark import Grade, Locking, Remark
from bagtag.scan.tape_text import fold
from bagtag.scan.tape_tight import Angle, Drag, steps_of
from bagtag.scan.tape_torque import Drive, Range

Word = Remark | Grade | Locking | Drive | Head | Lubrication | Tool
Figure = Torque | Range | Angle | Stretch | Drag | Adapter | Washers | OneTime
Said = Word | Figure | str
_Kind = TypeVar("_Kind")
_Text = TypeVar("_Text", Drive, Remark, Grade, Locking, Head, Lubrication, Tool)


@dataclass(frozen=True, slots=True)
class Part:
    """A fastener or a word about one: its value, its own words, its place and its piece."""

    value: Fastener | Said
    text: str
    start: int
    piece: int

    @property
    def group(self) -> str:
        """What can stand only once on a fastener."""
        if isinstance(self.value, Torque | Range):
            return "torque"
        if isinstance(self.value, Remark | Locking):
            return self.value.text
        return type(self.value).__name__


@dataclass(slots=True)
class Draft:
    fastener: Fastener
    start: int
    piece: int
    said: list[Part] = field(default_factory=list)

    def lacks(self, group: str) -> bool:
        return all(part.group != group for part in self.said)

    def of(self, *kinds: type) -> list[Part]:
        return [part for part in self.said if isinstance(part.value, kinds)]

    def only(self, kind: type[_Kind]) -> _Kind | None:
        """The one that was said; of two that differ none is, and both stay words."""
        values = {part.value for part in self.said if isinstance(part.value, kind)}
        return values.pop() if len(values) == 1 else None


def line(draft: Draft, name_kind: str, quantity: int) -> HeldBy:
    """What the words about a fastener make of it."""
    fastener = draft.fastener
    own = bool(name_kind) and fastener.kind == PLAIN_KIND
    count = _count(fastener, name_kind, quantity)
    torque, washers, angle = _torques(draft), _washers(draft, count), _angle(draft)
    drag = draft.only(Drag)
    return HeldBy(
        count=count,
        kind=name_kind if own else fastener.kind,
        thread=fastener.thread,
        length=fastener.length,
        length_unit=fastener.length_unit,
        drive=_texts(draft, Drive),
        torque=torque[0],
        threadlocker=", ".join(dict.fromkeys(str(p.value) for p in draft.of(str))),
        note=", ".join(dict.fromkeys(_notes(draft, torque, washers, angle))),
        grade=", ".join(filter(None, (fastener.grade, _texts(draft, Grade)))),
        locking=_texts(draft, Locking),
        head=_texts(draft, Head),
        washer=washers.text if washers else "",
        washers=washers.count or 0 if washers else 0,
        lubrication=_texts(draft, Lubrication),
        one_time=fastener.one_time or bool(draft.of(OneTime)),
        angle=angle.degrees if angle else None,
        stretch=draft.only(Stretch),
        also=torque[1],
        drag=drag.torque if drag else None,
        adapter=draft.only(Adapter),
        tool=_texts(draft, Tool),
    )


def _count(fastener: Fastener, name_kind: str, quantity: int) -> int | None:
    """As said; of the part itself its quantity; one for a kind in the singular; else uncounted."""
    if fastener.count:
        return fastener.count
    if name_kind and fastener.kind in (PLAIN_KIND, name_kind):
        return quantity
    return 1 if fastener.said and not fold(fastener.said).endswith("s") else None


def _texts(draft: Draft, kind: type[_Text]) -> str:
    """What parts of one kind say, each once."""
    return ", ".join(_each(draft, kind))


def _each(draft: Draft, kind: type[_Text]) -> dict[str, None]:
    return dict.fromkeys(p.value.text for p in draft.said if isinstance(p.value, kind))


# --- figures


def _torques(draft: Draft) -> tuple[Torque | None, Torque | None]:
    """The one torque, and the second figure where it is given in two units; a range or stages are
    no single figure."""
    values = [part.value for part in draft.of(Torque, Range)]
    torques = list(dict.fromkeys(value for value in values if isinstance(value, Torque)))
    if len(torques) < len(set(values)) or not torques or not _is_one(torques):
        return None, None
    return torques[0], torques[1] if len(torques) > 1 else None


def _is_one(torques: Sequence[Torque]) -> bool:
    """`10 lbf ft (13.5 Nm)`, `24 Nm (2.4 kgf m, 18 lbf ft)`: as near to the first as rounded
    figures in other units come."""
    first, units = torques[0], {torque.unit for torque in torques}
    near = (_is_near(first, other) or not mismatch(first, other) for other in torques[1:])
    return len(units) == len(torques) and all(near)


def _is_near(one: Torque, other: Torque) -> bool:
    figures = one.newton_metres(), other.newton_metres()
    return max(figures) <= 1.03 * min(figures)


def _angle(draft: Draft) -> Angle | None:
    """All turns together. After stages or a range of torque it stays words."""
    if draft.of(Torque, Range) and _torques(draft)[0] is None:
        return None
    return steps_of([part.value for part in draft.of(Angle) if isinstance(part.value, Angle)])


def _washers(draft: Draft, count: int | None) -> Washers | None:
    """How many lie under each of `count` fasteners: as said, or what was counted in all shared
    out; what cannot be shared out stays words."""
    found = [part.value for part in draft.of(Washers) if isinstance(part.value, Washers)]
    under = [_under_each(washers, count) for washers in found]
    if not found or 0 in under or (len(found) > 1 and set(under) != {1}):
        return None
    return Washers(under[0], " and ".join(dict.fromkeys(w.text for w in found if w.text)))


def _under_each(washers: Washers, count: int | None) -> int:
    said = 1 if washers.count is None else washers.count
    if washers.each or said == 1 or count == 1:
        return said
    return said // count if count and said % count == 0 else 0


# --- what stays words


def _notes(
    draft: Draft,
    torques: tuple[Torque | None, Torque | None],
    washers: Washers | None,
    angle: Angle | None,
) -> Iterator[str]:
    other = [part.text for part in draft.of(Torque, Range) if part.value not in torques]
    if torques[0] is None and other:
        other = [f"torque {', '.join(other)}"]
    yield from other
    unused: tuple[tuple[object, type], ...] = (
        (angle, Angle), (washers, Washers), (draft.only(Stretch), Stretch),
        (draft.only(Drag), Drag), (draft.only(Adapter), Adapter),
    )  # fmt: skip
    for value, kind in unused:
        if value is None:
            yield from (part.text for part in draft.of(kind))
    if angle and angle.steps:
        yield angle.steps
    yield from _each(draft, Remark)
