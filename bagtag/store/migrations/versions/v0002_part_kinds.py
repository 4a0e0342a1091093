"""Part kinds: kind, side, size, hazards, open questions; areas left open; tags printed."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def _text(name: str, length: int | None = None) -> sa.Column[str]:
    return sa.Column(name, sa.String(length), nullable=False, server_default="")


def upgrade() -> None:
    for column in (_text("kind"), _text("side", 10), _text("size")):
        op.add_column("removal", column)
    for name in ("hazards", "unanswered"):
        column = sa.Column(name, sa.JSON, nullable=False, server_default="[]")
        op.add_column("removal", column)
    is_open = sa.Column("is_open", sa.Integer, nullable=False, server_default="0")
    op.add_column("area", is_open)
    op.add_column("tag", _text("printed_at", 32))
