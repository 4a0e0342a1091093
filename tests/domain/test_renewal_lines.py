"""What is renewed: which lines a job has, why, and how each is told."""

from dataclasses import replace
from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.model import Away, Container, ContainerKind, Fate, Origin, Replacement
from bagtag.domain.renewals import Why, line_of
from tests.domain.renew_kit import TODAY, bolts, lines, part, removal


def told(found) -> list[tuple]:
    return [(line.new_part.what, line.why, line.is_suggestion) for line in found]


def test_a_part_to_be_renewed_is_a_line_before_anything_is_written() -> None:
    seal = removal("oil seal", Fate.RENEW, size="25x42x7", quantity=2, condition="hard")
    (line,) = lines(seal, codes={seal.id: "BKXJR7"})
    assert (line.new_part.id, line.new_part.count, line.new_part.size) == (0, 2, "25x42x7")
    assert (line.why, line.because, line.code) == (Why.FATE, "hard", "BKXJR7")
    assert (line.step, line.before, line.said) == (1, f"{seal.number} oil seal", "wanted")


def test_a_written_line_stands_for_its_part() -> None:
    seal = removal("oil seal", Fate.RENEW)
    mine = part("seal kit", removal_id=seal.id, count=3)
    (line,) = lines(seal, written=[mine])
    assert line.new_part == mine


def test_hardware_that_is_new_each_time_is_a_line_for_each_size() -> None:
    other = replace(bolts(count=2), length=40)
    cover = removal(
        "cover", held_by=(bolts(), bolts(count=3), other, replace(other, one_time=False))
    )
    found = lines(cover)
    assert [(one.new_part.line, one.new_part.count) for one in found] == [
        ("bolt M8x30 10.9", 7),
        ("bolt M8x40 10.9", 2),
    ]
    assert {one.why for one in found} == {Why.ONE_TIME}


def test_hardware_nobody_counted_says_so() -> None:
    (line,) = lines(removal(held_by=(bolts(count=None),)))
    assert (line.new_part.count, line.because) == (1, "how many is not counted yet")


def test_washers_go_with_their_fastener() -> None:
    (line,) = lines(removal(held_by=(bolts(washer="copper", washers=2),)))
    assert line.new_part.note == "each with 2 copper washers"


def test_hardware_of_what_is_in_or_scrapped_is_no_line() -> None:
    fitted, scrap = removal(held_by=(bolts(),)), removal(fate=Fate.SCRAP, held_by=(bolts(),))
    assert lines(fitted, scrap, fitted=frozenset({fitted.id})) == ()


def test_a_kind_that_is_always_renewed_is_suggested() -> None:
    gasket = removal("head gasket")
    (line,) = lines(gasket)
    assert told([line]) == [("head gasket", Why.KIND, True)]
    assert (line.because, line.said) == ("It is crushed once.", "not on the list yet")
    assert not line.is_open
    (line,) = lines(replace(gasket, fate=Fate.RENEW))
    assert told([line]) == [("head gasket", Why.KIND, False)]


@pytest.mark.parametrize("fate", [Fate.SCRAP, Fate.DECIDE])
def test_a_kind_says_nothing_of_what_a_person_has_decided_or_will(fate) -> None:
    assert lines(removal("gasket", fate)) == ()


@pytest.mark.parametrize("fate", [Fate.REFIT, Fate.DECIDE])
def test_what_measures_out_of_its_limits_is_suggested(fate) -> None:
    barrel = removal(fate=fate)
    (line,) = lines(barrel, out={barrel.id: "worn: bore 76.31 mm, at most 76.20"})
    assert told([line]) == [("cylinder", Why.MEASURED, True)]
    assert "76.31" in line.because


def test_what_a_sheet_decided_to_renew_says_what_was_measured() -> None:
    barrel = removal(fate=Fate.RENEW)
    (line,) = lines(barrel, decided={barrel.id: "bore 76.31 mm, at most 76.20"})
    assert (line.why, line.because) == (Why.MEASURED, "bore 76.31 mm, at most 76.20")


def test_nothing_is_suggested_of_a_part_that_is_in() -> None:
    gasket = removal("gasket")
    found = lines(gasket, fitted=frozenset({gasket.id}), out={gasket.id: "too thin"})
    assert found == ()


def test_what_was_bought_for_a_part_that_is_not_renewed_any_more_stays_in_sight() -> None:
    kept = removal()
    found = lines(
        kept,
        written=[
            part("cylinder", removal_id=kept.id, ordered_on=date(2026, 11, 3)),
            part("bolt", removal_id=kept.id, line="bolt M8x30 10.9"),
        ],
    )
    assert [line.is_needed for line in found] == [False, False]
    assert found[0].said == "ordered 3 Nov; not needed any more"
    assert not any(line.is_open or line.old_part for line in found)


