"""Between rows of the tables and the domain's frozen rows."""

from collections.abc import Iterable
from dataclasses import asdict
from datetime import date, datetime
from typing import Any, Protocol

from bagtag.domain import hardware, holes, tightening, which_way
from bagtag.domain.datum import Datum, Side
from bagtag.domain.fitting import (
    Anchor,
    Asked,
    Beside,
    Counted,
    Figure,
    Ref,
    Rule,
    RuleKind,
    Task,
    TaskKind,
    part,
    task,
)
from bagtag.domain.model import (
    Area,
    Container,
    ContainerKind,
    Fate,
    Hazard,
    Job,
    Origin,
    Photo,
    PhotoRole,
    Removal,
    Replacement,
    SignOff,
    Tag,
    TagRole,
)
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.torque import Length, TorqueUnit
from bagtag.domain.wrench import Wrench


class Columns(Protocol):
    """A row by column name, from the database or from the journal."""

    def __getitem__(self, key: str, /) -> Any: ...


def now() -> str:
    """The time as the store keeps it: ISO 8601 to the millisecond, with its offset."""
    return datetime.now().astimezone().isoformat(timespec="milliseconds")


def time_of(text: str | None) -> datetime | None:
    return datetime.fromisoformat(text) if text else None


def job(row: Columns) -> Job:
    names = {Side(side): name for side, name in row["side_names"].items()}
    return Job(
        id=row["id"],
        uid=row["uid"],
        number=row["number"],
        machine=row["machine"],
        purpose=row["purpose"],
        owner=row["owner"],
        note=row["note"],
        datum=Datum(row["viewpoint"], names),
        opened_at=time_of(row["opened_at"]),
    )


def datum_columns(datum: Datum) -> dict[str, Any]:
    names = {side.value: datum.names[side] for side in Side if datum.names.get(side)}
    return {"viewpoint": datum.viewpoint, "side_names": names}


def area(row: Columns) -> Area:
    return Area(
        id=row["id"],
        job_id=row["job_id"],
        name=row["name"],
        parent_id=row["parent_id"],
        opener_id=row["opener_id"],
        rank=row["rank"],
        is_open=bool(row["is_open"]),
    )


def container(row: Columns) -> Container:
    kind = ContainerKind(row["kind"])
    return Container(row["id"], row["job_id"], kind, row["name"], row["parent_id"])


def removal(row: Columns) -> Removal:
    return Removal(
        id=row["id"],
        uid=row["uid"],
        job_id=row["job_id"],
        number=row["number"],
        position=row["position"],
        name=row["name"],
        quantity=row["quantity"],
        area_id=row["area_id"],
        which_way=which_way.from_data(row["which_way"]),
        held_by=hardware.from_data(row["held_by"]),
        condition=row["condition"],
        fate=Fate(row["fate"]),
        goes_on=row["goes_on"],
        note=row["note"],
        container_id=row["container_id"],
        replacement=Replacement(row["replacement"]),
        logged_at=time_of(row["logged_at"]),
        logged_by=row["logged_by"],
        version=row["version"],
        kind=row["kind"],
        side=Side(row["side"]) if row["side"] else None,
        size=row["size"],
        hazards=tuple(Hazard(word) for word in row["hazards"]),
        unanswered=tuple(row["unanswered"]),
        origin=Origin(row["origin"]),
        build_id=row["build_id"],
        asks=asks(row["asks"]),
        passes=tightening.from_data(row["passes"]),
        tools=row["tools"],
        off_id=row["off_id"],
    )


def asks(data: Any) -> tuple[Asked, ...]:
    return tuple(Asked(**item) for item in data)


def asks_data(lines: Iterable[Asked]) -> list[dict[str, Any]]:
    return [asdict(line) for line in lines]


def tag(row: Columns) -> Tag:
    return Tag(
        id=row["id"],
        code=row["code"],
        role=TagRole(row["role"]),
        job_id=row["job_id"],
        removal_id=row["removal_id"],
        container_id=row["container_id"],
        pair=row["pair"],
        task_id=row["task_id"],
        send_out_id=row["send_out_id"],
    )


