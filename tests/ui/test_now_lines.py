"""What can go in now, as lines: nothing lost, nothing twice, pieces below their bench build."""

from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.fitting import Task, TaskKind, part, task
from bagtag.domain.model import SignOff
from bagtag.domain.standing import Hindrance, Standing
from bagtag.services.board import Board, Freed, Step
from bagtag.ui.order.left_lines import Fold, FreedLine, Said, StepLine, spoken
from bagtag.ui.order.now_lines import FREES, NowLines
from bagtag.ui.order.order_lines import done_of, order_lines

WAITS_ON = part(999)
SIGNED = SignOff(0, None, "Ada", datetime(2026, 11, 25, tzinfo=UTC))


def step(place: int, standing: Standing, *, area: int | None = 1, build: int | None = None) -> Step:
    """A part as a step; what waits, waits for a part that is away."""
    roots = (WAITS_ON,) if standing in {Standing.WAITS, Standing.AWAY} else ()
    held = (Hindrance("it is away"),) if roots else ()
    signed = SIGNED if standing is Standing.IN else None
    name = f"area {area}" if area else ""
    return Step(
        place, part(place), str(place), f"part {place}", standing, held, signed,
        area_id=area, area=name, build_id=build, roots=roots,
    )  # fmt: skip


def build(place: int, id_: int, standing: Standing, *, inside: int | None = None) -> Step:
    made = Task(id_, f"uid {id_}", 1, TaskKind.BENCH_BUILD, f"build {id_}", build_id=inside)
    signed = SIGNED if standing is Standing.IN else None
    return Step(
        place, task(id_), "", made.name, standing, (), signed, made, area_id=1, area="area 1",
        build_id=inside,
    )  # fmt: skip


STANDINGS = st.sampled_from([Standing.NEXT, Standing.WAITS, Standing.AWAY, Standing.IN])
STEPS = st.lists(st.tuples(STANDINGS, st.sampled_from([None, 1, 2, 3]), st.booleans()), max_size=25)


@given(STEPS, STANDINGS)
def test_every_step_that_is_not_in_stands_in_one_line(drawn, of_build):
    steps = [
        step(place, word, area=area, build=7 if piece else None)
        for place, (word, area, piece) in enumerate(drawn, 1)
    ]
    steps.append(build(len(steps) + 1, 7, of_build))
    lines = NowLines(Board(1, tuple(steps)), opened={None, 1, 2, 3}).all()
    shown = [line.step.ref for line in lines if isinstance(line, StepLine)]
    assert len(shown) == len(set(shown))
    is_open = {one.ref for one in steps if one.standing is not Standing.IN}
    pieces = {one.ref for one in steps if one.build_id == 7}
    expected = is_open | ({task(7)} if pieces & is_open else set())
    assert set(shown) == expected
    if task(7) in shown:
        after = [line.depth for line in lines[_at(lines, task(7)) + 1 :][: len(pieces & is_open)]]
        assert after == [1] * len(pieces & is_open)


def _at(lines, ref) -> int:
    return next(
        n for n, line in enumerate(lines) if isinstance(line, StepLine) and line.step.ref == ref
    )


@given(STEPS)
def test_what_can_go_in_is_never_folded_away(drawn):
    steps = tuple(step(place, word, area=area) for place, (word, area, _) in enumerate(drawn, 1))
    lines = NowLines(Board(1, steps)).all()
    shown = {line.step.ref for line in lines if isinstance(line, StepLine)}
    assert shown == {one.ref for one in steps if one.standing is Standing.NEXT}
    folded = sum(int(line.text.split()[0]) for line in lines if isinstance(line, Fold))
    assert folded == sum(one.standing in {Standing.WAITS, Standing.AWAY} for one in steps)


def test_an_area_with_something_ready_stands_before_one_where_all_waits():
    steps = (step(1, Standing.AWAY, area=1), step(2, Standing.NEXT, area=2))
    said = [spoken(line) for line in NowLines(Board(1, steps)).all()]
    assert said.index("area 2, 1 now") < said.index("area 1")


def test_a_build_in_a_build_stands_two_deep_and_counts_its_own_pieces():
    steps = (
        step(1, Standing.IN, build=8),
        step(2, Standing.NEXT, build=8),
        build(3, 8, Standing.WAITS, inside=7),
        build(4, 7, Standing.WAITS),
    )
    board = Board(1, steps)
    lines = [line for line in NowLines(board).all() if isinstance(line, StepLine)]
    assert [(line.step.name, line.depth) for line in lines] == [
        ("build 7", 0), ("build 8", 1), ("part 2", 2),
    ]  # fmt: skip
    assert [line.word for line in lines[:2]] == ["0 of 1 pieces in", "1 of 2 pieces in"]
    assert [line.depth for line in order_lines(board)] == [2, 2, 1, 0]


def test_it_names_at_most_three_that_hold_up_the_rest_and_none_that_holds_up_itself_alone():
    frees = tuple(Freed(part(n), f"{n} part", "it is away", count) for n, count in
                  ((1, 9), (2, 5), (3, 3), (4, 2), (5, 1)))  # fmt: skip
    steps = tuple(step(n, Standing.AWAY) for n in range(1, 6))
    lines = NowLines(Board(1, steps, frees)).all()
    assert spoken(lines[0]) == FREES
    freed = [line.freed.ref.id for line in lines if isinstance(line, FreedLine)]
    assert freed == [1, 2, 3]
    alone = Board(1, steps, frees[-1:])
    assert FREES not in [spoken(line) for line in NowLines(alone).all()]


def test_without_areas_there_is_no_heading():
    lines = NowLines(Board(1, (step(1, Standing.NEXT, area=None),))).all()
    assert [type(line) for line in lines] == [StepLine]


def test_a_fold_knows_the_steps_of_a_build_behind_it():
    steps = (step(1, Standing.WAITS, build=7), build(2, 7, Standing.WAITS))
    steps = (steps[0], Step(**{**_fields(steps[1]), "roots": (WAITS_ON,)}))
    found = NowLines(Board(1, steps))
    assert found.area_of(part(1)) == (True, 1)
    assert found.area_of(part(5)) == (False, None)
    assert any(isinstance(line, Said) for line in found.all())


def _fields(one: Step) -> dict:
    return {name: getattr(one, name) for name in Step.__dataclass_fields__}


def test_the_beginning_that_is_signed_ends_at_the_first_that_is_not():
    steps = (step(1, Standing.IN), step(2, Standing.NEXT), step(3, Standing.IN))
    assert done_of(steps) == 1
    assert done_of(()) == 0
