"""The tables. Times are ISO 8601 text with their offset; facts and hardware are JSON.

Every column holds what JSON can hold, so that the journal keeps a row as it is.
"""

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Column,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    UniqueConstraint,
    text,
)

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}

metadata = MetaData(naming_convention=NAMING)


def _id() -> Column[int]:
    return Column("id", Integer, primary_key=True)


def _link(name: str, target: str, *, required: bool = False) -> Column[int]:
    return Column(name, Integer, ForeignKey(f"{target}.id"), nullable=not required)


def _text(name: str, length: int | None = None, *, default: str = "") -> Column[str]:
    return Column(name, String(length), nullable=False, server_default=default)


job = Table(
    "job",
    metadata,
    _id(),
    Column("uid", String(36), nullable=False, unique=True),
    Column("number", Integer, nullable=False, unique=True),
    _text("machine"),
    _text("purpose"),
    _text("owner"),
    _text("note"),
    _text("viewpoint"),
    Column("side_names", JSON, nullable=False),
    Column("opened_at", String(32), nullable=False),
    sqlite_autoincrement=True,
)

area = Table(
    "area",
    metadata,
    _id(),
    _link("job_id", "job", required=True),
    _text("name"),
    _link("parent_id", "area"),
    Column(
        "opener_id",
        Integer,
        ForeignKey("removal.id", use_alter=True, name="fk_area_opener_id"),
        nullable=True,
    ),
    Column("rank", Integer, nullable=False, server_default="0"),
    Column("is_open", Integer, nullable=False, server_default="0"),
    Index(None, "job_id"),
    Index(None, "opener_id"),
    Index(None, "parent_id"),
    sqlite_autoincrement=True,
)

container = Table(
    "container",
    metadata,
    _id(),
    _link("job_id", "job", required=True),
    Column("kind", String(10), nullable=False),
    _text("name"),
    _link("parent_id", "container"),
    Index(None, "job_id"),
    Index(None, "parent_id"),
    sqlite_autoincrement=True,
)

removal = Table(
    "removal",
    metadata,
    _id(),
    Column("uid", String(36), nullable=False, unique=True),
    _link("job_id", "job", required=True),
    Column("number", String(16), nullable=False),
    Column("serial", Integer, nullable=False),
    Column("position", Integer, nullable=False),
    _text("name"),
    Column("quantity", Integer, nullable=False, server_default="1"),
    _link("area_id", "area"),
    Column("which_way", JSON, nullable=False),
    Column("held_by", JSON, nullable=False),
    _text("condition"),
    Column("fate", String(10), nullable=False),
    _text("goes_on"),
    _text("note"),
    _link("container_id", "container"),
    Column("replacement", String(10), nullable=False),
    Column("logged_at", String(32), nullable=False),
    _text("logged_by"),
    Column("version", Integer, nullable=False, server_default="1"),
    _text("kind"),
    _text("side", 10),
    _text("size"),
    Column("hazards", JSON, nullable=False, server_default="[]"),
    Column("unanswered", JSON, nullable=False, server_default="[]"),
    _text("origin", 10, default="off"),
    Column(
        "build_id",
        Integer,
        ForeignKey("task.id", use_alter=True, name="fk_removal_build_id"),
        nullable=True,
    ),
    Column("asks", JSON, nullable=False, server_default="[]"),
    Column("passes", JSON, nullable=False, server_default="[]"),
    _text("tools"),
    UniqueConstraint("job_id", "number"),
    CheckConstraint("quantity >= 1", name="quantity"),
    CheckConstraint("name <> ''", name="name"),
    Index(None, "job_id", "position"),
    Index(None, "job_id", "serial"),
    Index(None, "area_id"),
    Index(None, "container_id"),
    # Of the few that did not come off here, so that they are counted without reading the log.
    Index("ix_removal_origin", "job_id", "origin", sqlite_where=text("origin <> 'off'")),
    sqlite_autoincrement=True,
)

tag = Table(
    "tag",
    metadata,
    _id(),
    Column("code", String(6), nullable=False, unique=True),
    Column("role", String(20), nullable=False),
    _link("job_id", "job"),
    _link("removal_id", "removal"),
    _link("container_id", "container"),
    _text("pair", 36),
    _text("printed_at", 32),
    _link("task_id", "task"),
    Index(None, "removal_id"),
    Index(None, "container_id"),
    Index(None, "task_id"),
    Index(None, "job_id"),
    sqlite_autoincrement=True,
)

photo = Table(
    "photo",
    metadata,
    _id(),
    _link("removal_id", "removal", required=True),
    Column("hash", String(64), nullable=False),
    Column("ext", String(8), nullable=False),
    _text("name"),
    Column("role", String(20), nullable=False),
    Column("taken_at", String(32), nullable=True),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    UniqueConstraint("removal_id", "hash", "role"),
    Index(None, "hash"),
    sqlite_autoincrement=True,
)

