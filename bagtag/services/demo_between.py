"""What lies between strip and build in the demo job: send-outs, new parts, measuring sheets."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from bagtag.domain.change import Change
from bagtag.domain.fitting import Asked
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.sheet import Given, Limits, Reading, SheetKind
from bagtag.domain.model import Fate
from bagtag.domain.new_part import NewPart
from bagtag.domain.sending import Back, PackForm, ShopPart, Wanted
from bagtag.services import instruments, measuring, renewals, send_outs
from bagtag.store.work import Store

Table = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class _Writer:
    """`removals` are the ids of the story's parts by name; days are counted from `today`."""

    store: Store
    job_id: int
    removals: Mapping[str, int]
    who: str
    today: date

    def instruments(self, story: Iterable[Table]) -> None:
        """Only where there are none: the list is the bench's, not the job's."""
        if instruments.all_instruments(self.store):
            return
        for one in story:
            day = self.today - timedelta(days=one["calibrated_days_ago"])
            made = Instrument(one["name"], Decimal(one["resolution"]), one["unit"], day)
            instruments.add_instrument(self.store, made, who=self.who)

    def sheet(self, one: Table) -> None:
        """A sheet with its readings, and what was decided on it where the story says so."""
        part_id = self.removals.get(one.get("part", ""))
        kind, title = SheetKind(one["kind"]), one.get("title", "")
        made = measuring.add_sheet(
            self.store, self.job_id, kind, part_id, title, unit=one["unit"], who=self.who
        )
        sheet_id = _new(made)
        empty = measuring.get_sheet(self.store, sheet_id)
        filled = replace(
            empty,
            limits=tuple(_limits(item, one["unit"]) for item in one.get("limits", ())),
            given=tuple(_given(item) for item in one.get("given", ())),
            readings=tuple(_readings(one)),
        )
        measuring.save(self.store, filled, who=self.who)
        if "decided" in one:
            self._decide(sheet_id, one["decided"])

    def _decide(self, sheet_id: int, decided: Table) -> None:
        fate, why, work = Fate(decided["fate"]), decided["why"], decided.get("work", "")
        measuring.decide(self.store, sheet_id, fate, why=why, work=work, who=self.who)

    def send(self, one: Table) -> None:
        """A batch to a shop, and back again where the story says so."""
        form = PackForm(
            shop=one["shop"],
            out_on=self.today - timedelta(days=one["out_days_ago"]),
            promised=self.today + timedelta(days=one["due_in_days"]),
            contact=one.get("contact", ""),
            work=one.get("work", ""),
            price=one.get("price", ""),
            currency=one.get("currency", ""),
        )
        wanted = [self._wanted(part) for part in one["part"]]
        made = send_outs.send(self.store, self.job_id, form, wanted, who=self.who)
        if one.get("back"):
            self._back(_new(made))

    def _wanted(self, part: Table) -> Wanted:
        return Wanted(
            self.removals[part["name"]],
            part["work"],
            tuple(Asked(**item) for item in part.get("asks", ())),
            tuple(self.removals[name] for name in part.get("off", ())),
            tuple(ShopPart(*item) for item in part.get("by_shop", ())),
        )

    def _back(self, send_out_id: int) -> None:
        batch = send_outs.batch(self.store, send_out_id)
        found = [Back(item.away.id, checks=item.to_check) for item in batch.items]
        send_outs.back(self.store, found, who=self.who)

    def new_part(self, one: Table) -> None:
        """What is known of a line to order, and when it was ordered."""
        line = self._line(one)
        filled = replace(
            line,
            supplier=one["supplier"],
            part_number=one.get("part_number", ""),
            size=one.get("size", line.size),
            price=Decimal(one["price"]) if "price" in one else None,
            currency=one.get("currency", ""),
        )
        renewals.save(self.store, filled, who=self.who)
        if "ordered_days_ago" in one:
            on = self.today - timedelta(days=one["ordered_days_ago"])
            due = self.today + timedelta(days=one["due_in_days"])
            renewals.order(self.store, [filled], on, due, who=self.who)

    def _line(self, one: Table) -> NewPart:
        """The line of a part, or a new one of none."""
        if "part" not in one:
            return NewPart(0, "", self.job_id, what=one["what"], count=one["count"])
        part_id = self.removals[one["part"]]
        lines = (line.new_part for line in renewals.lines(self.store, self.job_id))
        return next(x for x in lines if x.removal_id == part_id and not x.line)


def write(
    store: Store, job_id: int, story: Table, removals: Mapping[str, int], *, who: str
) -> None:
    """Write what the story says of what lies between strip and build, in the order it was done."""
    writer = _Writer(store, job_id, removals, who, date.today())
    writer.instruments(story["instrument"])
    for one in story["sheet"]:
        writer.sheet(one)
    for one in story["send_out"]:
        writer.send(one)
    for one in story["new_part"]:
        writer.new_part(one)


def _limits(item: Table, unit: str) -> Limits:
    sides = {name: Decimal(value) for name, value in item.items() if name != "key"}
    return Limits(item["key"], unit=unit, **sides)


def _given(item: Table) -> Given:
    return Given(item["key"], Decimal(item["value"]), item.get("unit", ""))


def _readings(one: Table) -> Iterable[Reading]:
    step = Decimal(one["step"]) if "step" in one else None
    others = one.get("also_read_with", {})
    for key, value in one.get("readings", {}).items():
        tool = others.get(key, one.get("read_with", ""))
        yield Reading(key, Decimal(value), one["unit"], tool, step)


def _new(change: Change) -> int:
    assert change.new_id is not None
    return change.new_id
