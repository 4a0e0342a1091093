"""Parts and lines to renew for tests."""

from datetime import date, datetime
from itertools import count

from bagtag.domain.hardware import HeldBy
from bagtag.domain.kinds import Kinds, PartKind, Renewal
from bagtag.domain.model import Fate, Removal
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewals import RenewLine, RenewRows, gather

TODAY = date(2026, 11, 25)
KINDS = Kinds(
    [
        PartKind("gasket", renew=Renewal.ALWAYS, why="It is crushed once."),
        PartKind("cylinder"),
    ]
)
_ids = count(1)


def removal(name: str = "cylinder", fate: Fate = Fate.REFIT, **fields) -> Removal:
    id_ = fields.pop("id", None) or next(_ids)
    fields.setdefault("logged_at", datetime(2026, 11, 3, 9, 0))
    return Removal(id_, f"u{id_}", 1, str(id_), id_ * 100, name, fate=fate, **fields)


def bolts(**fields) -> HeldBy:
    fields.setdefault("count", 4)
    return HeldBy(thread="M8", length=30, grade="10.9", one_time=True, **fields)


def part(what: str = "oil seal", **fields) -> NewPart:
    fields.setdefault("id", next(_ids))
    return NewPart(uid=f"n{fields['id']}", job_id=1, what=what, **fields)


def lines(*log: Removal, **rows) -> tuple[RenewLine, ...]:
    rows.setdefault("places", {one.id: n for n, one in enumerate(reversed(log), 1)})
    return gather(RenewRows(1, log, kinds=KINDS, **rows), TODAY)
