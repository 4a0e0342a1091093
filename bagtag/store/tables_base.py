"""What every table is made with."""

from sqlalchemy import Column, ForeignKey, Integer, MetaData, String

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}

metadata = MetaData(naming_convention=NAMING)


def id_() -> Column[int]:
    return Column("id", Integer, primary_key=True)


def link(name: str, target: str, *, required: bool = False) -> Column[int]:
    return Column(name, Integer, ForeignKey(f"{target}.id"), nullable=not required)


def text_(name: str, length: int | None = None, *, default: str = "") -> Column[str]:
    return Column(name, String(length), nullable=False, server_default=default)
