"""The audit of what held the parts: how many, and how tight."""

import re
from collections.abc import Iterator

from bagtag.domain.audit_finding import Finding, Lack, Look
from bagtag.domain.audit_words import listed
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Removal

_THREADED = re.compile(r"\b(?:bolt|screw|nut|stud|capscrew|setscrew)s?\b", re.IGNORECASE)
_PERHAPS = re.compile(r"\b(?:plug|fastener)s?\b", re.IGNORECASE)
_NO_TORQUE = re.compile(r"\b(?:hand[ -]?tight|finger[ -]?tight|no torque)\b", re.IGNORECASE)


def uncounted(look: Look) -> Iterator[Finding]:
    """Hardware that nobody has counted."""
    for removal in look.live:
        lines = [line for line in removal.held_by if line.count is None]
        if lines:
            said = f"Count the {listed([called(line) for line in lines])}."
            yield Finding(Lack.COUNT, said, removal.id)


def without_torque(look: Look) -> Iterator[Finding]:
    """Threaded fasteners without a torque, on a part or logged as the part itself."""
    for removal in look.live:
        lines = [called(line) for line in removal.held_by if wants_torque(line, look)]
        if not lines and _is_bare_fastener(removal, look):
            lines = ["this fastener"]
        if lines:
            said = (
                f"Look up the torque of {listed(lines)} in the maker's manual, or write "
                '"hand tight" or "no torque given".'
            )
            yield Finding(Lack.TORQUE, said, removal.id)


def wants_torque(line: HeldBy, look: Look) -> bool:
    """Whether a line lacks a torque: a bolt, screw, nut or stud wants one, a plug or fastener where
    it has a thread."""
    if line.torque is not None or _NO_TORQUE.search(f"{line.note}; {line.locking}"):
        return False
    if _THREADED.search(line.kind) or (line.thread and _PERHAPS.search(line.kind or "fastener")):
        return True
    kind = look.stripped.kinds.of(line.kind)
    return kind is not None and kind.threaded


def _is_bare_fastener(removal: Removal, look: Look) -> bool:
    """Whether the part is itself a threaded fastener, and no torque is written with it."""
    kind = look.kinds[removal.id]
    if kind is None or not kind.threaded or _NO_TORQUE.search(removal.note):
        return False
    told = (line.torque is not None or _NO_TORQUE.search(f"{line.note}; {line.locking}")
            for line in removal.held_by)  # fmt: skip
    return not any(told)


def called(line: HeldBy) -> str:
    """ "4 bolts M6x30", "bolts M6x30" not counted: without what else is known of them."""
    bare = HeldBy(line.count, line.kind, line.thread, line.length, line.length_unit)
    return str(bare).removeprefix("? ")
