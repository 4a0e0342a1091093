"""What a person has said about the line that is being typed: words that are only words, the kind
of part, a fate that its kind would not have. It follows the line while that is edited."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from bagtag.domain.model import Fate

if TYPE_CHECKING:
    from bagtag.domain.kinds import PartKind
    from bagtag.scan.tape import Tape
    from bagtag.services.tape import TapeReader

Stretch = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Told:
    """What was told, with the line it was told of: a line that comes back has it back."""

    line: str = ""
    kept: tuple[Stretch, ...] = ()
    kind: str = ""
    fate: Fate | None = None
    taken_for: str = ""


@dataclass(slots=True)
class Corrections:
    """`kept` are the stretches that are read as words alone. A kind or a fate that was chosen
    holds as long as the reader takes the name for the kind it was chosen against."""

    told: Told = field(default_factory=Told)

    @property
    def kept(self) -> tuple[Stretch, ...]:
        return self.told.kept

    def follow(self, line: str) -> None:
        """The line is another now: stretches move with it, and one whose text has changed goes."""
        old, told = self.told.line, self.told
        if not line.strip():
            self.told = Told()
        elif line != old:
            kept = tuple(s for one in told.kept if (s := _moved(one, old, line)) is not None)
            self.told = replace(told, line=line, kept=kept)

    def keep(self, stretch: Stretch) -> None:
        others = (one for one in self.told.kept if one[1] <= stretch[0] or one[0] >= stretch[1])
        self.told = replace(self.told, kept=tuple(sorted([*others, stretch])))

    def read_again(self, stretch: Stretch) -> None:
        """What of a stretch was kept as words is read again."""
        start, end = stretch
        left = tuple(one for one in self.told.kept if one[1] <= start or one[0] >= end)
        self.told = replace(self.told, kept=left)

    def is_kept(self, stretch: Stretch) -> bool:
        start, end = stretch
        return any(one[0] < end and start < one[1] for one in self.told.kept)

    def choose_kind(self, kind: str, taken_for: str) -> None:
        """`kind` is a kind's name, NO_KIND, or empty for what the reader took the name for."""
        fate = self.told.fate if taken_for == self.told.taken_for else None
        self.told = replace(self.told, kind=kind, fate=fate, taken_for=taken_for)

    def choose_fate(self, fate: Fate | None, taken_for: str) -> None:
        """A fate of its own, or None for what its kind says."""
        kind = self.told.kind if taken_for == self.told.taken_for else ""
        self.told = replace(self.told, kind=kind, fate=fate, taken_for=taken_for)

    def kind_chosen(self, taken_for: str) -> str:
        """What was chosen against this kind; empty for nothing."""
        return self.told.kind if self.told.taken_for == taken_for else ""

    def fate_chosen(self, taken_for: str) -> Fate | None:
        return self.told.fate if self.told.taken_for == taken_for else None

    def applied(self, tape: Tape, reader: TapeReader) -> Tape:
        """The line as read, with what was told; the stretches were given to the reader before."""
        kind = kind_of(tape, reader)
        taken_for = kind.name if kind else ""
        chosen, fate = self.kind_chosen(taken_for), self.fate_chosen(taken_for)
        if chosen:
            unasked = reader.fate_is_by_kind(tape)
            fate_said = Fate.REFIT if unasked else tape.entry.fate
            tape = replace(tape, entry=replace(tape.entry, kind=chosen, fate=fate_said))
            if reader.fate_is_by_kind(tape):
                tape = replace(tape, entry=replace(tape.entry, fate=Fate.RENEW))
        return _with_fate(tape, fate) if fate else tape


def _with_fate(tape: Tape, fate: Fate) -> Tape:
    """With a fate that was chosen, and a chip that says so: the card then leaves it alone too."""
    chip = replace(tape.chips[0], text=fate.value, kind="fate", start=-1, end=-1)
    return replace(tape, entry=replace(tape.entry, fate=fate), chips=(*tape.chips, chip))


def kind_of(tape: Tape, reader: TapeReader) -> PartKind | None:
    """The kind that a line's name says, or the one that was chosen for it."""
    return reader.kinds.of(tape.entry.name, tape.entry.kind)


def _moved(stretch: Stretch, old: str, new: str) -> Stretch | None:
    """Where a stretch of the old line stands in the new one; None where its text was changed."""
    start, end = stretch
    same = _same_length(old, new)
    tail = min(_same_length(old[::-1], new[::-1]), min(len(old), len(new)) - same)
    if end > same:
        if start < len(old) - tail:
            return None
        start, end = start + len(new) - len(old), end + len(new) - len(old)
    return (start, end) if _is_whole(new, start, end) else None


def _same_length(first: str, second: str) -> int:
    pairs = enumerate(zip(first, second, strict=False))
    return next((n for n, (a, b) in pairs if a != b), min(len(first), len(second)))


def _is_whole(line: str, start: int, end: int) -> bool:
    """Whether nothing was written on to its first or its last word."""
    before, after = line[max(start - 1, 0) : start + 1], line[end - 1 : end + 1]
    return not any(len(pair) == 2 and pair.isalnum() for pair in (before if start else "", after))
