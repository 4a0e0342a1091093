"""Joints on paper as they are kept: the checklist's passes, the template, the holes on a label."""

from dataclasses import replace
from datetime import date
from io import BytesIO

import pypdfium2
import pytest
from sqlalchemy import event

from bagtag import services
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import part
from bagtag.domain.hardware import HeldBy, Length, Torque
from bagtag.domain.holes import Hole, HoleMap, Scale
from bagtag.domain.tightening import Pass
from bagtag.domain.wrench import Wrench
from bagtag.services.labels import LabelOrder

LINES = (
    HeldBy(3, thread="M8", length=35, torque=Torque(25)),
    HeldBy(1, thread="M8", length=50, torque=Torque(25), note="the longer one"),
)
MAP = HoleMap(
    (Hole(1, 0, 0, "A"), Hole(2, 80, 0, "B"), Hole(3, 80, 60, "A"), Hole(4, 0, 60, "A")),
    scale=Scale(1, 2, Length(120)),
    seen_from="above",
)
PASSES = (Pass(share=0.6), Pass(share=1.0))
WRENCH = Wrench("short wrench", 5, 50, step=0.5, calibrated_on=date.today())


@pytest.fixture
def cover(store, log):
    removal_id = log("cover", held_by=LINES)
    services.holes.save_map(store, removal_id, MAP)
    services.tightening.set_passes(store, removal_id, PASSES)
    services.wrenches.add_wrench(store, WRENCH)
    return removal_id


def step_of(store, job_id, name):
    _, steps = services.checklists.steps_of(store, job_id)
    return next(step for step in steps if step.name == name)


def text(write, *given):
    paper = BytesIO()
    write(*given, paper)
    with pypdfium2.PdfDocument(paper.getvalue()) as document:
        pages = [page.get_textpage().get_text_bounded() for page in document]
    return " ".join(" ".join(pages).split())


def test_the_checklist_has_the_passes_of_a_part_as_they_stand(store, job_id, cover):
    services.tightening.tick(store, part(cover), 0)
    step = step_of(store, job_id, "cover")
    joint = services.tightening.joint(store, part(cover))
    assert step.hole_map == MAP
    assert step.rounds == joint.rounds
    assert step.ticked == joint.ticked == {0}
    assert step.uses == (
        "Set the short wrench to 15 N·m.",
        "Set the short wrench to 25 N·m.",
    )
    said = text(services.checklists.write, store, job_id)
    assert "A, holes 1, 3, 4: 3 bolts M8x35" in said
    assert "2 Torque to 100 % = 25 N·m Set the short wrench to 25 N·m." in said


def test_a_plain_line_keeps_its_row_and_is_told_its_wrench(store, job_id, log):
    log("plate", held_by=LINES[:1])
    assert step_of(store, job_id, "plate").uses == ()
    services.wrenches.add_wrench(store, WRENCH)
    step = step_of(store, job_id, "plate")
    assert step.rounds == ()
    assert step.uses == ("Set the short wrench to 25 N·m.",)


def test_a_part_without_a_torque_has_none(store, job_id, log, cover):
    log("sleeve", held_by=(HeldBy(2, thread="M6"),))
    step = step_of(store, job_id, "sleeve")
    assert (step.rounds, step.uses, step.hole_map) == ((), (), None)


def test_special_tools_are_printed_with_their_step(store, job_id, cover):
    services.tools.note_special(store, cover, "own T-bar")
    assert step_of(store, job_id, "cover").tools == "own T-bar"
    assert "Special tools: own T-bar" in text(services.checklists.write, store, job_id)


def test_joints_are_read_at_once_however_many_there_are(store, job_id, log):
    """As many statements for twenty joints as for two."""

    def statements():
        counted = []

        def count(*_):
            counted.append(1)

        with store.read() as connection:
            engine = connection.engine
        event.listen(engine, "before_cursor_execute", count)
        try:
            services.checklists.steps_of(store, job_id)
        finally:
            event.remove(engine, "before_cursor_execute", count)
        return len(counted)

    def joints(how_many):
        for n in range(how_many):
            services.holes.save_map(store, log(f"cover {n}", held_by=LINES), MAP)

    joints(2)
    statements()
    few = statements()
    joints(18)
    statements()
    assert statements() == few


def test_the_template_of_a_part_is_true_to_what_is_kept(store, cover):
    said = text(services.templates.write, store, cover)
    for piece in (
        "cover",
        "Seen from above.",
        "3 bolts M8x35: holes 1, 3, 4",
        "Hole 1 to hole 4: 90.0 mm",
    ):
        assert piece in said
    shown = services.templates.preview(store, cover, 400)
    assert len(shown.pages) == shown.report.sheets == 1
    assert shown.report.warnings == ()
    assert len(services.templates.printed_pages(store, cover, 72, "A3")) == 1


def test_a_thread_with_an_unknown_pitch_still_has_its_diameter(store, log):
    removal_id = log("cover", held_by=(HeldBy(4, thread="M8x1.1"),))
    holes = tuple(replace(hole, mark="A") for hole in MAP.holes)
    services.holes.save_map(store, removal_id, replace(MAP, holes=holes))
    assert services.templates.preview(store, removal_id, 200).report.warnings == ()


def test_a_part_without_a_map_has_no_template(store, log):
    removal_id = log("cover", held_by=LINES)
    with pytest.raises(BadInput, match="has no hole map yet"):
        services.templates.write(store, removal_id, BytesIO())


def test_papers_are_those_that_can_be_printed_on(store, cover):
    for page in services.templates.papers():
        assert services.templates.write(store, cover, BytesIO(), page).sheets == 1


def test_a_label_says_which_holes_its_bolts_go_into(store, job_id, cover):
    order = LabelOrder(job_id, removal_ids=(cover,), stock="roll-4x6in")
    said = text(services.labels.write, store, order)
    assert "A, holes 1, 3, 4: 3 bolts M8x35, 25 N·m" in said
    assert "B, hole 2: 1 bolt M8x50, 25 N·m, the longer one" in said
