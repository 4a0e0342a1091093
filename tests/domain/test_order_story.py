"""A random user: logs, inserts, moves, rules, opens, signs and takes back in any order."""

from dataclasses import replace

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from bagtag.domain.fitting import Anchor, Beside, part, task
from bagtag.domain.model import Area
from bagtag.domain.order_plan import InForce, in_force
from bagtag.domain.order_planner import Planner
from bagtag.domain.order_problem import Added, Because, Item, Plan, Problem, Tie, Together
from bagtag.domain.order_why import needs, why
from tests.domain.order_reference import told

AREAS = (
    Area(1, 1, "engine"),
    Area(2, 1, "gearbox", 1),
    Area(3, 1, "clutch", 2),
    Area(4, 1, "fuel pump"),
)
IN_AREA = st.sampled_from([None, 1, 2, 3, 4])


class User(RuleBasedStateMachine):
    """One job, replanned after every act by one planner that is never told what was done."""

    @initialize(areas=st.lists(IN_AREA, min_size=3, max_size=6))
    def strip(self, areas):
        self.planner = Planner()
        self.last_id = len(areas)
        log = tuple(Item(part(number), area) for number, area in enumerate(areas, 1))
        self.problem = Problem(log, AREAS)
        self.found = in_force(self.problem, self.planner)
        self.past: list[tuple[Problem, InForce]] = []

    def act(self, **change):
        self.past.append((self.problem, self.found))
        self.problem = replace(self.problem, **change)
        self.found = in_force(self.problem, self.planner)

    def new_id(self) -> int:
        self.last_id += 1
        return self.last_id

    def some(self, data, *, least=1):
        """Steps of the build, drawn without repeating one."""
        order = self.found.plan.order
        return tuple(data.draw(st.permutations(order)))[: data.draw(st.integers(least, 3))]

    @rule(area=IN_AREA, data=st.data())
    def log_one(self, area, data):
        place = data.draw(st.integers(0, len(self.problem.log)))
        item = Item(part(self.new_id()), area)
        log = self.problem.log
        self.act(log=(*log[:place], item, *log[place:]))

    @rule(area=IN_AREA, data=st.data(), beside=st.sampled_from(Beside))
    def add_task(self, area, data, beside):
        pieces = self.some(data)
        anchor = Anchor(beside, data.draw(st.sampled_from([None, *pieces])))
        all_ = data.draw(st.sampled_from([(), pieces]))
        row = Added(Item(task(self.new_id()), area), anchor, all_)
        self.act(added=(*self.problem.added, row))

    @rule(data=st.data())
    def move_a_line(self, data):
        log = list(self.problem.log)
        item = log.pop(data.draw(st.integers(0, len(log) - 1)))
        log.insert(data.draw(st.integers(0, len(log))), item)
        self.act(log=tuple(log))

    @rule(data=st.data(), because=st.sampled_from([Because.FIRST, Because.UNTIL]))
    def make_a_rule(self, data, because):
        before, after = (*self.some(data, least=2), *self.some(data, least=2))[:2]
        tie = Tie(before, after, because is Because.UNTIL, because, self.new_id())
        self.act(ties=(*self.problem.ties, tie))

    @rule(data=st.data())
    def put_together(self, data):
        row = Together(self.some(data, least=2), self.new_id())
        self.act(together=(*self.problem.together, row))

    @precondition(lambda self: self.problem.ties)
    @rule(data=st.data())
    def drop_a_rule(self, data):
        gone = data.draw(st.sampled_from(self.problem.ties))
        self.act(ties=tuple(tie for tie in self.problem.ties if tie != gone))

    @rule(data=st.data(), area=st.integers(0, 3))
    def say_what_opens_an_area(self, data, area):
        opener = data.draw(st.sampled_from([None, *(item.ref.id for item in self.problem.log)]))
        areas = list(self.problem.areas)
        areas[area] = replace(areas[area], opener_id=opener)
        self.act(areas=tuple(areas))

    @precondition(lambda self: self.left())
    @rule(data=st.data(), in_turn=st.booleans())
    def sign(self, data, in_turn):
        """In turn it moves nothing; but where ties stood aside it may open their circle."""
        ref = self.left()[0] if in_turn else data.draw(st.sampled_from(self.left()))
        before = self.found
        self.act(signed=(*self.problem.signed, ref))
        if in_turn and before.circle is None:
            assert self.found.plan == replace(before.plan, sets=self.found.plan.sets)

    def left(self):
        return [ref for ref in self.found.plan.order if ref not in self.problem.signed]

    @precondition(lambda self: self.problem.signed)
    @rule(data=st.data())
    def take_a_sign_off_back(self, data):
        gone = data.draw(st.sampled_from(self.problem.signed))
        self.act(signed=tuple(ref for ref in self.problem.signed if ref != gone))

    @precondition(lambda self: self.past)
    @rule()
    def undo(self):
        self.problem, as_it_was = self.past.pop()
        self.found = in_force(self.problem, self.planner)
        assert self.found == as_it_was

    @invariant()
    def no_step_is_lost_or_doubled(self):
        here = [item.ref for item in self.problem.log]
        here += [row.item.ref for row in self.problem.added]
        assert sorted(self.found.plan.order) == sorted(here)
        assert sorted(self.found.plan.log_order) == sorted(here)

    @invariant()
    def nothing_goes_in_before_what_it_must_wait_for(self):
        """Among what is not signed; by the slow one's flat ties, together sets and all."""
        order, signed = self.found.plan.order, set(self.problem.signed)
        seat = {ref: number for number, ref in enumerate(order)}
        truth = told(self.found.problem)
        for tie in truth.ties:
            before, after = truth.group_of[tie.before], truth.group_of[tie.after]
            early, late = ({tie.before}, {tie.after}) if before == after else (before, after)
            assert all(seat[u] < seat[v] for u in early - signed for v in late - signed)

    @invariant()
    def what_is_signed_stands_as_it_was_signed(self):
        count = len(self.problem.signed)
        assert self.found.plan.order[:count] == self.problem.signed

    @invariant()
    def the_plan_is_explained(self):
        plan: Plan = self.found.plan
        rank = {ref: number for number, ref in enumerate(plan.log_order)}
        left = self.left()
        for number, earlier in enumerate(left):
            for later in left[number + 1 :]:
                if rank[earlier] > rank[later]:
                    assert why(plan, earlier).pulled or why(plan, later).held

    @invariant()
    def what_a_step_needs_stands_before_it(self):
        seat = {ref: number for number, ref in enumerate(self.found.plan.order)}
        signed = set(self.problem.signed)
        for ref, ties in needs(self.found.problem).items():
            loose = [tie.before for tie in ties if not {tie.before, ref} & signed]
            assert all(seat[before] < seat[ref] for before in loose)


TestUser = User.TestCase
TestUser.settings = settings(max_examples=50, stateful_step_count=20, deadline=None)
