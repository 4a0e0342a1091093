"""The strip audit: each lack is found where it is, goes when it is mended, and takes nothing else
with it."""

from dataclasses import replace

import pytest
from audit_cases import ALL, AREAS, BAGS, KINDS, WHOLE, changed, found, part, without
from fact_cases import DATUMS, FACT, WORDS
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.audit import Lack, Stripped, audit
from bagtag.domain.datum import Side
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.model import Fate
from bagtag.domain.tightening import Pass
from bagtag.domain.which_way import Faces, OtherPart, SameWay

FLIPPED = (Faces("hole", Side.TOP), Faces("hole", Side.BOTTOM))
UNMEASURED = (HeldBy(6, "bolt", "M6", 30, "mm", "8 mm hex"),)
STRONG = HeldBy(2, "bolt", "M6", 20, grade="8.8", torque=Torque(40))
ROW = HoleMap(tuple(Hole(number, 20.0 * number, 20.0) for number in (1, 2, 3)))
SHARES = (Pass(share=0.5), Pass(share=1.0))
SHUT = (AREAS[0], replace(AREAS[1], opener_id=None), AREAS[2])

BREAK = {
    Lack.CONTRADICTION: lambda job: changed(10, job, which_way=FLIPPED),
    Lack.WAY: lambda job: changed(6, job, which_way=()),
    Lack.SET: lambda job: without(4, job),
    Lack.MIXED: lambda job: changed(9, job, container_id=3),
    Lack.DECISION: lambda job: changed(10, job, fate=Fate.DECIDE),
    Lack.RENEW: lambda job: changed(2, job, fate=Fate.REFIT),
    Lack.FIGURE: lambda job: changed(7, job, held_by=(STRONG,)),
    Lack.COUNT: lambda job: changed(8, job, held_by=(HeldBy(None, "circlip"), HeldBy(2, "shim"))),
    Lack.HOLES: lambda job: replace(job, maps={9: ROW}),
    Lack.TORQUE: lambda job: changed(1, job, held_by=UNMEASURED),
    Lack.PASSES: lambda job: changed(9, job, passes=SHARES),
    Lack.OPENER: lambda job: replace(job, areas=SHUT),
    Lack.LOOSE: lambda job: changed(7, job, which_way=(Faces("OUT", OtherPart("gear")),)),
    Lack.KIND: lambda job: changed(11, job, which_way=()),
    Lack.TAG: lambda job: replace(job, tagged=ALL - {5}),
    Lack.PHOTO: lambda job: replace(job, photographed=ALL - {6}),
}
"""One thing taken away for each lack, from a job of which nothing was missing."""

SAID = {
    Lack.CONTRADICTION: (
        10,
        "The hole cannot face the top and the bottom at once: keep the one that is true.",
    ),
    Lack.WAY: (6, "Which way does OUT face?"),
    Lack.SET: (
        3,
        "2nd of 3, counted from the flywheel side, is not logged: log it, or write in the note "
        "that it stays in.",
    ),
    Lack.MIXED: (0, "Take out of bag 3 and keep apart: 9 widget (renew)."),
    Lack.DECISION: (10, "Inspect or measure it, then say refit, renew or scrap."),
    Lack.RENEW: (
        2,
        "Oil seal: always renewed. The lip has hardened. Say renew, or write in its note why it "
        "goes back in.",
    ),
    Lack.FIGURE: (
        7,
        "2 bolts M6x20: 40 N·m would load M6 (class 8.8, dry or oiled threads) to about 3 times "
        "its proof load. 40 lbf·in would be about 32 %: was lbf·in meant, not N·m? Keep it if the "
        'manual says so. To be asked no more, write "as in the manual" in the note.',
    ),
    Lack.COUNT: (8, "Count the circlips."),
    Lack.HOLES: (
        9,
        "3 holes, and no hardware is logged. Put it right in the hole map or the hardware.",
    ),
    Lack.TORQUE: (
        1,
        "Look up the torque of 6 bolts M6x30 in the maker's manual, or write "
        '"hand tight" or "no torque given".',
    ),
    Lack.PASSES: (
        9,
        "Passes 1 and 2 are a share of a torque, and none is logged: give the fasteners theirs, or "
        "the passes figures.",
    ),
    Lack.OPENER: (0, "Say which part opens gearbox, or that nothing covers it."),
    Lack.LOOSE: (
        7,
        "Say which entry is meant by the gear: choose it, log it if it is not logged, or write in "
        "the note that it stays in.",
    ),
    Lack.KIND: (
        11,
        "Bagtag does not know this kind of part: say which way it sat, or that it goes either way.",
    ),
    Lack.TAG: (5, "Print its label and put it on, or hang a blank tag on it."),
    Lack.PHOTO: (6, "Add a photo of how it came off, or of how it lies now."),
}


