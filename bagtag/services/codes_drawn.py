"""Codes for new tags, never one that any tag of the store has, and what they are tied to."""

import secrets

from bagtag.domain import codes
from bagtag.domain.errors import BadInput
from bagtag.domain.model import Tag, TagRole
from bagtag.store import belongings, rows, tables
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


def tie(act: Act, tag_code: str, role: TagRole, job_id: int, **target: int) -> None:
    """Tie to a new row the blank tag that was scanned for it, or (no `tag_code`) a fresh one."""
    if not tag_code:
        act.insert(tables.tag, code=fresh(act), role=role.value, job_id=job_id, **target)
        return
    tag = belongings.tag_by_code(act.connection, codes.parse(tag_code))
    if tag is None or tag.role is not TagRole.BLANK:
        raise BadInput("That tag is not blank any more. Scan another one.", field="code")
    bind(act, tag, role, job_id, **target)


def bind(act: Act, tag: Tag, role: TagRole, job_id: int, **target: int) -> None:
    """Hang a blank tag, which was printed ahead, on what it is for."""
    printed = {"printed_at": rows.now()}
    act.update(tables.tag, tag.id, role=role.value, job_id=job_id, **printed, **target)
