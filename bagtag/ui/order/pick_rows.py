"""What the forms of the build choose from: steps, areas, bench builds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from bagtag import services
from bagtag.domain import areas as tree
from bagtag.domain.fitting import Ref, task
from bagtag.ui.forms.pick_model import PickRow

if TYPE_CHECKING:
    from bagtag.services.steps import StepRow


@dataclass(frozen=True, slots=True)
class Rows:
    """The steps of a job in the order of the plan, its areas from the top down, its bench builds
    by the id of their task."""

    steps: tuple[StepRow, ...] = ()
    areas: tuple[PickRow, ...] = ()

    def step(self, ref: Ref | None) -> StepRow | None:
        return next((step for step in self.steps if step.ref == ref), None)

    def called(self, ref: Ref | None) -> str:
        step = self.step(ref)
        return step.called if step is not None else ""

    def pick_steps(self, but: Sequence[Ref | None] = ()) -> list[PickRow]:
        """All steps but these."""
        return [_step(step) for step in self.steps if step.ref not in but]

    def pick_parts(self) -> list[PickRow]:
        """Those steps that are parts."""
        return [_step(step) for step in self.steps if step.ref.removal_id is not None]

    def part_near(self, ref: Ref | None) -> Ref | None:
        """The step itself where it is a part, else the last part before it in the plan."""
        near = None
        for step in self.steps:
            near = step.ref if step.ref.removal_id is not None else near
            if step.ref == ref:
                return near
        return None

    def is_before(self, one: Ref, other: Ref) -> bool:
        """Whether one goes in before the other as the plan is now."""
        first = next((step.ref for step in self.steps if step.ref in (one, other)), None)
        return first == one

    def next_to(self, ref: Ref | None) -> Ref | None:
        """The step after this one in the plan."""
        following = (b.ref for a, b in pairwise(self.steps) if a.ref == ref)
        return next(following, None)

    def pick_builds(self, but: int | None = None) -> list[PickRow]:
        """All bench builds but this."""
        builds = (step for step in self.steps if step.is_build and step.ref != task(but or 0))
        return [PickRow(step.ref.id, step.called, step.area) for step in builds]

    def pieces(self, build_id: int) -> list[Ref]:
        return [step.ref for step in self.steps if step.build_id == build_id]


def _step(step: StepRow) -> PickRow:
    said = (step.area, "in already" if step.is_in else "")
    return PickRow(step.ref, step.called, ", ".join(filter(None, said)), step.is_in)


def rows_of(store: Any, job_id: int) -> Rows:
    """What the forms of a job choose from, as it stands now."""
    areas = services.jobs.areas_of(store, job_id)
    known = tree.by_id(areas)
    listed = tree.in_tree_order(areas)
    return Rows(
        services.steps.steps_of(store, job_id),
        tuple(PickRow(area.id, tree.path_text(known, area.id)) for _, area in listed),
    )
