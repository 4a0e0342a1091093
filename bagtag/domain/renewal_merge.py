"""The order list: what is still to be bought for one job or several, by supplier."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from bagtag.domain.kinds import fold
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewals import RenewLine


@dataclass(frozen=True, slots=True)
class Merged:
    """Lines that are alike, as one: same supplier, name, size and part number, and no two prices.

    `price` is for one piece, None while nobody said it; `for_` says for which step and job each of
    them is, in the order they are needed; `parts` are the lines themselves.
    """

    what: str
    size: str
    part_number: str
    count: int
    price: Decimal | None
    currency: str
    for_: tuple[str, ...]
    parts: tuple[NewPart, ...] = ()

    @property
    def sum(self) -> Decimal | None:
        return None if self.price is None else self.price * self.count


@dataclass(frozen=True, slots=True)
class SupplierList:
    """What comes from one supplier; `supplier` is empty where nobody said whom. `total` has a sum
    for each currency, and `unpriced` counts the lines that are in none."""

    supplier: str
    lines: tuple[Merged, ...]
    total: tuple[tuple[str, Decimal], ...] = ()
    unpriced: int = 0

    @property
    def pieces(self) -> int:
        return sum(line.count for line in self.lines)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One line for an order list, how many pieces of it, and what it is for in words."""

    line: RenewLine
    count: int
    for_: str


Group = tuple[str, str, str]


def merged(wanted: Iterable[Wanted]) -> tuple[SupplierList, ...]:
    """The suppliers by name, what nobody has a supplier for last."""
    by_supplier: dict[str, list[Wanted]] = defaultdict(list)
    for one in wanted:
        by_supplier[fold(one.line.new_part.supplier)].append(one)
    ranked = sorted(by_supplier, key=lambda name: (not name, name))
    return tuple(_list(by_supplier[name]) for name in ranked)


def _list(wanted: Sequence[Wanted]) -> SupplierList:
    alike: dict[Group, list[Wanted]] = defaultdict(list)
    for one in wanted:
        alike[_group(one.line.new_part)].append(one)
    lines = [line for group in alike.values() for line in _lines(group)]
    lines.sort(key=lambda line: (fold(line.what), fold(line.size), fold(line.part_number)))
    total: dict[str, Decimal] = defaultdict(Decimal)
    for line in lines:
        if line.sum is not None:
            total[line.currency] += line.sum
    unpriced = sum(line.price is None for line in lines)
    supplier = wanted[0].line.new_part.supplier
    return SupplierList(supplier, tuple(lines), tuple(sorted(total.items())), unpriced)


def _group(part: NewPart) -> Group:
    return fold(part.what), fold(part.size), fold(part.part_number)


def _lines(group: Sequence[Wanted]) -> list[Merged]:
    """One line for each price that was said; what has no price goes with the only one there is."""
    prices = dict.fromkeys(
        (one.line.new_part.price, one.line.new_part.currency)
        for one in group
        if one.line.new_part.price is not None
    )
    only = next(iter(prices)) if len(prices) == 1 else (None, "")
    found: dict[tuple[Decimal | None, str], list[Wanted]] = defaultdict(list)
    for one in group:
        part = one.line.new_part
        found[only if part.price is None else (part.price, part.currency)].append(one)
    return [_merged(some, *price) for price, some in found.items()]


def _merged(some: Sequence[Wanted], price: Decimal | None, money: str) -> Merged:
    first = some[0].line.new_part
    return Merged(
        what=first.what,
        size=first.size,
        part_number=first.part_number,
        count=sum(one.count for one in some),
        price=price,
        currency=money,
        for_=tuple(dict.fromkeys(one.for_ for one in some if one.for_)),
        parts=tuple(one.line.new_part for one in some),
    )
