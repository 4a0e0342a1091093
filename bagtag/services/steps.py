"""The steps of a build as they are chosen from: a light row each, in the order of the plan."""

from dataclasses import dataclass

from bagtag.domain import areas as tree
from bagtag.domain.fitting import Ref, TaskKind
from bagtag.services.planning import Planned, planned
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class StepRow:
    """A step to choose. `area` is the path of the area it is done in, `build_id` the bench build it
    belongs to; `is_build` says that it is one itself, `is_in` that it is signed off."""

    ref: Ref
    called: str
    area_id: int | None = None
    area: str = ""
    build_id: int | None = None
    is_build: bool = False
    is_in: bool = False


def steps_of(store: Store, job_id: int) -> tuple[StepRow, ...]:
    """Every step of a job's build, first to last; what is scrapped is none. Cheap by the thousand:
    nothing is asked about what a step waits for."""
    known = planned(store, job_id)
    paths = {area_id: tree.path_text(known.areas, area_id) for area_id in known.areas}
    return tuple(_row(known, ref, paths) for ref in known.plan.order)


def _row(known: Planned, ref: Ref, paths: dict[int, str]) -> StepRow:
    area_id = known.places.get(ref)
    task = known.tasks.get(ref)
    return StepRow(
        ref=ref,
        called=known.called(ref),
        area_id=area_id,
        area=paths.get(area_id, "") if area_id is not None else "",
        build_id=known.build_id(ref),
        is_build=task is not None and task.kind is TaskKind.BENCH_BUILD,
        is_in=ref in known.signed,
    )
