"""Hole maps, passes and their ticks, torque wrenches, tools laid out."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def _text(name: str, length: int | None = None) -> sa.Column[str]:
    return sa.Column(name, sa.String(length), nullable=False, server_default="")


def _number(name: str, *, required: bool = False) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, nullable=not required)


def _time(name: str, *, required: bool = True) -> sa.Column[str]:
    return sa.Column(name, sa.String(32), nullable=not required)


def _link(table: str, column: str, target: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint([column], [f"{target}.id"], name=f"fk_{table}_{column}")


def _table(name: str, *parts: sa.schema.SchemaItem) -> None:
    op.create_table(
        name,
        sa.Column("id", sa.Integer, primary_key=True),
        *parts,
        sa.PrimaryKeyConstraint("id", name=f"pk_{name}"),
        sqlite_autoincrement=True,
    )


def upgrade() -> None:
    op.add_column("removal", sa.Column("passes", sa.JSON, nullable=False, server_default="[]"))
    op.add_column("removal", _text("tools"))
    _table(
        "hole_map",
        _number("removal_id", required=True),
        sa.Column("data", sa.JSON, nullable=False),
        _link("hole_map", "removal_id", "removal"),
        sa.UniqueConstraint("removal_id", name="uq_hole_map_removal_id"),
    )
    _table(
        "pass_tick",
        _number("removal_id"),
        _number("task_id"),
        _number("place", required=True),
        _text("who"),
        _time("at"),
        _link("pass_tick", "removal_id", "removal"),
        _link("pass_tick", "task_id", "task"),
        sa.UniqueConstraint("removal_id", "place", name="uq_pass_tick_removal_id_place"),
        sa.UniqueConstraint("task_id", "place", name="uq_pass_tick_task_id_place"),
    )
    _wrenches()
    _tools()


def _wrenches() -> None:
    _table(
        "wrench",
        _text("name"),
        sa.Column("low", sa.Float, nullable=False),
        sa.Column("high", sa.Float, nullable=False),
        _text("unit", 10),
        sa.Column("step", sa.Float, nullable=True),
        sa.Column("length", sa.Float, nullable=True),
        _text("length_unit", 4),
        sa.Column("calibrated_on", sa.String(10), nullable=True),
        _text("note"),
    )


def _tools() -> None:
    _table(
        "tool_out",
        _number("job_id", required=True),
        _text("name"),
        sa.Column("count", sa.Integer, nullable=False, server_default="1"),
        _time("out_at"),
        _text("out_by"),
        _time("back_at", required=False),
        _text("back_by"),
        _link("tool_out", "job_id", "job"),
    )
    op.create_index("ix_tool_out_job_id", "tool_out", ["job_id"])
