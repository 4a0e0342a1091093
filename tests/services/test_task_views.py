"""The card of a task: where it stands, what it is for, its pieces."""

import pytest

from bagtag import services
from bagtag.domain.errors import NotFound
from bagtag.domain.fitting import Anchor, Beside, TaskKind, part, task
from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque
from bagtag.domain.standing import Standing
from bagtag.services.tasks import TaskForm

HEAD_BOLTS = (HeldBy(4, "bolt", "M8", 60, torque=Torque(25)),)


@pytest.fixture
def steps(store, job_id, log):
    """A head over its gasket and a piston, in the order off."""
    ids = {"head": log("head", held_by=HEAD_BOLTS), "gasket": log("gasket")}
    ids |= {"rings": log("rings"), "piston": log("piston")}
    return {name: part(id_) for name, id_ in ids.items()}


def test_it_says_beside_which_step_it_stands(store, job_id, steps):
    said = {}
    for beside, of in (("before", "gasket"), ("after", "head"), ("after", None), ("before", None)):
        anchor = Anchor(Beside(beside), steps[of] if of else None)
        form = TaskForm(TaskKind.CLEAN, f"clean {beside} {of}", anchor)
        new = services.tasks.add_task(store, job_id, form).new_id
        said[beside, of] = services.task_views.card(store, new).stands
    assert said == {
        ("before", "gasket"): "before 2 gasket",
        ("after", "head"): "after 1 head",
        ("after", None): "after everything else",
        ("before", None): "before everything",
    }


def test_a_final_tightening_brings_its_fasteners_and_their_cautions(store, job_id, steps):
    new = services.tasks.tighten_later(store, steps["gasket"].id, steps["head"]).new_id
    assert services.task_views.card(store, new).tightens.held_by == ()
    new = services.tasks.tighten_later(store, steps["head"].id, steps["gasket"]).new_id
    card = services.task_views.card(store, new)
    assert card.tightens.held_by == HEAD_BOLTS
    assert OVERRIDE in card.cautions
    assert card.step.hindrances


def test_the_pieces_of_a_bench_build_follow_it_set_in(store, job_id, steps):
    inner = services.tasks.make_bench_build(store, job_id, "piston and rings", [steps["piston"]])
    pieces = [task(inner.new_id), steps["rings"]]
    outer = services.tasks.make_bench_build(store, job_id, "cylinder", pieces).new_id
    services.signing.sign(store, steps["piston"], who="Ada")
    card = services.task_views.card(store, outer)
    found = {piece.called: (piece.depth, piece.standing) for piece in card.pieces}
    assert found["4 piston"] == (1, Standing.IN)
    assert found["piston and rings"] == (0, Standing.NEXT)
    assert set(found) == {"4 piston", "piston and rings", "3 rings"}
    called = [piece.called for piece in card.pieces]
    assert called.index("4 piston") == called.index("piston and rings") + 1
    assert card.pieces_in == (0, 2)
    assert card.stands == ""
    assert services.task_views.card(store, inner.new_id).within == "cylinder"


def test_a_hold_point_names_who_must_not_sign_it(store, job_id, steps):
    form = TaskForm(TaskKind.HOLD_POINT, anchor=Anchor(Beside.AFTER, steps["piston"]))
    new = services.tasks.add_task(store, job_id, form).new_id
    assert services.task_views.card(store, new).not_by == ()
    services.signing.sign(store, steps["piston"], who="Ada")
    assert services.task_views.card(store, new).not_by == ("Ada",)


def test_one_that_is_gone_is_said(store, job_id):
    with pytest.raises(NotFound, match="no longer in the build"):
        services.task_views.card(store, 7)
