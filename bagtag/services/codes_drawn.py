"""Codes for new tags: drawn at random, never one that any tag of the store has."""

import secrets

from bagtag.domain import codes
from bagtag.store import belongings
from bagtag.store.act import Act


def fresh(act: Act) -> str:
    """One new code."""
    while True:
        code = codes.draw(secrets.choice)
        if not belongings.is_taken(act.connection, code):
            return code


def fresh_codes(act: Act, count: int) -> list[str]:
    """`count` new codes, all different."""
    found: dict[str, None] = {}
    while len(found) < count:
        drawn = {codes.draw(secrets.choice) for _ in range(min(500, count - len(found)))}
        free = drawn - belongings.codes_taken(act.connection, sorted(drawn))
        found |= dict.fromkeys(sorted(free))
    return list(found)
