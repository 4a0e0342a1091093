"""The audit of one part: its questions, its fate, its kind, and the parts it names."""

from dataclasses import replace

import pytest
from audit_cases import BAGS, KINDS, job, part

from bagtag.domain.audit import Lack, audit
from bagtag.domain.kinds import NO_KIND, Kinds, PartKind, Question
from bagtag.domain.model import Area, Fate, Origin
from bagtag.domain.which_way import (
    Faces,
    Hand,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)

OUT = Faces("OUT", Outness.OUTWARD)


def lacks(*parts, **fields):
    return [(one.lack, one.removal_id) for one in audit(job(parts, **fields))]


def same(uid, opposite=False):
    return SameWay(OtherPart("the other bearing", uid), opposite)


def test_what_a_shop_takes_off_is_asked_about_once_it_is_here():
    """Nobody at the bench has seen it, and no tag can be hung on it there."""
    kinds = Kinds([PartKind("needle jet", asks=(Question("faces", "Which end faces up?", "end"),))])
    jet, gizmo = (
        part(n, name, origin=Origin.SHOP) for n, name in ((1, "needle jet"), (2, "oddity"))
    )
    missing = {"kinds": kinds, "tagged": frozenset(), "photographed": frozenset()}
    assert lacks(jet, gizmo, away=frozenset({1, 2}), **missing) == []
    assert lacks(jet, gizmo, **missing) == [
        (Lack.WAY, 1),
        (Lack.KIND, 2),
        (Lack.TAG, 1),
        (Lack.TAG, 2),
        (Lack.PHOTO, 1),
        (Lack.PHOTO, 2),
    ]


def test_what_came_off_at_the_bench_and_is_away_is_still_asked_which_way():
    kinds = Kinds([PartKind("needle jet", asks=(Question("faces", "Which end faces up?", "end"),))])
    missing = {"kinds": kinds, "tagged": frozenset(), "photographed": frozenset()}
    jet = part(1, "needle jet", fate=Fate.DECIDE)
    found = lacks(jet, away=frozenset({1}), **missing)
    assert found == [(Lack.WAY, 1), (Lack.DECISION, 1)]


def test_all_open_questions_of_a_part_are_one_finding():
    kinds = Kinds(
        [
            PartKind(
                "piston",
                asks=(
                    Question("faces", "Which way does the arrow point?", "arrow"),
                    Question("seat", "How high does it stand?", must=False),
                    Question("place", "Which cylinder?", "cylinder"),
                ),
            )
        ]
    )
    (one,) = audit(job([part(1, "piston")], kinds=kinds))
    assert one.sentence == "Which way does the arrow point? Which cylinder?"
    assert one.questions == ("faces arrow", "place cylinder")
    (one,) = audit(job([part(1, "piston", Place(1, what="cylinder"))], kinds=kinds))
    assert one.questions == ("faces arrow",)


@pytest.mark.parametrize("fact", [OUT, Without("OUT"), Without()], ids=str)
def test_an_answer_or_that_there_is_none_settles_a_question(fact):
    assert lacks(part(1, "bearing", fact)) == []
    assert lacks(part(1, "bearing")) == [(Lack.WAY, 1)]


def test_a_question_that_was_skipped_is_still_missing():
    assert lacks(part(1, "bearing", unanswered=("faces OUT",))) == [(Lack.WAY, 1)]


def test_two_parts_that_each_sit_as_the_other_one_say_nothing():
    pair = [part(1, "bearing", same("u2")), part(2, "bearing", same("u1"))]
    first, second = audit(job(pair))
    assert (first.lack, second.lack) == (Lack.WAY, Lack.WAY)
    assert first.sentence == (
        "Which way does OUT face? The entry of the other bearing does not say it either."
    )
    told = replace(pair[1], which_way=(OUT,))
    assert lacks(pair[0], told) == []


def test_a_chain_of_the_same_way_ends_in_a_part_that_says_it():
    chain = [part(n, "bearing", same(f"u{n + 1}")) for n in range(1, 40)]
    assert lacks(*chain, part(40, "bearing", OUT)) == []
    assert lacks(*chain, part(40, "bearing")) == [(Lack.WAY, n) for n in range(1, 41)]


def test_a_part_that_sits_as_an_unknown_one_that_says_nothing_is_as_unknown():
    pair = [part(1, "widget", same("u2")), part(2, "widget", same("u1"))]
    assert lacks(*pair) == [(Lack.KIND, 1), (Lack.KIND, 2)]


@pytest.mark.parametrize("fields", [{"note": "kept, ran 10 hours"}, {"condition": "new"}])
def test_what_is_always_renewed_goes_back_when_its_entry_says_why(fields):
    """One-time-use parts: oil seals, gaskets and O-rings are renewed (a car maker's manual,
    Fundamental Procedures, Reassembly). What a person wrote about the part is the person's word."""
    lip = Faces("lip", Outness.INWARD)
    assert lacks(part(1, "oil seal", lip)) == [(Lack.RENEW, 1)]
    assert lacks(part(1, "oil seal", lip, **fields)) == []
    assert lacks(part(1, "oil seal", lip, fate=Fate.RENEW)) == []


def test_a_kind_that_is_not_meant_leaves_the_part_to_be_said():
    assert lacks(part(1, "gear", kind=NO_KIND)) == [(Lack.KIND, 1)]
    assert lacks(part(1, "gear", Seat(SeatKind.FLUSH), kind=NO_KIND)) == []
    assert lacks(part(1, "gizmo", kind="gear")) == []
    assert lacks(part(1, "gizmo", kind="a kind that is no more")) == [(Lack.KIND, 1)]


def test_what_is_scrapped_lacks_nothing():
    bare = part(1, "oil seal", Hand("L"), Hand("R"), fate=Fate.SCRAP)
    assert audit(replace(job([bare], containers=BAGS), tagged=frozenset())) == ()


def test_a_link_to_an_entry_that_is_gone_is_loose_again():
    gear = OtherPart("gear", "u9")
    assert lacks(part(1, "gear", Faces("dot", gear))) == [(Lack.LOOSE, 1)]
    assert lacks(part(1, "gear", Faces("dot", gear)), part(9, "gear")) == []


@pytest.mark.parametrize("name", ["the crankcase", "engine block", "the gearbox"])
def test_what_is_taken_down_to_needs_no_entry(name):
    """Common practice, no source: the bare casting that all came off is never logged itself."""
    assert lacks(part(1, "gear", Faces("dot", OtherPart(name)))) == []


def test_an_area_needs_no_entry_nor_what_a_note_says_stays():
    fact = Faces("dot", OtherPart("the drum"))
    assert lacks(part(1, "gear", fact, area_id=None)) == [(Lack.LOOSE, 1)]
    drum = Area(5, 1, "selector drum", is_open=True)
    assert lacks(part(1, "gear", fact, area_id=None), areas=(drum,)) == []
    assert lacks(part(1, "gear", fact, area_id=None, note="The drum stays in.")) == []


def test_several_loose_parts_are_named_in_one_sentence():
    facts = [Faces(f"dot {n}", OtherPart(f"gear {n}")) for n in range(1, 9)]
    (one,) = audit(job([part(1, "gear", *facts)]))
    assert one.sentence.startswith(
        "Say which entry is meant by gear 1, gear 2, gear 3, gear 4, gear 5 and 3 more:"
    )


def test_kinds_of_the_cases_are_found():
    """Else the tests above would pass for want of a kind."""
    assert all(KINDS.of(name) for name in ("oil seal", "shift fork R", "bearing", "gear", "bolt"))
