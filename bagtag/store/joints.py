"""Reading what a joint is tightened by: hole maps, ticked passes, wrenches, tools laid out."""

from collections.abc import Sequence

from sqlalchemy import Connection, select

from bagtag.domain.fitting import Ref
from bagtag.domain.holes import HoleMap
from bagtag.domain.tightening import PassTick
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.wrench import Wrench
from bagtag.store import rows
from bagtag.store.removals import in_batches
from bagtag.store.tables import hole_map, pass_tick, removal, task, tool_out, wrench


def map_of(connection: Connection, removal_id: int) -> HoleMap | None:
    return maps_of(connection, [removal_id]).get(removal_id)


def map_id(connection: Connection, removal_id: int) -> int | None:
    found: int | None = connection.scalar(
        select(hole_map.c.id).where(hole_map.c.removal_id == removal_id)
    )
    return found


def maps_of(connection: Connection, removal_ids: Sequence[int]) -> dict[int, HoleMap]:
    """Hole maps by removal."""
    found: dict[int, HoleMap] = {}
    for some in in_batches(removal_ids):
        wanted = select(hole_map).where(hole_map.c.removal_id.in_(some))
        found |= {
            row["removal_id"]: rows.hole_map(row) for row in connection.execute(wanted).mappings()
        }
    return found


def ticks_of(connection: Connection, ref: Ref) -> dict[int, PassTick]:
    """The ticked passes of a step, by their place."""
    column = pass_tick.c.removal_id if ref.removal_id is not None else pass_tick.c.task_id
    wanted = select(pass_tick).where(column == ref.id)
    ticks = (rows.pass_tick(row) for row in connection.execute(wanted).mappings())
    return {tick.place: tick for tick in ticks}


def ticks_of_job(connection: Connection, job_id: int) -> dict[Ref, set[int]]:
    """The places of the ticked passes of a job, by step."""
    of_parts = select(pass_tick).join(removal).where(removal.c.job_id == job_id)
    of_tasks = select(pass_tick).join(task).where(task.c.job_id == job_id)
    found: dict[Ref, set[int]] = {}
    for wanted in (of_parts, of_tasks):
        for row in connection.execute(wanted).mappings():
            ref = rows.ref(row["removal_id"], row["task_id"])
            if ref is not None:
                found.setdefault(ref, set()).add(row["place"])
    return found


def wrenches(connection: Connection) -> list[Wrench]:
    """The torque wrenches of the bench, the smallest first."""
    wanted = select(wrench).order_by(wrench.c.id)
    found = [rows.wrench(row) for row in connection.execute(wanted).mappings()]
    return sorted(found, key=lambda one: one.full_scale.newton_metres())


def get_wrench(connection: Connection, wrench_id: int) -> Wrench | None:
    row = connection.execute(select(wrench).where(wrench.c.id == wrench_id)).mappings().first()
    return rows.wrench(row) if row else None


def tools_out(connection: Connection, job_id: int) -> list[ToolOut]:
    """The tools of a job that are laid out and not counted back, the first laid out first."""
    wanted = select(tool_out).where(tool_out.c.job_id == job_id, tool_out.c.back_at.is_(None))
    found = connection.execute(wanted.order_by(tool_out.c.id)).mappings()
    return [rows.tool_out(row) for row in found]


def get_tool(connection: Connection, tool_id: int) -> ToolOut | None:
    row = connection.execute(select(tool_out).where(tool_out.c.id == tool_id)).mappings().first()
    return rows.tool_out(row) if row else None
