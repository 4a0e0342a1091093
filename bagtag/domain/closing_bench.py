"""What every part of the closing count looks at, told once."""

from collections.abc import Mapping
from functools import cached_property

from bagtag.domain import areas as tree
from bagtag.domain.closing_rows import Closing, Outcome
from bagtag.domain.contradictions_common import called
from bagtag.domain.fitting import Counted, Ref, part
from bagtag.domain.model import ContainerKind, Fate, Origin, Removal
from bagtag.domain.nesting import chain
from bagtag.domain.order_input import BuildRows, areas_of_steps
from bagtag.domain.standing import Outline


class Bench:
    """A job before it is closed. `log` is in the order off."""

    def __init__(self, closing: Closing) -> None:
        self.closing = closing
        self.log = tuple(sorted(closing.removals, key=lambda r: (r.position, r.id)))
        self.by_id: Mapping[int, Removal] = {r.id: r for r in self.log}
        self.containers = {c.id: c for c in closing.containers}
        self._areas = tree.by_id(closing.areas)
        self._closed: dict[int, Removal | None] = {}

    def is_in(self, removal: Removal) -> bool:
        return part(removal.id) in self.closing.sign_offs

    def outcome(self, removal: Removal) -> Outcome:
        """What became of a part; a sign-off says more than a fate."""
        if self.is_in(removal):
            return Outcome.RENEWED if removal.fate is Fate.RENEW else Outcome.BACK
        return Outcome.SCRAPPED if removal.fate is Fate.SCRAP else Outcome.LEFT

    def is_left(self, removal: Removal) -> bool:
        return self.outcome(removal) is Outcome.LEFT

    def counted(self, removal: Removal) -> dict[int, Counted]:
        """What was counted at the sign-off, by line of hardware."""
        signed = self.closing.sign_offs.get(part(removal.id))
        return {one.held: one for one in signed.counts} if signed else {}

    def lies(self, removal: Removal) -> str:
        """ "in bag 12, tray 3, shelf B", "on shelf B", "on the bench"."""
        labels = chain(self.containers, removal.container_id)
        holder = self.containers.get(removal.container_id or 0)
        if holder is None:
            return "on the bench"
        return f"{'on' if holder.kind is ContainerKind.SHELF else 'in'} {', '.join(labels)}"

    def closed_by(self, ref: Ref) -> Removal | None:
        """The nearest part that is signed as in over a step's place; None where it is open."""
        area_id = self._places.get(ref)
        if area_id is None:
            return None
        if area_id not in self._closed:
            self._closed[area_id] = self._closer(area_id)
        closer = self._closed[area_id]
        return None if closer is not None and part(closer.id) == ref else closer

    def _closer(self, area_id: int | None) -> Removal | None:
        seen: set[int] = set()
        while area_id is not None and area_id in self._areas and area_id not in seen:
            seen.add(area_id)
            area = self._areas[area_id]
            opener = self.by_id.get(area.opener_id or 0)
            if opener is not None and self.is_in(opener):
                return opener
            area_id = area.parent_id
        return None

    @cached_property
    def _places(self) -> dict[Ref, int | None]:
        return areas_of_steps(
            BuildRows(
                log=[_outline(removal) for removal in self.log],
                areas=self.closing.areas,
                tasks=self.closing.tasks,
            )
        )


def is_new(removal: Removal) -> bool:
    return removal.origin is Origin.NEW


def amount(removal: Removal) -> str:
    """ "11 dowel", "9 oil jets (4 pieces)"."""
    pieces = f" ({removal.quantity} pieces)" if removal.quantity > 1 else ""
    return called(removal) + pieces


def _outline(r: Removal) -> Outline:
    return Outline(r.id, r.number, r.name, r.area_id, r.fate, r.replacement, r.origin, r.build_id)
