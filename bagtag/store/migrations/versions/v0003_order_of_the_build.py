"""The order of the build: tasks, rules, figures at sign-off; parts that were never logged."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def _text(name: str, length: int | None = None, default: str = "") -> sa.Column[str]:
    return sa.Column(name, sa.String(length), nullable=False, server_default=default)


def _number(name: str, *, required: bool = False) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, nullable=not required)


def _json(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.JSON, nullable=False, server_default="[]")


def _time(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.String(32), nullable=False)


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


def _index(table: str, column: str) -> None:
    op.create_index(f"ix_{table}_{column}", table, [column])


def upgrade() -> None:
    _tasks()
    _rules()
    _removals_and_tags()
    _sign_offs()


def _tasks() -> None:
    links = {
        "job_id": "job",
        "anchor_removal_id": "removal",
        "anchor_task_id": "task",
        "area_id": "area",
        "build_id": "task",
        "removal_id": "removal",
    }
    _table(
        "task",
        sa.Column("uid", sa.String(36), nullable=False),
        _number("job_id", required=True),
        sa.Column("kind", sa.String(20), nullable=False),
        _text("name"),
        _text("anchor_beside", 10, "after"),
        *(_number(name) for name in links if name != "job_id"),
        _json("asks"),
        _text("note"),
        _time("made_at"),
        _text("made_by"),
        *(_link("task", name, target) for name, target in links.items()),
        sa.UniqueConstraint("uid", name="uq_task_uid"),
    )
    for column in ("job_id", "removal_id", "anchor_removal_id"):
        _index("task", column)


def _rules() -> None:
    _table(
        "rule",
        _number("job_id", required=True),
        sa.Column("kind", sa.String(20), nullable=False),
        _text("why"),
        _time("made_at"),
        _text("made_by"),
        _link("rule", "job_id", "job"),
    )
    _table(
        "rule_member",
        _number("rule_id", required=True),
        _number("rank", required=True),
        _number("removal_id"),
        _number("task_id"),
        _link("rule_member", "rule_id", "rule"),
        _link("rule_member", "removal_id", "removal"),
        _link("rule_member", "task_id", "task"),
        sa.UniqueConstraint("rule_id", "rank", name="uq_rule_member_rule_id_rank"),
    )
    _index("rule", "job_id")
    _index("rule_member", "removal_id")
    _index("rule_member", "task_id")


def _removals_and_tags() -> None:
    op.add_column("removal", _text("origin", 10, "off"))
    op.add_column("removal", _json("asks"))
    op.execute(
        "ALTER TABLE tag ADD COLUMN task_id INTEGER CONSTRAINT fk_tag_task_id REFERENCES task (id)"
    )
    _index("tag", "task_id")
    few = sa.text("origin <> 'off'")
    op.create_index("ix_removal_origin", "removal", ["job_id", "origin"], sqlite_where=few)
    # Alembic adds no column with a foreign key to an SQLite table; SQLite itself does.
    op.execute(
        "ALTER TABLE removal ADD COLUMN build_id INTEGER "
        "CONSTRAINT fk_removal_build_id REFERENCES task (id)"
    )


def _sign_offs() -> None:
    """A sign-off may be of a task, so `removal_id` may be empty: SQLite wants the table anew. The
    ids that were given are not given again, for an undo may bring their rows back."""
    op.execute("ALTER TABLE sign_off RENAME TO sign_off_before")
    _table(
        "sign_off",
        _number("removal_id"),
        _text("who"),
        _time("at"),
        _text("note"),
        _number("task_id"),
        _text("reason"),
        _json("figures"),
        _json("counts"),
        _link("sign_off", "removal_id", "removal"),
        _link("sign_off", "task_id", "task"),
        sa.UniqueConstraint("removal_id", name="uq_sign_off_removal_id"),
        sa.UniqueConstraint("task_id", name="uq_sign_off_task_id"),
    )
    op.execute(
        "INSERT INTO sign_off (id, removal_id, who, at, note) "
        "SELECT id, removal_id, who, at, note FROM sign_off_before"
    )
    op.execute("DELETE FROM sqlite_sequence WHERE name = 'sign_off'")
    op.execute("UPDATE sqlite_sequence SET name = 'sign_off' WHERE name = 'sign_off_before'")
    op.execute("DROP TABLE sign_off_before")