def test_what_goes_in_first_is_listed_first_and_suggestions_last() -> None:
    first, second = removal("a", Fate.RENEW), removal("b", Fate.RENEW)
    gasket, free = removal("gasket"), part("rags")
    found = lines(first, gasket, second, written=[free])
    assert [line.new_part.what for line in found] == ["b", "a", "rags", "gasket"]
    assert (found[2].why, found[2].step, found[2].before) == (Why.ADDED, None, "")


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({}, "wanted"),
        ({"ordered_on": date(2026, 11, 3)}, "ordered 3 Nov"),
        (
            {"ordered_on": date(2026, 11, 3), "due": date(2026, 11, 17)},
            "ordered 3 Nov, due 17 Nov, 8 days late",
        ),
        (
            {"ordered_on": date(2026, 11, 3), "due": date(2026, 11, 25), "arrived": 1, "count": 3},
            "ordered 3 Nov, due 25 Nov, 1 of 3 here",
        ),
        ({"arrived": 1, "arrived_on": date(2026, 11, 20)}, "here since 20 Nov"),
        (
            {
                "arrived": 1,
                "compared_at": datetime(2026, 11, 21, 8, 0),
                "compared_by": "Ada",
            },
            "here, compared 21 Nov by Ada",
        ),
        (
            {"returned_on": date(2026, 11, 12), "returned_why": "too short"},
            "wanted again, a wrong one went back 12 Nov (too short)",
        ),
    ],
)
def test_where_a_new_part_stands_is_said(fields, said) -> None:
    (line,) = lines(written=[part(**fields)])
    assert line.said == said


def test_the_old_part_is_kept_until_both_have_been_compared() -> None:
    """Workshop manuals, dismantling: keep the old part until compared with the new."""
    bag = Container(12, 1, ContainerKind.BAG, "12", parent_id=1)
    shelf = Container(1, 1, ContainerKind.SHELF, "B")
    ring = removal("ring", Fate.RENEW, container_id=12)
    holders = {12: bag, 1: shelf}
    (line,) = lines(ring, containers=holders)
    assert line.old_part == "compare it with the old one in bag 12, shelf B"
    out = Away(1, ring.id, "Mill Lane Engineering", "", datetime(2026, 11, 3))
    (line,) = lines(ring, containers=holders, away={ring.id: out})
    assert line.old_part == "compare it with the old one at Mill Lane Engineering"
    done = part("ring", removal_id=ring.id, arrived=1, compared_at=datetime(2026, 11, 21))
    (line,) = lines(ring, containers=holders, written=[done])
    assert line.old_part == ""
    (line,) = lines(replace(ring, quantity=3, container_id=None))
    assert line.old_part == "compare them with the old ones on the bench"


def test_a_part_that_was_never_on_the_machine_has_no_old_one() -> None:
    (line,) = lines(removal("sleeve", Fate.RENEW, origin=Origin.NEW))
    assert line.old_part == ""


@pytest.mark.parametrize("state", Replacement)
def test_a_state_from_before_there_were_lines_holds(state) -> None:
    (line,) = lines(removal("ring", Fate.RENEW, quantity=3, replacement=state))
    assert line.state is state
    assert line.said == state.value


def test_a_fitted_part_is_told_as_in() -> None:
    ring = removal("ring", Fate.RENEW, replacement=Replacement.HERE)
    (line,) = lines(ring, fitted=frozenset({ring.id}))
    assert (line.said, line.is_in, line.old_part, line.is_open) == ("in", True, "", False)


PARTS = st.lists(
    st.builds(
        removal,
        st.sampled_from(["gasket", "cylinder", "ring"]),
        st.sampled_from(Fate),
        held_by=st.lists(st.builds(bolts, count=st.integers(1, 9)), max_size=2).map(tuple),
        replacement=st.sampled_from(Replacement),
    ),
    max_size=12,
)


@given(PARTS, st.data())
def test_every_part_to_be_renewed_has_one_line_and_no_suggestion(log, data) -> None:
    fitted = frozenset(one.id for one in log if data.draw(st.booleans()))
    out = {one.id: "out" for one in log if data.draw(st.booleans())}
    found = lines(*log, fitted=fitted, out=out)
    own = [line.removal.id for line in found if not line.new_part.line and line.removal]
    assert len(own) == len(set(own))
    renewed = {one.id for one in log if one.fate is Fate.RENEW}
    suggested = {line.removal.id for line in found if line.is_suggestion}
    assert set(own) - suggested == renewed
    assert not renewed & suggested
    bolts_wanted = sum(
        held.count
        for one in log
        if one.fate is not Fate.SCRAP and one.id not in fitted
        for held in one.held_by
    )
    assert bolts_wanted == sum(line.new_part.count for line in found if line.new_part.line)


def test_a_line_of_hardware_is_told_by_kind_size_and_grade() -> None:
    assert line_of(bolts()) == "bolt M8x30 10.9"
    assert line_of(replace(bolts(), kind="", thread="", length=None, grade="")) == "fastener"


def test_late_is_late_from_the_day_after() -> None:
    (line,) = lines(written=[part(ordered_on=TODAY, due=TODAY)])
    assert "late" not in line.said
