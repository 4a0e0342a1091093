"""Sending parts to an outside shop and checking them back in: the use cases of a batch."""

from bagtag.domain.sending import (
    Back,
    Batch,
    Item,
    Late,
    PackForm,
    Scanned,
    ShopPart,
    Wanted,
)

__all__ = [
    "Back",
    "Batch",
    "Item",
    "Late",
    "PackForm",
    "Scanned",
    "ShopPart",
    "Wanted",
]
