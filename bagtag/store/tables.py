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
    String,
    Table,
    UniqueConstraint,
    text,
)

from bagtag.store.tables_base import id_, link, metadata, text_
from bagtag.store.tables_between import document, instrument, measure_sheet, renewal, send_out

__all__ = [
    "JOURNALED",
    "SEARCH",
    "area",
    "away",
    "container",
    "document",
    "hole_map",
    "instrument",
    "job",
    "journal",
    "measure_sheet",
    "metadata",
    "pass_tick",
    "photo",
    "removal",
    "renewal",
    "rule",
    "rule_member",
    "send_out",
    "sign_off",
    "tag",
    "task",
    "tool_out",
    "wrench",
]

job = Table(
    "job",
    metadata,
    id_(),
    Column("uid", String(36), nullable=False, unique=True),
    Column("number", Integer, nullable=False, unique=True),
    text_("machine"),
    text_("purpose"),
    text_("owner"),
    text_("note"),
    text_("viewpoint"),
    Column("side_names", JSON, nullable=False),
    Column("opened_at", String(32), nullable=False),
    sqlite_autoincrement=True,
)

area = Table(
    "area",
    metadata,
    id_(),
    link("job_id", "job", required=True),
    text_("name"),
    link("parent_id", "area"),
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
    id_(),
    link("job_id", "job", required=True),
    Column("kind", String(10), nullable=False),
    text_("name"),
    link("parent_id", "container"),
    Index(None, "job_id"),
    Index(None, "parent_id"),
    sqlite_autoincrement=True,
)

removal = Table(
    "removal",
    metadata,
    id_(),
    Column("uid", String(36), nullable=False, unique=True),
    link("job_id", "job", required=True),
    Column("number", String(16), nullable=False),
    Column("serial", Integer, nullable=False),
    Column("position", Integer, nullable=False),
    text_("name"),
    Column("quantity", Integer, nullable=False, server_default="1"),
    link("area_id", "area"),
    Column("which_way", JSON, nullable=False),
    Column("held_by", JSON, nullable=False),
    text_("condition"),
    Column("fate", String(10), nullable=False),
    text_("goes_on"),
    text_("note"),
    link("container_id", "container"),
    Column("replacement", String(10), nullable=False),
    Column("logged_at", String(32), nullable=False),
    text_("logged_by"),
    Column("version", Integer, nullable=False, server_default="1"),
    text_("kind"),
    text_("side", 10),
    text_("size"),
    Column("hazards", JSON, nullable=False, server_default="[]"),
    Column("unanswered", JSON, nullable=False, server_default="[]"),
    text_("origin", 10, default="off"),
    Column(
        "build_id",
        Integer,
        ForeignKey("task.id", use_alter=True, name="fk_removal_build_id"),
        nullable=True,
    ),
    Column("asks", JSON, nullable=False, server_default="[]"),
    Column("passes", JSON, nullable=False, server_default="[]"),
    text_("tools"),
    Column(
        "off_id",
        Integer,
        ForeignKey("removal.id", use_alter=True, name="fk_removal_off_id"),
        nullable=True,
    ),
    UniqueConstraint("job_id", "number"),
    CheckConstraint("quantity >= 1", name="quantity"),
    CheckConstraint("name <> ''", name="name"),
    Index(None, "job_id", "position"),
    Index(None, "job_id", "serial"),
    Index(None, "area_id"),
    Index(None, "container_id"),
    # Of the few that did not come off here, so that they are counted without reading the log.
    Index("ix_removal_origin", "job_id", "origin", sqlite_where=text("origin <> 'off'")),
    Index("ix_removal_off_id", "off_id", sqlite_where=text("off_id IS NOT NULL")),
    sqlite_autoincrement=True,
)

tag = Table(
    "tag",
    metadata,
    id_(),
    Column("code", String(6), nullable=False, unique=True),
    Column("role", String(20), nullable=False),
    link("job_id", "job"),
    link("removal_id", "removal"),
    link("container_id", "container"),
    text_("pair", 36),
    text_("printed_at", 32),
    link("task_id", "task"),
    Column(
        "send_out_id", Integer, ForeignKey("send_out.id", name="fk_tag_send_out_id"), nullable=True
    ),
    Index(None, "removal_id"),
    Index(None, "container_id"),
    Index(None, "task_id"),
    Index(None, "job_id"),
    sqlite_autoincrement=True,
)

