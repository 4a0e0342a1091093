"""Send-outs with their documents, renewals, measuring sheets, instruments."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def _text(name: str, length: int | None = None, default: str = "") -> sa.Column[str]:
    return sa.Column(name, sa.String(length), nullable=False, server_default=default)


def _maybe(name: str, length: int) -> sa.Column[str]:
    return sa.Column(name, sa.String(length), nullable=True)


def _always(name: str, length: int) -> sa.Column[str]:
    return sa.Column(name, sa.String(length), nullable=False)


def _number(name: str, *, required: bool = False, default: str | None = None) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, nullable=not required, server_default=default)


def _json(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.JSON, nullable=False, server_default="[]")


def _link(table: str, column: str, target: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint([column], [f"{target}.id"], name=f"fk_{table}_{column}")


def _unique(table: str, *columns: str) -> sa.UniqueConstraint:
    return sa.UniqueConstraint(*columns, name=f"uq_{table}_{'_'.join(columns)}")


def _table(name: str, *parts: sa.schema.SchemaItem) -> None:
    op.create_table(
        name,
        sa.Column("id", sa.Integer, primary_key=True),
        *parts,
        sa.PrimaryKeyConstraint("id", name=f"pk_{name}"),
        sqlite_autoincrement=True,
    )


def _index(table: str, *columns: str) -> None:
    for column in columns:
        op.create_index(f"ix_{table}_{column}", table, [column])


def _add_link(table: str, column: str, target: str) -> None:
    """Alembic adds no column with a foreign key to an SQLite table; SQLite itself does."""
    op.execute(
        f"ALTER TABLE {table} ADD COLUMN {column} INTEGER "
        f"CONSTRAINT fk_{table}_{column} REFERENCES {target} (id)"
    )


def upgrade() -> None:
    _send_outs()
    _times_away()
    _removals_and_tags()
    _renewals()
    _sheets()


def _send_outs() -> None:
    _table(
        "send_out",
        _always("uid", 36),
        _number("job_id", required=True),
        _number("number", required=True),
        *map(_text, ("shop", "contact", "work")),
        _always("out_on", 10),
        _maybe("promised", 10),
        _maybe("price", 20),
        _text("currency", 8),
        _text("note"),
        _always("made_at", 32),
        _text("made_by"),
        _link("send_out", "job_id", "job"),
        _unique("send_out", "uid"),
        _unique("send_out", "job_id", "number"),
    )
    _table(
        "document",
        _number("send_out_id", required=True),
        _always("hash", 64),
        _always("ext", 8),
        _text("name"),
        _always("added_at", 32),
        _link("document", "send_out_id", "send_out"),
        _unique("document", "send_out_id", "hash"),
    )
    _index("document", "hash")


def _times_away() -> None:
    """What went out before there were batches stays without one."""
    _add_link("away", "send_out_id", "send_out")
    for name in ("asks", "figures", "checks"):
        op.add_column("away", _json(name))
    op.add_column("away", _text("back_by"))
    op.add_column("away", _text("back_note"))
    _index("away", "send_out_id")


def _removals_and_tags() -> None:
    _add_link("removal", "off_id", "removal")
    _add_link("tag", "send_out_id", "send_out")
    few = sa.text("off_id IS NOT NULL")
    op.create_index("ix_removal_off_id", "removal", ["off_id"], sqlite_where=few)


def _renewals() -> None:
    _table(
        "renewal",
        _always("uid", 36),
        _number("job_id", required=True),
        _number("removal_id"),
        *map(_text, ("line", "what", "size", "part_number", "supplier")),
        _number("count", required=True, default="1"),
        _maybe("price", 20),
        _text("currency", 8),
        _maybe("ordered_on", 10),
        _maybe("due", 10),
        _number("arrived", required=True, default="0"),
        _maybe("arrived_on", 10),
        _maybe("returned_on", 10),
        _text("returned_why"),
        _maybe("compared_at", 32),
        *map(_text, ("compared_by", "compared_note", "note")),
        _link("renewal", "job_id", "job"),
        _link("renewal", "removal_id", "removal"),
        _unique("renewal", "uid"),
        _unique("renewal", "removal_id", "line"),
        sa.CheckConstraint("count >= 1", name="ck_renewal_count"),
    )
    _index("renewal", "job_id")


def _sheets() -> None:
    _table(
        "measure_sheet",
        _always("uid", 36),
        _number("job_id", required=True),
        _number("removal_id"),
        _always("kind", 40),
        _text("title"),
        _text("unit", 8, "mm"),
        sa.Column("data", sa.JSON, nullable=False),
        _text("note"),
        _always("made_at", 32),
        _text("made_by"),
        _maybe("fate", 10),
        _maybe("decided_at", 32),
        *map(_text, ("decided_by", "why", "shop_work", "said")),
        _link("measure_sheet", "job_id", "job"),
        _link("measure_sheet", "removal_id", "removal"),
        _unique("measure_sheet", "uid"),
    )
    _index("measure_sheet", "job_id", "removal_id")
    _table(
        "instrument",
        _text("name"),
        _always("resolution", 20),
        _text("unit", 8, "mm"),
        _maybe("calibrated_on", 10),
        _text("note"),
    )
