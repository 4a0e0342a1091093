"""A new part that is bought: from the day it is wanted until it is compared with the old one."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from bagtag.domain.model import Replacement


@dataclass(frozen=True, slots=True)
class NewPart:
    """One line to order, and how far it has come.

    `removal_id` is the removal it is for; `line` tells which of that removal's fasteners it renews
    ("bolt M8x30 8.8"), empty for the part itself. A line without a removal is something else that
    is bought for the job. `price` is for one piece, in `currency`; `arrived` counts pieces that are
    here. `returned_on` and `returned_why` are of the last wrong part that went back. `compared_at`
    is when the new part was held against the old one, which is kept until then.
    """

    id: int
    uid: str
    job_id: int
    removal_id: int | None = None
    line: str = ""
    what: str = ""
    size: str = ""
    part_number: str = ""
    supplier: str = ""
    count: int = 1
    price: Decimal | None = None
    currency: str = ""
    ordered_on: date | None = None
    due: date | None = None
    arrived: int = 0
    arrived_on: date | None = None
    returned_on: date | None = None
    returned_why: str = ""
    compared_at: datetime | None = None
    compared_by: str = ""
    compared_note: str = ""
    note: str = ""

    @property
    def state(self) -> Replacement:
        """Where it stands; here when all of its pieces are."""
        if self.arrived >= self.count:
            return Replacement.HERE
        return Replacement.ORDERED if self.ordered_on else Replacement.WANTED

    @property
    def still(self) -> int:
        """How many pieces are still to come."""
        return max(self.count - self.arrived, 0)

    def cost(self, pieces: int) -> Decimal | None:
        """What so many pieces cost; None while nobody said a price."""
        return None if self.price is None else self.price * pieces


def of_itself(lines: Iterable[NewPart]) -> NewPart | None:
    """Of the lines of a part the one for the part itself, not for its fasteners."""
    return next((one for one in lines if not one.line), None)
