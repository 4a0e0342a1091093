"""What a chip shows: the words of a piece of the line, and what they were taken for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bagtag.domain.kinds import PartKind
    from bagtag.scan.tape import Tape
    from bagtag.scan.tape_piece import Chip

NOTE, NAME, KIND, FATE, BY_KIND = "note", "name", "kind", "fate", "fate by kind"
_CALLED = {
    "hardware": "held by",
    "clocking": "turned",
    "match mark": "mark",
    "container": "lies in",
    "area": "area",
    "count": "how many",
}
"""A word for what a piece was taken for, where the reader's own is not the one a person says."""


@dataclass(frozen=True, slots=True)
class Shown:
    """`start` to `end` is its stretch of the line; both are -1 where it has none. A chip that is
    not `understood` stands in outline: its words are only kept. `what` is the reader's word."""

    text: str
    word: str = ""
    understood: bool = True
    start: int = -1
    end: int = -1
    what: str = ""

    @property
    def spoken(self) -> str:
        """What a screen reader says: `blue: threadlocker`."""
        return f"{self.text}: {self.word}" if self.word else self.text

    @property
    def has_words(self) -> bool:
        return self.start >= 0


def of_tape(tape: Tape, kind: PartKind | None, *, fate_by_kind: bool) -> tuple[Shown, ...]:
    """The chips of a line as read; its name says which kind of part it is taken for."""
    return tuple(_shown(tape, kind, fate_by_kind=fate_by_kind))


def _shown(tape: Tape, kind: PartKind | None, *, fate_by_kind: bool) -> Iterator[Shown]:
    names = [chip for chip in tape.chips if chip.kind == NAME]
    for chip in tape.chips:
        if chip.kind == NAME and chip not in names[:1]:
            yield Shown(chip.text, "side", True, chip.start, chip.end, chip.kind)
        elif chip.kind != KIND:  # the name's own chip says it
            yield _chip(chip, kind)
    if fate_by_kind and kind is not None:
        fate = tape.entry.fate.value
        text = f"{fate}: always for {_an(kind.name)}"
        yield Shown(text, understood=False, what=BY_KIND)


def _chip(chip: Chip, kind: PartKind | None) -> Shown:
    word = _CALLED.get(chip.kind, chip.kind)
    if chip.kind == NAME and kind is not None:
        word = _kind_word(chip.text, kind.name)
    return Shown(chip.text, word, chip.kind != NOTE, chip.start, chip.end, chip.kind)


def _kind_word(name: str, kind: str) -> str:
    """The kind's name, unless the chip has just said it: "shift fork R" is a shift fork."""
    rest = name.casefold().removeprefix(kind.casefold())
    return "kind" if len(rest) <= len(" R2") else kind


def _an(name: str) -> str:
    return f"an {name}" if name[:1].casefold() in "aeiou" else f"a {name}"
