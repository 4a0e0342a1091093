"""The strip audit: before the bench is cleared, what is missing, worst first.

Nothing found means that nothing is missing: every finding can be answered, and an answer takes
away that finding and no other. Scrapped parts are left out, but where they lie is looked at.
"""

from collections.abc import Callable, Iterable

from bagtag.domain import audit_fasteners, audit_hold, audit_joints, audit_part, audit_sets
from bagtag.domain.audit_finding import Finding, Lack, Look, Stripped, tally

__all__ = ["Finding", "Lack", "Look", "Stripped", "audit", "tally"]

Rule = Callable[[Look], Iterable[Finding]]

_RULES: dict[Lack, Rule] = {
    Lack.CONTRADICTION: audit_hold.contradictory,
    Lack.WAY: audit_part.way,
    Lack.SET: audit_sets.gaps,
    Lack.MIXED: audit_hold.mixed,
    Lack.DECISION: audit_part.undecided,
    Lack.RENEW: audit_part.not_renewed,
    Lack.FIGURE: audit_joints.doubtful,
    Lack.COUNT: audit_fasteners.uncounted,
    Lack.HOLES: audit_joints.holes,
    Lack.TORQUE: audit_fasteners.without_torque,
    Lack.PASSES: audit_joints.passes,
    Lack.OPENER: audit_hold.shut,
    Lack.LOOSE: audit_part.loose,
    Lack.KIND: audit_part.unknown,
    Lack.TAG: audit_part.untagged,
    Lack.PHOTO: audit_part.unphotographed,
}


def audit(stripped: Stripped) -> tuple[Finding, ...]:
    """What is missing in a job, by `Lack`, each in the order off; the same whatever the order of
    the removals given. O(n log n)."""
    look = Look(stripped)
    return tuple(finding for lack in Lack for finding in _RULES[lack](look))