def broken(lacks):
    job = WHOLE
    for lack in lacks:
        job = BREAK[lack](job)
    return job


def test_nothing_is_missing_of_a_whole_job_nor_of_an_empty_one():
    assert audit(WHOLE) == ()
    assert audit(Stripped()) == ()


@pytest.mark.parametrize("lack", Lack)
def test_what_is_missing_is_found_where_it_is_and_nothing_else_is(lack):
    assert found(broken([lack])) == [(lack, *SAID[lack])]


@given(st.sets(st.sampled_from(Lack)))
def test_whatever_is_missing_is_found_the_worst_first(lacks):
    """So that to mend one takes away its finding, and no other."""
    assert found(broken(lacks)) == [(lack, *SAID[lack]) for lack in Lack if lack in lacks]


@given(st.sets(st.sampled_from(Lack)), st.randoms())
def test_the_order_of_the_removals_does_not_matter(lacks, chance):
    job = broken(lacks)
    shuffled = tuple(chance.sample(job.removals, len(job.removals)))
    areas = tuple(chance.sample(job.areas, len(job.areas)))
    bags = tuple(chance.sample(job.containers, len(job.containers)))
    assert audit(replace(job, removals=shuffled, areas=areas, containers=bags)) == audit(job)


def test_within_a_lack_findings_stand_in_the_order_off():
    bare = replace(WHOLE, photographed=frozenset(), tagged=frozenset())
    assert [(lack, number) for lack, number, _ in found(bare)] == [
        (lack, number) for lack in (Lack.TAG, Lack.PHOTO) for number in sorted(ALL)
    ]


def test_the_worst_come_first_in_this_order():
    """What builds the machine wrong before what is slower to find again."""
    assert [lack.value for lack in Lack] == [
        "contradiction", "way", "set", "mixed", "decision", "renew", "figure", "count", "holes",
        "torque", "passes", "opener", "loose", "kind", "tag", "photo",
    ]  # fmt: skip
    assert len({lack.heading for lack in Lack}) == len(Lack)


LINKS = st.builds(OtherPart, WORDS, st.sampled_from(["", "u1", "u2", "u3", "gone"]))
ANY_FACT = FACT | st.builds(SameWay, LINKS, st.booleans()) | st.builds(Faces, WORDS, LINKS)
NAMES = st.sampled_from(["shift fork L", "piston 2", "oil seal", "bolt", "/", "L", ""]) | WORDS
HELD = st.builds(HeldBy, st.none() | st.integers(1, 9), NAMES, st.sampled_from(["", "M6"]))
FIELDS = {
    "fate": st.sampled_from(Fate),
    "area_id": st.sampled_from([None, 1, 2, 3]),
    "container_id": st.sampled_from([None, 1, 2, 99]),
    "side": st.none() | st.sampled_from(Side),
    "quantity": st.integers(1, 4),
    "held_by": st.lists(HELD, max_size=2).map(tuple),
}
ANY_PART = st.tuples(NAMES, st.lists(ANY_FACT, max_size=4), st.fixed_dictionaries(FIELDS))


@given(st.lists(ANY_PART, max_size=6), DATUMS, st.randoms())
def test_whatever_is_logged_can_be_audited_in_any_order(entries, datum, chance):
    parts = [part(n, name, *facts, **more) for n, (name, facts, more) in enumerate(entries, 1)]
    job = Stripped(parts, AREAS, BAGS, datum, KINDS)
    findings = audit(job)
    shuffled = chance.sample(parts, len(parts))
    assert audit(replace(job, removals=shuffled)) == findings
    places = [list(Lack).index(one.lack) for one in findings]
    assert places == sorted(places)
    live = {p.id for p in parts if p.fate is not Fate.SCRAP}
    for one in findings:
        assert one.sentence.strip() == one.sentence != ""
        assert (
            one.removal_id in live
            or one.area_id
            or one.container_id
            or one.lack is Lack.CONTRADICTION
        )
        assert (one.removal_id > 0) + (one.area_id > 0) + (one.container_id > 0) == 1
