"""The demo job's joints: hole maps, passes, special tools, the wrenches of its bench."""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from typing import Any

from bagtag.domain import holes, tightening
from bagtag.domain.torque import Length, TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.services import holes as hole_cases
from bagtag.services import photos, tools, wrenches
from bagtag.services import tightening as tightening_cases
from bagtag.store.work import Store

Table = Mapping[str, Any]


def write(store: Store, story: Table, removals: Mapping[str, int], *, who: str) -> None:
    """Write what the story says of its joints; `removals` are the ids of its parts by name."""
    for one in story["special_tool"]:
        tools.note_special(store, removals[one["part"]], one["tool"], who=who)
    for one in story["hole_map"]:
        _map(store, one, removals[one["part"]], who=who)
    for one in story["passes"]:
        passes = tightening.from_data(one["steps"])
        tightening_cases.set_passes(store, removals[one["part"]], passes, who=who)
    _wrenches(store, story["wrench"], who=who)


def _map(store: Store, one: Table, removal_id: int, *, who: str) -> None:
    photo = photos.photos_of(store, removal_id)[0]
    scale = one["scale"]
    made = holes.HoleMap(
        holes=tuple(holes.Hole(*item) for item in one["holes"]),
        photo=photo.hash,
        width=photo.width,
        height=photo.height,
        scale=holes.Scale(scale[0], scale[1], Length(scale[2], scale[3])),
        order=holes.OrderKind(one["order"]),
        seen_from=one["seen_from"],
    )
    hole_cases.save_map(store, removal_id, made, who=who)


def _wrenches(store: Store, story: Iterable[Table], *, who: str) -> None:
    """Only where there are none: the list is the bench's, not the job's."""
    if wrenches.all_wrenches(store):
        return
    for one in story:
        made = Wrench(
            name=one["name"],
            low=one["low"],
            high=one["high"],
            unit=TorqueUnit(one["unit"]),
            step=one["step"],
            length=Length(*one["length"]),
            calibrated_on=date.today() - timedelta(days=one["calibrated_days_ago"]),
            note=one["note"],
        )
        wrenches.add_wrench(store, made, who=who)