photo = Table(
    "photo",
    metadata,
    id_(),
    link("removal_id", "removal", required=True),
    Column("hash", String(64), nullable=False),
    Column("ext", String(8), nullable=False),
    text_("name"),
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
    id_(),
    Column("uid", String(36), nullable=False, unique=True),
    link("job_id", "job", required=True),
    Column("kind", String(20), nullable=False),
    text_("name"),
    text_("anchor_beside", 10, default="after"),
    link("anchor_removal_id", "removal"),
    link("anchor_task_id", "task"),
    link("area_id", "area"),
    link("build_id", "task"),
    link("removal_id", "removal"),
    Column("asks", JSON, nullable=False, server_default="[]"),
    text_("note"),
    Column("made_at", String(32), nullable=False),
    text_("made_by"),
    Index(None, "job_id"),
    Index(None, "removal_id"),
    Index(None, "anchor_removal_id"),
    sqlite_autoincrement=True,
)

rule = Table(
    "rule",
    metadata,
    id_(),
    link("job_id", "job", required=True),
    Column("kind", String(20), nullable=False),
    text_("why"),
    Column("made_at", String(32), nullable=False),
    text_("made_by"),
    Index(None, "job_id"),
    sqlite_autoincrement=True,
)

rule_member = Table(
    "rule_member",
    metadata,
    id_(),
    link("rule_id", "rule", required=True),
    Column("rank", Integer, nullable=False),
    link("removal_id", "removal"),
    link("task_id", "task"),
    UniqueConstraint("rule_id", "rank"),
    Index(None, "removal_id"),
    Index(None, "task_id"),
    sqlite_autoincrement=True,
)

sign_off = Table(
    "sign_off",
    metadata,
    id_(),
    Column("removal_id", Integer, ForeignKey("removal.id"), nullable=True, unique=True),
    text_("who"),
    Column("at", String(32), nullable=False),
    text_("note"),
    Column("task_id", Integer, ForeignKey("task.id"), nullable=True, unique=True),
    text_("reason"),
    Column("figures", JSON, nullable=False, server_default="[]"),
    Column("counts", JSON, nullable=False, server_default="[]"),
    sqlite_autoincrement=True,
)

away = Table(
    "away",
    metadata,
    id_(),
    link("removal_id", "removal", required=True),
    text_("shop"),
    text_("work"),
    Column("sent_at", String(32), nullable=False),
    Column("due", String(10), nullable=True),
    Column("back_at", String(32), nullable=True),
    Column(
        "send_out_id", Integer, ForeignKey("send_out.id", name="fk_away_send_out_id"), nullable=True
    ),
    Column("asks", JSON, nullable=False, server_default="[]"),
    Column("figures", JSON, nullable=False, server_default="[]"),
    Column("checks", JSON, nullable=False, server_default="[]"),
    text_("back_by"),
    text_("back_note"),
    Index(None, "removal_id"),
    Index(None, "send_out_id"),
    sqlite_autoincrement=True,
)

hole_map = Table(
    "hole_map",
    metadata,
    id_(),
    Column("removal_id", Integer, ForeignKey("removal.id"), nullable=False, unique=True),
    Column("data", JSON, nullable=False),
    sqlite_autoincrement=True,
)

pass_tick = Table(
    "pass_tick",
    metadata,
    id_(),
    link("removal_id", "removal"),
    link("task_id", "task"),
    Column("place", Integer, nullable=False),
    text_("who"),
    Column("at", String(32), nullable=False),
    UniqueConstraint("removal_id", "place"),
    UniqueConstraint("task_id", "place"),
    sqlite_autoincrement=True,
)

wrench = Table(
    "wrench",
    metadata,
    id_(),
    text_("name"),
    Column("low", Float, nullable=False),
    Column("high", Float, nullable=False),
    text_("unit", 10),
    Column("step", Float, nullable=True),
    Column("length", Float, nullable=True),
    text_("length_unit", 4),
    Column("calibrated_on", String(10), nullable=True),
    text_("note"),
    sqlite_autoincrement=True,
)

tool_out = Table(
    "tool_out",
    metadata,
    id_(),
    link("job_id", "job", required=True),
    text_("name"),
    Column("count", Integer, nullable=False, server_default="1"),
    Column("out_at", String(32), nullable=False),
    text_("out_by"),
    Column("back_at", String(32), nullable=True),
    text_("back_by"),
    Index(None, "job_id"),
    sqlite_autoincrement=True,
)

journal = Table(
    "journal",
    metadata,
    id_(),
    Column("at", String(32), nullable=False),
    text_("who"),
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
        send_out,
        document,
        renewal,
        measure_sheet,
        instrument,
    )
}

SEARCH = "removal_search"