task = Table(
    "task",
    metadata,
    _id(),
    Column("uid", String(36), nullable=False, unique=True),
    _link("job_id", "job", required=True),
    Column("kind", String(20), nullable=False),
    _text("name"),
    _text("anchor_beside", 10, default="after"),
    _link("anchor_removal_id", "removal"),
    _link("anchor_task_id", "task"),
    _link("area_id", "area"),
    _link("build_id", "task"),
    _link("removal_id", "removal"),
    Column("asks", JSON, nullable=False, server_default="[]"),
    _text("note"),
    Column("made_at", String(32), nullable=False),
    _text("made_by"),
    Index(None, "job_id"),
    Index(None, "removal_id"),
    Index(None, "anchor_removal_id"),
    sqlite_autoincrement=True,
)

rule = Table(
    "rule",
    metadata,
    _id(),
    _link("job_id", "job", required=True),
    Column("kind", String(20), nullable=False),
    _text("why"),
    Column("made_at", String(32), nullable=False),
    _text("made_by"),
    Index(None, "job_id"),
    sqlite_autoincrement=True,
)

rule_member = Table(
    "rule_member",
    metadata,
    _id(),
    _link("rule_id", "rule", required=True),
    Column("rank", Integer, nullable=False),
    _link("removal_id", "removal"),
    _link("task_id", "task"),
    UniqueConstraint("rule_id", "rank"),
    Index(None, "removal_id"),
    Index(None, "task_id"),
    sqlite_autoincrement=True,
)

sign_off = Table(
    "sign_off",
    metadata,
    _id(),
    Column("removal_id", Integer, ForeignKey("removal.id"), nullable=True, unique=True),
    _text("who"),
    Column("at", String(32), nullable=False),
    _text("note"),
    Column("task_id", Integer, ForeignKey("task.id"), nullable=True, unique=True),
    _text("reason"),
    Column("figures", JSON, nullable=False, server_default="[]"),
    Column("counts", JSON, nullable=False, server_default="[]"),
    sqlite_autoincrement=True,
)

away = Table(
    "away",
    metadata,
    _id(),
    _link("removal_id", "removal", required=True),
    _text("shop"),
    _text("work"),
    Column("sent_at", String(32), nullable=False),
    Column("due", String(10), nullable=True),
    Column("back_at", String(32), nullable=True),
    Index(None, "removal_id"),
    sqlite_autoincrement=True,
)

hole_map = Table(
    "hole_map",
    metadata,
    _id(),
    Column("removal_id", Integer, ForeignKey("removal.id"), nullable=False, unique=True),
    Column("data", JSON, nullable=False),
    sqlite_autoincrement=True,
)

pass_tick = Table(
    "pass_tick",
    metadata,
    _id(),
    _link("removal_id", "removal"),
    _link("task_id", "task"),
    Column("place", Integer, nullable=False),
    _text("who"),
    Column("at", String(32), nullable=False),
    UniqueConstraint("removal_id", "place"),
    UniqueConstraint("task_id", "place"),
    sqlite_autoincrement=True,
)

wrench = Table(
    "wrench",
    metadata,
    _id(),
    _text("name"),
    Column("low", Float, nullable=False),
    Column("high", Float, nullable=False),
    _text("unit", 10),
    Column("step", Float, nullable=True),
    Column("length", Float, nullable=True),
    _text("length_unit", 4),
    Column("calibrated_on", String(10), nullable=True),
    _text("note"),
    sqlite_autoincrement=True,
)

tool_out = Table(
    "tool_out",
    metadata,
    _id(),
    _link("job_id", "job", required=True),
    _text("name"),
    Column("count", Integer, nullable=False, server_default="1"),
    Column("out_at", String(32), nullable=False),
    _text("out_by"),
    Column("back_at", String(32), nullable=True),
    _text("back_by"),
    Index(None, "job_id"),
    sqlite_autoincrement=True,
)

journal = Table(
    "journal",
    metadata,
    _id(),
    Column("at", String(32), nullable=False),
    _text("who"),
    Column("scope", Integer, nullable=False),  # the job's id, 0 for acts that belong to no job
    Column("act", String(200), nullable=False),
    Column("kind", String(4), nullable=False),  # do, undo or redo
    Column("rows", JSON, nullable=False),  # [table, id, before, after] for each row touched
    Column("of", Integer, nullable=True),  # what an undo took back or a redo did again
    Column("undo_below", Integer, nullable=True),  # see bagtag.store.journal
    Column("redo_below", Integer, nullable=True),
    Index(None, "scope"),
    sqlite_autoincrement=True,
)

JOURNALED = {
    t.name: t
    for t in (
        job,
        area,
        container,
        removal,
        tag,
        photo,
        sign_off,
        away,
        task,
        rule,
        rule_member,
        hole_map,
        pass_tick,
        wrench,
        tool_out,
    )
}

SEARCH = "removal_search"
