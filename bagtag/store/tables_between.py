"""The tables of what lies between strip and build: send-outs, renewals, measuring sheets."""

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Column,
    Index,
    Integer,
    String,
    Table,
    UniqueConstraint,
)

from bagtag.store.tables_base import id_, link, metadata, text_

send_out = Table(
    "send_out",
    metadata,
    id_(),
    Column("uid", String(36), nullable=False, unique=True),
    link("job_id", "job", required=True),
    Column("number", Integer, nullable=False),
    text_("shop"),
    text_("contact"),
    text_("work"),
    Column("out_on", String(10), nullable=False),
    Column("promised", String(10), nullable=True),
    Column("price", String(20), nullable=True),  # a decimal, exact
    text_("currency", 8),
    text_("note"),
    Column("made_at", String(32), nullable=False),
    text_("made_by"),
    UniqueConstraint("job_id", "number"),
    sqlite_autoincrement=True,
)

document = Table(
    "document",
    metadata,
    id_(),
    link("send_out_id", "send_out", required=True),
    Column("hash", String(64), nullable=False),
    Column("ext", String(8), nullable=False),
    text_("name"),
    Column("added_at", String(32), nullable=False),
    UniqueConstraint("send_out_id", "hash"),
    Index(None, "hash"),
    sqlite_autoincrement=True,
)

renewal = Table(
    "renewal",
    metadata,
    id_(),
    Column("uid", String(36), nullable=False, unique=True),
    link("job_id", "job", required=True),
    link("removal_id", "removal"),
    text_("line"),
    text_("what"),
    text_("size"),
    text_("part_number"),
    text_("supplier"),
    Column("count", Integer, nullable=False, server_default="1"),
    Column("price", String(20), nullable=True),  # a decimal, exact
    text_("currency", 8),
    Column("ordered_on", String(10), nullable=True),
    Column("due", String(10), nullable=True),
    Column("arrived", Integer, nullable=False, server_default="0"),
    Column("arrived_on", String(10), nullable=True),
    Column("returned_on", String(10), nullable=True),
    text_("returned_why"),
    Column("compared_at", String(32), nullable=True),
    text_("compared_by"),
    text_("compared_note"),
    text_("note"),
    UniqueConstraint("removal_id", "line"),
    CheckConstraint("count >= 1", name="count"),
    Index(None, "job_id"),
    sqlite_autoincrement=True,
)

measure_sheet = Table(
    "measure_sheet",
    metadata,
    id_(),
    Column("uid", String(36), nullable=False, unique=True),
    link("job_id", "job", required=True),
    link("removal_id", "removal"),
    Column("kind", String(40), nullable=False),
    text_("title"),
    text_("unit", 8, default="mm"),
    Column("data", JSON, nullable=False),  # readings, limits, what is given; decimals as text
    text_("note"),
    Column("made_at", String(32), nullable=False),
    text_("made_by"),
    Column("fate", String(10), nullable=True),  # what was decided; NULL while nothing is
    Column("decided_at", String(32), nullable=True),
    text_("decided_by"),
    text_("why"),
    text_("shop_work"),
    text_("said"),
    Index(None, "job_id"),
    Index(None, "removal_id"),
    sqlite_autoincrement=True,
)

instrument = Table(
    "instrument",
    metadata,
    id_(),
    text_("name"),
    Column("resolution", String(20), nullable=False),  # a decimal, exact
    text_("unit", 8, default="mm"),
    Column("calibrated_on", String(10), nullable=True),
    text_("note"),
    sqlite_autoincrement=True,
)
