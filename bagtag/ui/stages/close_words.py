"""What the Close stage says: the verdict, the line below it, and the rows of its three tables."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from bagtag.domain.closing_rows import ContainerLine, FastenerLine, ItemLine, Leftover, Outcome
from bagtag.domain.fitting import Ref, part
from bagtag.domain.phrases import capital

if TYPE_CHECKING:
    from bagtag.domain.closing import ClosingCount

NAMED = 4
"""How many parts of a container are named; the rest are counted."""
_BECAME = {
    Outcome.BACK: "back in",
    Outcome.RENEWED: "renewed",
    Outcome.SCRAPPED: "scrapped",
    Outcome.LEFT: "not accounted for",
}

_NEW = {
    Outcome.BACK: "new, in",
    Outcome.RENEWED: "new, in",
    Outcome.SCRAPPED: "new, not wanted",
    Outcome.LEFT: "new, not in yet",
}


class TableRow(NamedTuple):
    """One row of a table; `open_` where it does not add up, `ref` the step it leads to."""

    cells: tuple[str, ...]
    open_: bool
    ref: Ref | None = None


def many(count: int, word: str) -> str:
    """ "1 piece", "3 pieces"."""
    return f"{count} {word}{'s' * (count != 1)}"


def verdict(count: ClosingCount) -> str:
    if not count.items and not count.leftovers:
        return "Nothing has come off yet"
    if count.pieces:
        return f"{many(count.pieces, 'piece')} still to account for"
    if count.leftovers:
        return f"Nothing is left, but {many(len(count.leftovers), 'thing')} to settle"
    return "Nothing is left on the bench"


def under(count: ClosingCount) -> str:
    if not count.items and not count.leftovers:
        return "Log parts under Strip as they come off; here they are counted back in."
    if count.adds_up:
        return "All that came off is back in, renewed or scrapped, to the piece. Close the job."
    off, new = count.total.left, count.new_left
    full = sum(bool(line.holds) for line in count.containers)
    pieces = _some((off, "still off"), (new, "new"), (count.pieces - off - new, "of fasteners"))
    rest = [
        f"{many(count.away, 'part')} away" if count.away else "",
        f"{many(full, 'container')} not emptied" if full else "",
    ]
    said = [f"Counted in pieces: {pieces}" if pieces else "", ", ".join(filter(None, rest))]
    return "".join(f"{sentence}. " for sentence in said if sentence).strip()


def _some(*counts: tuple[int, str]) -> str:
    """ "8 still off, 1 of fasteners"; none of those that are 0."""
    return ", ".join(f"{count} {word}" for count, word in counts if count)


def rest_of(one: Leftover) -> str:
    """What is said of a leftover, as a sentence of its own; nothing where its subject says it."""
    return f"{capital(one.said)}." if one.said else ""


def weight_of(one: Leftover) -> str:
    """What it weighs in the count: "4 pieces", or that only a word is wanting."""
    return many(one.pieces, "piece") if one.pieces else "to settle"


ITEM_HEADS = ("No.", "Part", "Pieces", "What became of it")


def item_row(line: ItemLine) -> TableRow:
    word = (_NEW if line.is_new else _BECAME)[line.outcome]
    cells = (line.number, line.name, str(line.quantity), word)
    return TableRow(cells, line.outcome is Outcome.LEFT, part(line.removal_id))


FASTENER_HEADS = ("Fastener", "Off", "Back", "Renewed", "Scrapped", "What does not add up")


def fastener_row(line: FastenerLine) -> TableRow:
    p = line.pieces
    what = f"{line.size} {line.kind or 'fastener'}".strip()
    wrong = [
        f"{p.left} left" if p.left else "",
        f"{p.over} too many" if p.over else "",
        f"never counted at {many(line.uncounted, 'part')}" if line.uncounted else "",
    ]
    said = ", ".join(filter(None, wrong))
    figures = [str(figure or "–") for figure in (p.back, p.renewed, p.scrapped)]
    off = "?" if line.uncounted and not p.off else str(p.off)
    return TableRow((what, off, *figures, said or "adds up"), bool(said))


CONTAINER_HEADS = ("Container", "Pieces", "What it still holds")


def container_row(line: ContainerLine, called: dict[int, str]) -> TableRow:
    name = "\u2003" * line.depth + line.label
    if line.emptied:
        return TableRow((name, "–", "emptied"), open_=False)
    named = [called.get(id_, "") for id_ in line.holds[:NAMED]]
    more = len(line.holds) - len(named)
    said = ", ".join(named) + (f" and {more} more" if more else "")
    return TableRow((name, str(line.pieces), said or "only what stands in it"), open_=True)


def called_in(count: ClosingCount) -> dict[int, str]:
    """What each part of the log is called, by its id."""
    return {line.removal_id: f"{line.number} {line.name}" for line in count.items}
