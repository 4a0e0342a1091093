"""What the list of Renew shows: a heading for each supplier, and below it what is bought there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import TYPE_CHECKING

from bagtag.domain.model import Replacement
from bagtag.domain.money import money, sums
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewal_merge import by_supplier, supplier_key
from bagtag.domain.renewal_words import NO_SUPPLIER, SUGGESTED, called

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine

SUGGESTED_WHY = "nobody decided these yet"

Key = tuple[int, str, bool]
"""What tells a line from the others whether or not it is written down yet."""


@dataclass(frozen=True, slots=True)
class Heading:
    """A supplier, or what else a group has in common; `said` stands at its right."""

    title: str
    said: str = ""


def key_of(line: RenewLine) -> Key:
    part = line.new_part
    if part.removal_id is None:
        return 0, str(part.id), False
    return part.removal_id, part.line, line.is_suggestion


def rows_of(lines: Sequence[RenewLine]) -> list[Heading | RenewLine]:
    """By supplier, those without one after them, what is only suggested last."""
    return list(_rows(lines))


def _rows(lines: Sequence[RenewLine]) -> Iterator[Heading | RenewLine]:
    sure = (line for line in lines if not line.is_suggestion)
    for group in by_supplier(sure, attrgetter("new_part")):
        yield Heading(group[0].new_part.supplier.strip() or NO_SUPPLIER, sum_words(group))
        yield from group
    suggested = [line for line in lines if line.is_suggestion]
    if suggested:
        yield Heading(SUGGESTED, SUGGESTED_WHY)
        yield from suggested


def suppliers(lines: Sequence[RenewLine]) -> list[str]:
    """Every supplier of these lines, once, by name."""
    found = {supplier_key(one.new_part): one.new_part.supplier.strip() for one in lines}
    return [found[name] for name in sorted(found) if name]


def sum_words(lines: Sequence[RenewLine]) -> str:
    """`2 to order, 31.40 EUR`, `all here`"""
    wanted = [line.new_part for line in lines if line.is_open]
    if wanted:
        return ", ".join((f"{len(wanted)} to order", *totals(wanted)))
    is_all_here = all(line.state is Replacement.HERE or not line.is_needed for line in lines)
    return "all here" if is_all_here else "all ordered"


def totals(parts: Sequence[NewPart]) -> list[str]:
    """What is still to come of these costs, one figure for each currency, as the order list has
    it; nothing where no price is known."""
    costs = ((part.cost(part.still), part.currency) for part in parts)
    return [money(value, currency) for currency, value in sums(costs)]


def pieces(part: NewPart) -> str:
    """`4 × bolt M8x30 8.8`"""
    return f"{part.count} × {called(part)}" if part.count != 1 else called(part)
