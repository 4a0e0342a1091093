"""Close: what came off equals what went back plus what was renewed or scrapped."""

from dataclasses import dataclass

from bagtag.domain.model import Fate, Removal
from bagtag.store import belongings, removals
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class ClosingCount:
    """Pieces, by what became of them. `left` are the removals that do not add up yet."""

    off: int
    back: int
    renewed: int
    scrapped: int
    left: tuple[Removal, ...]
    away: int

    @property
    def adds_up(self) -> bool:
        return not self.left and self.off == self.back + self.renewed + self.scrapped


def closing_count(store: Store, job_id: int) -> ClosingCount:
    """The count of a job as it stands now, in pieces."""
    with store.read() as connection:
        log = removals.of_job(connection, job_id)
        signed = belongings.sign_offs(connection, job_id)
        out = belongings.away_now(connection, job_id)
    fitted = [r for r in log if r.id in signed]
    scrapped = [r for r in log if r.fate is Fate.SCRAP and r.id not in signed]
    left = tuple(r for r in log if r.id not in signed and r.fate is not Fate.SCRAP)
    return ClosingCount(
        off=_pieces(log),
        back=_pieces([r for r in fitted if r.fate is not Fate.RENEW]),
        renewed=_pieces([r for r in fitted if r.fate is Fate.RENEW]),
        scrapped=_pieces(scrapped),
        left=left,
        away=len(out),
    )


def _pieces(log: list[Removal]) -> int:
    return sum(removal.quantity for removal in log)
