"""What holds a job up: the earliest day of each step, and what to chase first. That one chases what
frees the most, and leaves alone what comes on its day, is common practice, no source."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.fitting import part
from bagtag.domain.now import Frees
from bagtag.domain.readiness import Chase, chase_of, earliest, holding
from bagtag.domain.standing import Hindrance, Keeps

TODAY = date(2026, 3, 10)
days_of_march = st.dates(date(2026, 3, 1), date(2026, 3, 31))


def away(due: date | None, shop: str = "Mill Lane") -> Hindrance:
    return Hindrance("it is away", keeps=Keeps.AWAY, due=due, whom=shop)


def bought(due: date | None, *, ordered: bool) -> Hindrance:
    return Hindrance("new part", None, Keeps.NEW_PART, due, "", ordered)


undecided = Hindrance("to be decided", keeps=Keeps.DECISION)
unmeasured = Hindrance("to be measured", keeps=Keeps.MEASURING)
hindrances = st.one_of(
    st.builds(away, st.none() | days_of_march),
    st.builds(bought, st.none() | days_of_march, ordered=st.just(True)),
    st.builds(bought, st.none(), ordered=st.just(False)),
    st.sampled_from([undecided, unmeasured]),
)


def test_a_part_can_go_in_when_the_last_of_what_keeps_it_is_there():
    later = TODAY + timedelta(days=4)
    assert earliest([away(TODAY), bought(later, ordered=True)], TODAY) == later
    assert earliest([undecided, away(later)], TODAY) == later
    assert earliest([undecided, unmeasured], TODAY) == TODAY
    assert earliest([], TODAY) == TODAY


def test_nobody_knows_the_day_of_what_is_late_or_has_none():
    assert earliest([away(TODAY - timedelta(days=1))], TODAY) is None
    assert earliest([away(None)], TODAY) is None
    assert earliest([bought(None, ordered=False)], TODAY) is None
    assert earliest([away(TODAY), bought(None, ordered=True)], TODAY) is None


def test_what_to_do_about_each():
    assert chase_of(away(TODAY - timedelta(days=2)), TODAY) is Chase.LATE
    assert chase_of(away(TODAY), TODAY) is Chase.ON_ITS_WAY
    assert chase_of(away(None), TODAY) is Chase.NO_DAY
    assert chase_of(bought(None, ordered=False), TODAY) is Chase.TO_ORDER
    assert chase_of(bought(None, ordered=True), TODAY) is Chase.NO_DAY
    assert chase_of(unmeasured, TODAY) is Chase.TO_MEASURE
    assert chase_of(undecided, TODAY) is Chase.TO_DECIDE


def test_what_frees_the_most_is_chased_first_and_what_comes_on_its_day_last():
    own = {
        part(1): [away(TODAY + timedelta(days=3))],
        part(2): [undecided],
        part(3): [bought(None, ordered=False)],
    }
    roots = {part(n): (part(root),) for n, root in enumerate([1, 2, 3, 1, 1, 1, 3], 1)}
    frees = [Frees(part(1), 4, 4), Frees(part(3), 2, 2), Frees(part(2), 1, 1)]
    found = holding(own, roots, frees, TODAY)
    assert [held.ref.id for held in found.held] == [3, 2, 1]
    assert [(rung.day, len(rung.steps)) for rung in found.rungs] == [
        (TODAY, 1),
        (TODAY + timedelta(days=3), 4),
        (None, 2),
    ]


def test_a_part_at_a_shop_is_decided_when_it_is_back():
    own = {part(1): [away(TODAY + timedelta(days=3)), undecided]}
    (held,) = holding(own, {part(1): (part(1),)}, [Frees(part(1), 1, 1)], TODAY).held
    assert held.chase is Chase.ON_ITS_WAY
    assert held.day == TODAY + timedelta(days=3)


@st.composite
def jobs(draw):
    """Stuck steps with what keeps them, and steps that wait for some of them."""
    stuck = [part(n) for n in range(1, draw(st.integers(0, 5)) + 1)]
    own = {ref: draw(st.lists(hindrances, min_size=1, max_size=3)) for ref in stuck}
    some = st.lists(st.sampled_from(stuck), unique=True) if stuck else st.just([])
    roots = {ref: (ref,) for ref in stuck}
    roots |= {part(n): tuple(draw(some)) for n in range(10, 10 + draw(st.integers(0, 6)))}
    counts = [sum(ref in found for found in roots.values()) for ref in stuck]
    return own, roots, [Frees(ref, 0, count) for ref, count in zip(stuck, counts, strict=True)]


@given(jobs())
def test_no_step_goes_in_before_what_it_waits_for(job):
    own, roots, frees = job
    found = holding(own, roots, frees, TODAY)
    for ref, waits_for in roots.items():
        day = found.days[ref]
        known = [earliest(own[root], TODAY) for root in waits_for]
        assert day is None if None in known else day == max([TODAY, *known])  # type: ignore[type-var]  # none is None
    assert {held.ref for held in found.held} == set(own)
    assert sorted(ref for rung in found.rungs for ref in rung.steps) == sorted(roots)


@given(jobs(), days_of_march)
def test_the_most_pressing_of_what_keeps_a_part_is_what_is_said(job, today):
    own, roots, frees = job
    rank = list(Chase)
    at_the_bench = (Keeps.MEASURING, Keeps.DECISION)
    for held in holding(own, roots, frees, today).held:
        is_away = any(one.keeps is Keeps.AWAY for one in own[held.ref])
        here = [one for one in own[held.ref] if not (is_away and one.keeps in at_the_bench)]
        chases = [rank.index(chase_of(one, today)) for one in here]
        assert rank.index(held.chase) == min(chases)
        assert chase_of(held.pressing, today) is held.chase
