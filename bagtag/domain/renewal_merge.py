"""The order list: what is still to be bought for one job or several, by supplier."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

from bagtag.domain.kinds import fold
from bagtag.domain.money import sums
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
class ToOrder:
    """One line for an order list, how many pieces of it, and what it is for in words."""

    line: RenewLine
    count: int
    for_: str


def to_order(line: RenewLine, job: str = "", *, everything: bool = False) -> ToOrder:
    """How many pieces of a line are on the order list, none of what is here, ordered or only
    suggested; with `everything` all of what is renewed. `job` names its job among several."""
    is_listed = line.is_needed and not line.is_suggestion if everything else line.is_open
    count = line.new_part.count if everything else line.still
    place = f" (step {line.step})" if line.step else ""
    for_ = ": ".join(filter(None, (job, f"{line.before}{place}")))
    return ToOrder(line, count if is_listed else 0, for_)


Group = tuple[str, str, str]
_T = TypeVar("_T")


def merged(wanted: Iterable[ToOrder]) -> tuple[SupplierList, ...]:
    """The suppliers by name, what nobody has a supplier for last."""
    return tuple(map(_list, by_supplier(wanted, lambda one: one.line.new_part)))


def supplier_key(part: NewPart) -> str:
    """One supplier, however it is spaced and in large or small letters."""
    return fold(part.supplier)


def by_supplier(lines: Iterable[_T], part: Callable[[_T], NewPart]) -> list[list[_T]]:
    """What comes from each supplier together, by name; what nobody has one for last. `part` gives
    the new part that a line is of."""
    found: dict[str, list[_T]] = defaultdict(list)
    for one in lines:
        found[supplier_key(part(one))].append(one)
    return [found[name] for name in sorted(found, key=lambda name: (not name, name))]


def _list(wanted: Sequence[ToOrder]) -> SupplierList:
    alike: dict[Group, list[ToOrder]] = defaultdict(list)
    for one in wanted:
        alike[_group(one.line.new_part)].append(one)
    lines = [line for group in alike.values() for line in _lines(group)]
    lines.sort(key=lambda line: (fold(line.what), fold(line.size), fold(line.part_number)))
    total = sums((line.sum, line.currency) for line in lines)
    unpriced = sum(line.price is None for line in lines)
    supplier = wanted[0].line.new_part.supplier
    return SupplierList(supplier, tuple(lines), total, unpriced)


def _group(part: NewPart) -> Group:
    return fold(part.what), fold(part.size), fold(part.part_number)


def _lines(group: Sequence[ToOrder]) -> list[Merged]:
    """One line for each price that was said; what has no price goes with the only one there is."""
    prices = dict.fromkeys(
        (one.line.new_part.price, one.line.new_part.currency)
        for one in group
        if one.line.new_part.price is not None
    )
    only = next(iter(prices)) if len(prices) == 1 else (None, "")
    found: dict[tuple[Decimal | None, str], list[ToOrder]] = defaultdict(list)
    for one in group:
        part = one.line.new_part
        found[only if part.price is None else (part.price, part.currency)].append(one)
    return [_merged(some, *price) for price, some in found.items()]


def _merged(some: Sequence[ToOrder], price: Decimal | None, money: str) -> Merged:
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
