"""Reading what is added to a log for its build: tasks and rules."""

from collections import defaultdict
from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Select, select

from bagtag.domain.fitting import Ref, Rule, Task
from bagtag.store import rows
from bagtag.store.removals import in_batches
from bagtag.store.tables import rule, rule_member, task


def tasks(connection: Connection, job_id: int) -> list[Task]:
    """The tasks of a job, the first made first."""
    return _tasks(connection, select(task).where(task.c.job_id == job_id))


def get_task(connection: Connection, task_id: int) -> Task | None:
    found = _tasks(connection, select(task).where(task.c.id == task_id))
    return found[0] if found else None


def task_of_uid(connection: Connection, uid: str) -> Task | None:
    found = _tasks(connection, select(task).where(task.c.uid == uid))
    return found[0] if found else None


def hanging_on(connection: Connection, ref: Ref) -> list[Task]:
    """The tasks that stand beside a step, or tighten it."""
    if ref.removal_id is None:
        which = task.c.anchor_task_id == ref.id
    else:
        which = (task.c.anchor_removal_id == ref.id) | (task.c.removal_id == ref.id)
    return _tasks(connection, select(task).where(which))


def _tasks(connection: Connection, wanted: Select[Any]) -> list[Task]:
    found = connection.execute(wanted.order_by(task.c.id)).mappings()
    return [rows.task_row(row) for row in found]


def rules(connection: Connection, job_id: int) -> list[Rule]:
    """The rules of a job, the oldest first."""
    return _rules(connection, select(rule).where(rule.c.job_id == job_id))


def get_rule(connection: Connection, rule_id: int) -> Rule | None:
    found = _rules(connection, select(rule).where(rule.c.id == rule_id))
    return found[0] if found else None


def naming(connection: Connection, ref: Ref) -> list[Rule]:
    """The rules that name a step."""
    column = rule_member.c.removal_id if ref.removal_id is not None else rule_member.c.task_id
    named = select(rule_member.c.rule_id).where(column == ref.id)
    return _rules(connection, select(rule).where(rule.c.id.in_(named)))


def _rules(connection: Connection, wanted: Select[Any]) -> list[Rule]:
    found = list(connection.execute(wanted.order_by(rule.c.id)).mappings())
    members = _members(connection, [row["id"] for row in found])
    return [rows.rule(row, members[row["id"]]) for row in found]


def _members(connection: Connection, rule_ids: Sequence[int]) -> dict[int, list[rows.Columns]]:
    members: dict[int, list[rows.Columns]] = defaultdict(list)
    for some in in_batches(rule_ids):
        wanted = select(rule_member).where(rule_member.c.rule_id.in_(some))
        for row in connection.execute(wanted.order_by(rule_member.c.rank)).mappings():
            members[row["rule_id"]].append(row)
    return members


def member_ids(connection: Connection, rule_id: int) -> list[int]:
    """The rows of a rule's members, in rank."""
    wanted = select(rule_member.c.id).where(rule_member.c.rule_id == rule_id)
    return list(connection.scalars(wanted.order_by(rule_member.c.rank)))


def in_area(connection: Connection, area_id: int) -> list[int]:
    """The tasks that stand in an area."""
    return list(connection.scalars(select(task.c.id).where(task.c.area_id == area_id)))


def pieces_of(connection: Connection, build_id: int) -> list[int]:
    """The tasks that belong to a bench build."""
    return list(connection.scalars(select(task.c.id).where(task.c.build_id == build_id)))