def photo(row: Columns) -> Photo:
    return Photo(
        id=row["id"],
        removal_id=row["removal_id"],
        hash=row["hash"],
        ext=row["ext"],
        name=row["name"],
        role=PhotoRole(row["role"]),
        taken_at=time_of(row["taken_at"]),
        width=row["width"],
        height=row["height"],
    )


def sign_off(row: Columns) -> SignOff:
    at = datetime.fromisoformat(row["at"])
    return SignOff(
        id=row["id"],
        removal_id=row["removal_id"],
        who=row["who"],
        at=at,
        note=row["note"],
        task_id=row["task_id"],
        reason=row["reason"],
        figures=tuple(Figure(**item) for item in row["figures"]),
        counts=tuple(Counted(**item) for item in row["counts"]),
    )


def ref(removal_id: int | None, task_id: int | None) -> Ref | None:
    """The step that two columns name, None where neither does."""
    if removal_id is not None:
        return part(removal_id)
    return task(task_id) if task_id is not None else None


def ref_columns(ref: Ref | None, prefix: str = "") -> dict[str, int | None]:
    """The two columns that name a step."""
    return {
        f"{prefix}removal_id": ref.removal_id if ref else None,
        f"{prefix}task_id": ref.task_id if ref else None,
    }


def task_row(row: Columns) -> Task:
    of = ref(row["anchor_removal_id"], row["anchor_task_id"])
    return Task(
        id=row["id"],
        uid=row["uid"],
        job_id=row["job_id"],
        kind=TaskKind(row["kind"]),
        name=row["name"],
        anchor=Anchor(Beside(row["anchor_beside"]), of),
        area_id=row["area_id"],
        build_id=row["build_id"],
        removal_id=row["removal_id"],
        asks=asks(row["asks"]),
        note=row["note"],
        made_at=time_of(row["made_at"]),
        made_by=row["made_by"],
    )


def rule(row: Columns, members: Iterable[Columns]) -> Rule:
    """`members` are its rows, in rank."""
    named = (ref(member["removal_id"], member["task_id"]) for member in members)
    return Rule(
        id=row["id"],
        job_id=row["job_id"],
        kind=RuleKind(row["kind"]),
        members=tuple(ref for ref in named if ref is not None),
        why=row["why"],
        made_at=time_of(row["made_at"]),
        made_by=row["made_by"],
    )


def hole_map(row: Columns) -> holes.HoleMap:
    return holes.from_data(row["data"])


def pass_tick(row: Columns) -> tightening.PassTick:
    return tightening.PassTick(row["id"], row["place"], row["who"])


def wrench(row: Columns) -> Wrench:
    made = row["calibrated_on"]
    return Wrench(
        name=row["name"],
        low=row["low"],
        high=row["high"],
        unit=TorqueUnit(row["unit"]),
        step=row["step"],
        length=Length(row["length"], row["length_unit"]) if row["length"] is not None else None,
        calibrated_on=date.fromisoformat(made) if made else None,
        note=row["note"],
        id=row["id"],
    )


def wrench_columns(one: Wrench) -> dict[str, Any]:
    return {
        "name": one.name,
        "low": one.low,
        "high": one.high,
        "unit": one.unit.value,
        "step": one.step,
        "length": one.length.value if one.length else None,
        "length_unit": one.length.unit if one.length else "",
        "calibrated_on": one.calibrated_on.isoformat() if one.calibrated_on else None,
        "note": one.note,
    }


def tool_out(row: Columns) -> ToolOut:
    return ToolOut(
        id=row["id"],
        job_id=row["job_id"],
        name=row["name"],
        count=row["count"],
        out_at=datetime.fromisoformat(row["out_at"]),
        out_by=row["out_by"],
        back_at=time_of(row["back_at"]),
        back_by=row["back_by"],
    )


def _size(row: Columns) -> str:
    try:
        return str(row["size"])
    except KeyError:
        return ""


def search_text(row: Columns) -> str:
    """What a removal is found by: its number, name, size, note, condition, hardware.

    A journal of an older store holds rows without a size.
    """
    held = " ".join(str(line) for line in hardware.from_data(row["held_by"]))
    texts = ("number", "name", "note", "condition", "goes_on")
    parts = (*(row[name] for name in texts), held, _size(row))
    return " \n".join(part for part in parts if part)
