"""The first tables: jobs, areas, containers, removals, tags, photos, sign-offs, journal, search."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def _text(name: str, length: int | None = None) -> sa.Column[str]:
    return sa.Column(name, sa.String(length), nullable=False, server_default="")


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _number(name: str, *, required: bool = False, default: str | None = None) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, nullable=not required, server_default=default)


def _link(table: str, column: str, target: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint([column], [f"{target}.id"], name=f"fk_{table}_{column}")


def _table(name: str, *parts: sa.schema.SchemaItem) -> None:
    op.create_table(
        name,
        _id(),
        *parts,
        sa.PrimaryKeyConstraint("id", name=f"pk_{name}"),
        sqlite_autoincrement=True,
    )


def _index(table: str, *columns: str) -> None:
    op.create_index(f"ix_{table}_{'_'.join(columns)}", table, list(columns))


def upgrade() -> None:
    _jobs()
    _areas_and_containers()
    _removals()
    _tags_and_photos()
    _sign_offs_and_away()
    _journal()
    _search()


def _jobs() -> None:
    _table(
        "job",
        sa.Column("uid", sa.String(36), nullable=False),
        _number("number", required=True),
        _text("machine"),
        _text("purpose"),
        _text("owner"),
        _text("note"),
        _text("viewpoint"),
        sa.Column("side_names", sa.JSON, nullable=False),
        sa.Column("opened_at", sa.String(32), nullable=False),
        sa.UniqueConstraint("uid", name="uq_job_uid"),
        sa.UniqueConstraint("number", name="uq_job_number"),
    )


def _areas_and_containers() -> None:
    _table(
        "area",
        _number("job_id", required=True),
        _text("name"),
        _number("parent_id"),
        _number("opener_id"),
        _number("rank", required=True, default="0"),
        _link("area", "job_id", "job"),
        _link("area", "parent_id", "area"),
        _link("area", "opener_id", "removal"),
    )
    _table(
        "container",
        _number("job_id", required=True),
        sa.Column("kind", sa.String(10), nullable=False),
        _text("name"),
        _number("parent_id"),
        _link("container", "job_id", "job"),
        _link("container", "parent_id", "container"),
    )
    for column in ("job_id", "opener_id", "parent_id"):
        _index("area", column)
    for column in ("job_id", "parent_id"):
        _index("container", column)


def _removals() -> None:
    _table(
        "removal",
        sa.Column("uid", sa.String(36), nullable=False),
        _number("job_id", required=True),
        sa.Column("number", sa.String(16), nullable=False),
        _number("serial", required=True),
        _number("position", required=True),
        _text("name"),
        _number("quantity", required=True, default="1"),
        _number("area_id"),
        sa.Column("which_way", sa.JSON, nullable=False),
        sa.Column("held_by", sa.JSON, nullable=False),
        _text("condition"),
        sa.Column("fate", sa.String(10), nullable=False),
        _text("goes_on"),
        _text("note"),
        _number("container_id"),
        sa.Column("replacement", sa.String(10), nullable=False),
        sa.Column("logged_at", sa.String(32), nullable=False),
        _text("logged_by"),
        _number("version", required=True, default="1"),
        _link("removal", "job_id", "job"),
        _link("removal", "area_id", "area"),
        _link("removal", "container_id", "container"),
        sa.UniqueConstraint("uid", name="uq_removal_uid"),
        sa.UniqueConstraint("job_id", "number", name="uq_removal_job_id_number"),
        sa.CheckConstraint("quantity >= 1", name="ck_removal_quantity"),
        sa.CheckConstraint("name <> ''", name="ck_removal_name"),
    )
    for columns in (("job_id", "position"), ("job_id", "serial"), ("area_id",), ("container_id",)):
        _index("removal", *columns)


def _tags_and_photos() -> None:
    _table(
        "tag",
        sa.Column("code", sa.String(6), nullable=False),
        sa.Column("role", sa.String(20), nullable=False),
        _number("job_id"),
        _number("removal_id"),
        _number("container_id"),
        _text("pair", 36),
        *(_link("tag", f"{target}_id", target) for target in ("job", "removal", "container")),
        sa.UniqueConstraint("code", name="uq_tag_code"),
    )
    _table(
        "photo",
        _number("removal_id", required=True),
        sa.Column("hash", sa.String(64), nullable=False),
        sa.Column("ext", sa.String(8), nullable=False),
        _text("name"),
        sa.Column("role", sa.String(20), nullable=False),
        sa.Column("taken_at", sa.String(32), nullable=True),
        _number("width", required=True),
        _number("height", required=True),
        _link("photo", "removal_id", "removal"),
        sa.UniqueConstraint("removal_id", "hash", "role", name="uq_photo_removal_id_hash_role"),
    )
    for column in ("removal_id", "container_id", "job_id"):
        _index("tag", column)
    _index("photo", "hash")


def _sign_offs_and_away() -> None:
    _table(
        "sign_off",
        _number("removal_id", required=True),
        _text("who"),
        sa.Column("at", sa.String(32), nullable=False),
        _text("note"),
        _link("sign_off", "removal_id", "removal"),
        sa.UniqueConstraint("removal_id", name="uq_sign_off_removal_id"),
    )
    _table(
        "away",
        _number("removal_id", required=True),
        _text("shop"),
        _text("work"),
        sa.Column("sent_at", sa.String(32), nullable=False),
        sa.Column("due", sa.String(10), nullable=True),
        sa.Column("back_at", sa.String(32), nullable=True),
        _link("away", "removal_id", "removal"),
    )
    _index("away", "removal_id")


def _journal() -> None:
    _table(
        "journal",
        sa.Column("at", sa.String(32), nullable=False),
        _text("who"),
        _number("scope", required=True),
        sa.Column("act", sa.String(200), nullable=False),
        sa.Column("kind", sa.String(4), nullable=False),
        sa.Column("rows", sa.JSON, nullable=False),
        _number("of"),
        _number("undo_below"),
        _number("redo_below"),
    )
    _index("journal", "scope")
    for verb in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER journal_no_{verb.lower()} BEFORE {verb} ON journal "
            "BEGIN SELECT RAISE(ABORT, 'the journal is only ever added to'); END"
        )


def _search() -> None:
    op.execute(
        "CREATE VIRTUAL TABLE removal_search USING fts5("
        "job_id UNINDEXED, body, prefix='1 2 3', tokenize='unicode61 remove_diacritics 2')"
    )
