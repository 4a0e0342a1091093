"""Which way as the use cases keep it: links between parts, questions left open, kinds by name."""

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.model import Fate, Hazard
from bagtag.domain.which_way import Faces, Hand, OtherPart, Outness, Place, SameWay, Without
from bagtag.services.labels import LabelOrder
from bagtag.store import belongings

GEAR = (Faces("chamfer", OtherPart("gear 3")),)


def facts_of(store, removal_id):
    return services.strip.get_removal(store, removal_id).which_way


def uid_of(store, removal_id):
    return services.strip.get_removal(store, removal_id).uid


def test_a_part_is_tied_to_the_one_it_names(store, log):
    gear = log("gear 3")
    washer = log("thrust washer", which_way=GEAR)
    assert facts_of(store, washer)[0].toward == OtherPart("gear 3", uid_of(store, gear))


def test_a_part_named_before_it_is_logged_is_tied_then(store, job_id, log):
    washer = log("thrust washer", which_way=GEAR)
    assert facts_of(store, washer) == GEAR
    gear = log("gear 3")
    assert facts_of(store, washer)[0].toward.uid == uid_of(store, gear)
    services.history.undo(store, job_id)
    assert facts_of(store, washer) == GEAR


def test_of_two_that_could_be_meant_none_is_chosen(store, log):
    log("input gear")
    log("output gear")
    washer = log("thrust washer", which_way=(Faces("chamfer", OtherPart("the gear")),))
    assert facts_of(store, washer)[0].toward.uid == ""


def test_the_card_says_how_the_other_one_sat(store, log):
    log("shift fork L", which_way=(Hand("L", True), Faces("C", Outness.OUTWARD)))
    other = SameWay(OtherPart("the other fork"))
    right = log("shift fork R", which_way=(Hand("R", True), other))
    said = services.views.card(store, right).sentence
    assert "shift fork L (1)" in said
    assert "C faces outward" in said
    assert services.views.strip_rows(store, 1, [right])[0].told[1].facts


def test_an_entry_remembers_what_its_kind_asked_and_nobody_answered(store, log):
    seal = log("oil seal")
    kind = services.kinds.of(store).named("oil seal")
    asked = {question.id for question in kind.asks}
    assert asked
    assert set(services.strip.get_removal(store, seal).unanswered) == asked
    entry = services.strip.entry_of(services.strip.get_removal(store, seal))
    answered = Entry(entry.name, which_way=(Faces("lip", Outness.INWARD),), uid=entry.uid)
    services.strip.correct_removal(store, seal, answered)
    assert "faces lip" not in services.strip.get_removal(store, seal).unanswered


def test_that_there_is_none_is_an_answer(store, log):
    seal = log("oil seal", which_way=(Without("lip"),))
    assert "faces lip" not in services.strip.get_removal(store, seal).unanswered


def test_an_entry_is_held_against_those_near_it_before_it_is_logged(store, job_id, log):
    log("gear 3", which_way=(Place(2, 3),))
    same = Entry("gear 3", which_way=(Place(2, 3),))
    (said,) = services.strip.against(store, job_id, same)
    assert "gear 3" in said
    assert services.strip.against(store, job_id, Entry("gear 4", which_way=(Place(3, 3),))) == ()


def test_a_correction_is_not_held_against_itself(store, job_id, log):
    gear = log("gear 3", which_way=(Place(2, 3),))
    entry = services.strip.entry_of(services.strip.get_removal(store, gear))
    assert services.strip.against(store, job_id, entry, gear) == ()


@pytest.mark.parametrize(
    ("line", "fate", "by_kind"),
    [
        ("oil seal, lip inward", Fate.RENEW, True),
        ("oil seal, lip inward, refit", Fate.REFIT, False),
        ("shift fork R", Fate.REFIT, False),
        ("left-over thing", Fate.REFIT, False),
    ],
)
def test_what_is_always_renewed_is_where_the_line_says_no_fate(store, job_id, line, fate, by_kind):
    reader = services.tape.reader(store, job_id)
    read = reader.read(line)
    assert (read.entry.fate, reader.fate_is_by_kind(read)) == (fate, by_kind)


def test_size_hazards_and_side_are_kept(store, log):
    spring = log("detent spring", size="12x40", hazards=(Hazard.SHARP, Hazard.SPRING))
    kept = services.strip.get_removal(store, spring)
    assert (kept.size, kept.hazards) == ("12x40", (Hazard.SPRING, Hazard.SHARP))
    assert [hit.removal_id for hit in services.find.find(store, "12x40")] == [spring]


def test_a_printed_label_is_remembered_and_can_be_taken_back(store, job_id, log):
    gear, washer = log("gear 3"), log("thrust washer")
    services.labels.mark_printed(store, LabelOrder(job_id, (gear,)))
    with store.read() as connection:
        assert belongings.tagged(connection, job_id) == {gear}
    (blank,) = services.tags.make_blank(store, 1)[1]
    services.tags.bind_to_removal(store, blank, washer)
    with store.read() as connection:
        assert belongings.tagged(connection, job_id) == {gear, washer}
    services.history.undo(store, job_id)
    services.history.undo(store, job_id)
    with store.read() as connection:
        assert belongings.tagged(connection, job_id) == set()


def test_parts_of_another_job_are_neither_tied_nor_held_against(store, job_id, log):
    """Two jobs whose parts lie in no area at all."""
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    services.strip.log_removal(store, other, Entry("gear 3", which_way=(Place(2, 3),)))
    washer = log("thrust washer", which_way=GEAR)
    assert facts_of(store, washer) == GEAR
    assert services.strip.against(store, job_id, Entry("gear 3", which_way=(Place(2, 3),))) == ()
