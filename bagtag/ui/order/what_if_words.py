"""What is said of a rule that is only tried."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bagtag.domain.phrases import listed

if TYPE_CHECKING:
    from bagtag.services.rules import WhatIf

NAMED = 4
"""How many are named; the rest are counted."""


def breaks_words(found: WhatIf) -> str:
    """Which ties it would break; nothing for none."""
    broken = "; ".join(found.breaks[:NAMED])
    return f"✕ It would break: {broken}." if broken else ""


def along_words(found: WhatIf) -> str:
    """Which other steps would move with it; nothing for none."""
    rest = len(found.moves) - NAMED
    names = [*found.moves[:NAMED], *([f"{rest} more"] if rest > 0 else [])]
    return f"Comes along: {listed(names)}." if names else ""
