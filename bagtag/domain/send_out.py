"""A send-out: a batch of parts that goes to an outside shop and comes back."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum


class BackCheck(StrEnum):
    """What is looked at when a part is back from a shop."""

    WORK = "work done"
    MEASURED = "measured"
    CLEAN = "debris and threads clean"
    PLUGS = "plugs out"


@dataclass(frozen=True, slots=True)
class SendOut:
    """A batch. `number` counts in its job from 1; `work` is what is wanted of the whole of it,
    besides what is wanted of each part; `price` is in `currency`, as the shop named it."""

    id: int
    uid: str
    job_id: int
    number: int
    shop: str
    out_on: date
    promised: date | None = None
    contact: str = ""
    work: str = ""
    price: Decimal | None = None
    currency: str = ""
    note: str = ""
    made_at: datetime | None = None
    made_by: str = ""
    code: str = ""

    @property
    def called(self) -> str:
        """`send-out 2, Mill Lane Engineering`"""
        return f"send-out {self.number}, {self.shop}"


@dataclass(frozen=True, slots=True)
class Document:
    """A paper that belongs to a send-out: a quote, a drawing, an invoice. `hash` is the sha256 of
    the file as it came; `ext` has no dot."""

    id: int
    send_out_id: int
    hash: str
    ext: str
    name: str
    added_at: datetime | None = None
