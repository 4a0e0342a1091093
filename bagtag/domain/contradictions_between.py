"""What removals of one job say against each other."""

from collections.abc import Sequence

from bagtag.domain.contradictions_common import Contradiction
from bagtag.domain.contradictions_marks import in_marks
from bagtag.domain.contradictions_pairs import hands_and_sides, in_pairs, same_ways
from bagtag.domain.contradictions_rows import in_rows
from bagtag.domain.datum import Datum
from bagtag.domain.kinds import Kinds
from bagtag.domain.model import Removal

_NO_KINDS = Kinds()


def between(
    removals: Sequence[Removal], datum: Datum, kinds: Kinds = _NO_KINDS
) -> tuple[Contradiction, ...]:
    """What removals of one job say against each other, whatever their order. `kinds` say which
    pairs sit alike and which as in a mirror."""
    logged = sorted(removals, key=lambda removal: (removal.position, removal.uid))
    return (
        *in_rows(logged, datum),
        *in_pairs(logged, datum, kinds),
        *same_ways(logged, datum),
        *hands_and_sides(logged, datum),
        *in_marks(logged),
    )
