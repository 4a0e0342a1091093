"""Sending parts to an outside shop: what a person says of a batch, and the batch as it stands."""

from dataclasses import dataclass
from datetime import date

from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.model import Away, Removal
from bagtag.domain.send_out import BackCheck, Document, SendOut


@dataclass(frozen=True, slots=True)
class PackForm:
    """What a person enters of a batch. `price` is as typed, with a comma or a point, empty while
    it is not known."""

    shop: str
    out_on: date
    promised: date | None = None
    contact: str = ""
    work: str = ""
    price: str = ""
    currency: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class ShopPart:
    """What the shop takes off a part: a jet, a plug, a dowel, a stud."""

    name: str
    quantity: int = 1


@dataclass(frozen=True, slots=True)
class Wanted:
    """A part that goes, the work wanted on it and the figures ("bore to", with its limits).

    `off` are the removals that were taken off it first, `by_shop` is what the shop takes off.
    """

    removal_id: int
    work: str = ""
    asks: tuple[Asked, ...] = ()
    off: tuple[int, ...] = ()
    by_shop: tuple[ShopPart, ...] = ()


@dataclass(frozen=True, slots=True)
class Item:
    """A part of a batch, as sent. `thumb` is the hash of its first photo, `off` what was taken off
    it first, as called, and `off_ids` their ids; `by_shop_of` is the removal that the shop took
    this one off."""

    away: Away
    removal: Removal
    code: str = ""
    thumb: str = ""
    off: tuple[str, ...] = ()
    by_shop_of: int | None = None
    off_ids: tuple[int, ...] = ()

    @property
    def is_out(self) -> bool:
        return self.away.back_at is None

    @property
    def called(self) -> str:
        """`12 cylinder barrel`"""
        return f"{self.removal.number} {self.removal.name}"

    @property
    def to_check(self) -> tuple[BackCheck, ...]:
        """What is looked at when it is back: of a part that the shop took off only that it is
        clean; what was measured only where a figure was asked for."""
        if self.by_shop_of is not None:
            return (BackCheck.CLEAN,)
        return tuple(one for one in BackCheck if one is not BackCheck.MEASURED or self.away.asks)


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch with its parts in the order packed, each followed by what the shop took off it.

    Parts of an older store went without a batch: those at one shop come as one, its `send_out`
    None.
    """

    send_out: SendOut | None
    items: tuple[Item, ...]
    documents: tuple[Document, ...] = ()

    @property
    def shop(self) -> str:
        return self.send_out.shop if self.send_out is not None else self.items[0].away.shop

    @property
    def promised(self) -> date | None:
        """The day all of it is promised for; without a batch, the first day of those still out."""
        if self.send_out is not None:
            return self.send_out.promised
        days = [one.away.due for one in self.out if one.away.due is not None]
        return min(days, default=None)

    @property
    def out(self) -> tuple[Item, ...]:
        """What is still there."""
        return tuple(one for one in self.items if one.is_out)

    @property
    def back(self) -> tuple[Item, ...]:
        return tuple(one for one in self.items if not one.is_out)

    def days_late(self, today: date) -> int:
        """How many days past the promised day something of it is still there; else 0."""
        if not self.out or self.promised is None:
            return 0
        return max((today - self.promised).days, 0)


@dataclass(frozen=True, slots=True)
class Late:
    """A batch that is not all back on the day promised; `called` is how it is called, `days` how
    late it is. Parts sent without a batch have no `send_out_id`."""

    job_id: int
    job_title: str
    send_out_id: int | None
    called: str
    shop: str
    promised: date
    days: int


@dataclass(frozen=True, slots=True)
class Back:
    """A part that is back: what was looked at and found right, and the figures measured. `decide`
    leaves it to be decided, when it is not as wanted."""

    away_id: int
    checks: tuple[BackCheck, ...] = ()
    figures: tuple[Figure, ...] = ()
    note: str = ""
    decide: bool = False


@dataclass(frozen=True, slots=True)
class Scanned:
    """What a scan says at check-in; `away_id` is None where it is no part that can come back."""

    away_id: int | None
    sentence: str
