"""What the steps of a build are chosen from: every step, in the order of the plan."""

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Anchor, Beside, TaskKind, part, task
from bagtag.domain.model import Fate


@pytest.fixture
def parts(store, job_id) -> dict[str, int]:
    """A gearbox, stripped: the cover first, the main shaft last; the split pin is scrap."""
    area = services.jobs.add_area(store, job_id, "gearbox").new_id
    made = {}
    for name, fate in (
        ("cover", Fate.REFIT),
        ("split pin", Fate.SCRAP),
        ("fork", Fate.REFIT),
        ("shaft", Fate.REFIT),
    ):
        entry = Entry(name, area_id=None if name == "cover" else area, fate=fate)
        made[name] = services.strip.log_removal(store, job_id, entry).new_id
    return made


def test_steps_stand_in_the_order_of_the_plan(store, job_id, parts) -> None:
    form = services.tasks.TaskForm(
        TaskKind.CLEAN, anchor=Anchor(Beside.BEFORE, part(parts["fork"]))
    )
    clean = services.tasks.add_task(store, job_id, form).new_id
    steps = services.steps.steps_of(store, job_id)
    wanted = [part(parts["shaft"]), task(clean), part(parts["fork"]), part(parts["cover"])]
    assert [step.ref for step in steps] == wanted
    assert [step.ref for step in services.board.board(store, job_id).steps] == wanted
    assert [step.area for step in steps] == ["gearbox", "gearbox", "gearbox", ""]
    assert steps[1].called == "clean"


def test_a_step_says_what_it_is_and_whether_it_is_in(store, job_id, parts) -> None:
    pieces = [part(parts["fork"])]
    build = services.tasks.make_bench_build(store, job_id, "selector", pieces).new_id
    services.signing.sign(store, part(parts["shaft"]), who="Ada")
    by_ref = {step.ref: step for step in services.steps.steps_of(store, job_id)}
    assert by_ref[task(build)].is_build
    assert by_ref[part(parts["fork"])].build_id == build
    assert [ref for ref, step in by_ref.items() if step.is_in] == [part(parts["shaft"])]


def test_a_bench_build_is_given_other_pieces_and_undo_gives_the_old_ones_back(
    store, job_id, parts
) -> None:
    fork, shaft, cover = (part(parts[name]) for name in ("fork", "shaft", "cover"))
    build = services.tasks.make_bench_build(store, job_id, "selector", [fork, shaft]).new_id
    form = services.tasks.TaskForm(TaskKind.BENCH_BUILD, "selector, new")
    services.tasks.edit_task(store, build, form, pieces=[shaft, cover])
    assert _pieces(store, job_id, build) == {shaft, cover}
    assert services.tasks.get_task(store, build).name == "selector, new"
    services.history.undo(store, job_id)
    assert _pieces(store, job_id, build) == {fork, shaft}
    services.tasks.edit_task(store, build, form)
    assert _pieces(store, job_id, build) == {fork, shaft}


def test_a_bench_build_without_pieces_is_refused(store, job_id, parts) -> None:
    build = services.tasks.make_bench_build(store, job_id, "selector", [part(parts["fork"])]).new_id
    form = services.tasks.TaskForm(TaskKind.BENCH_BUILD, "selector")
    with pytest.raises(BadInput) as wrong:
        services.tasks.edit_task(store, build, form, pieces=[])
    assert wrong.value.field == "pieces"
    with pytest.raises(BadInput):
        services.tasks.edit_task(store, build, form, pieces=[task(build)])
    assert _pieces(store, job_id, build) == {part(parts["fork"])}


def _pieces(store, job_id: int, build: int) -> set:
    return {s.ref for s in services.steps.steps_of(store, job_id) if s.build_id == build}
