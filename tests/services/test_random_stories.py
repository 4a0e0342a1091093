"""Any story of acts, in any order: nothing lost, nothing doubled, and all of it can be undone."""

from pathlib import Path
from tempfile import TemporaryDirectory

import hypothesis.strategies as st
from hypothesis import settings
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    consumes,
    initialize,
    invariant,
    multiple,
    precondition,
    rule,
)

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Anchor, Beside, Ref, RuleKind, Task, TaskKind, part, task
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.model import Area, Fate
from bagtag.domain.tightening import Pass
from bagtag.services.board import Step
from bagtag.services.jobs import JobForm
from bagtag.services.strip import Extras
from bagtag.services.tasks import TaskForm
from bagtag.store.work import Store
from tests.store.rows_kit import all_rows

NAMES = st.sampled_from(["gear", "shaft", "шестерня", "<b>nut</b>", "oil seal, clutch side"])
FATES = st.sampled_from(list(Fate))
AREAS = 3
BOLTS = (HeldBy(4, thread="M8", length=35, torque=Torque(22)),)
PASSES = (Pass(share=0.3), Pass(share=0.6), Pass(share=1.0))
TOOLS = ("13 mm socket", "torque wrench", "flywheel puller")


class Story(RuleBasedStateMachine):
    """One job. `logged` holds every id ever given; an id may be gone again, or back."""

    logged = Bundle("logged")

    @initialize()
    def open_job(self) -> None:
        self.folder = TemporaryDirectory(prefix="bagtag-story-")
        self.store = Store.in_folder(Path(self.folder.name))
        self.job_id = services.jobs.open_job(self.store, JobForm("Walking tractor")).new_id
        self.areas = [None]
        for number in range(AREAS):
            made = services.jobs.add_area(
                self.store, self.job_id, f"area {number}", parent_id=self.areas[-1]
            )
            self.areas.append(made.new_id)
        self.start = self.rows()
        self.undone: list[dict] = []
        self.done: list[dict] = []

    def teardown(self) -> None:
        if hasattr(self, "store"):
            while self.done:
                self.undo()
            assert self.rows() == self.start
            assert services.check.check(self.store).sound
            self.store.close()
            self.folder.cleanup()

    def rows(self) -> dict[str, list[dict]]:
        return all_rows(self.store)

    def ids(self) -> list[int]:
        return list(services.strip.log_ids(self.store, self.job_id))

    def act(self, do) -> None:
        """Do it; a refusal must leave everything as it was."""
        before = self.rows()
        try:
            change = do()
        except BadInput:
            assert self.rows() == before
            return
        if change.journal_id:
            self.done.append(before)
            self.undone.clear()

    @rule(target=logged, name=NAMES, area=st.integers(0, AREAS), fate=FATES)
    def log(self, name: str, area: int, fate: Fate):
        return self._log(Entry(name, area_id=self.areas[area], fate=fate), Extras())

    @rule(target=logged, name=NAMES, before=logged, area=st.integers(0, AREAS))
    def insert(self, name: str, before: int, area: int):
        if before not in self.ids():
            return multiple()
        return self._log(Entry(name, area_id=self.areas[area]), Extras(before=before))

    def _log(self, entry: Entry, extras: Extras) -> int:
        before, known = self.rows(), set(self.ids())
        change = services.strip.log_removal(self.store, self.job_id, entry, extras)
        assert set(self.ids()) == known | {change.new_id}
        assert change.new_id not in known
        self.done.append(before)
        self.undone.clear()
        return change.new_id

    @rule(which=logged, before=logged | st.none())
    def move(self, which: int, before: int | None) -> None:
        if which in self.ids() and (before is None or before in self.ids()):
            self.act(lambda: services.strip.move_removal(self.store, which, before))

    @rule(which=logged, name=NAMES, area=st.integers(0, AREAS), fate=FATES)
    def correct(self, which: int, name: str, area: int, fate: Fate) -> None:
        entry = Entry(name, 2, self.areas[area], fate=fate, container_id=None, held_by=BOLTS)
        if which in self.ids():
            extras = Extras(container_wanted="bag 7")
            self.act(lambda: services.strip.correct_removal(self.store, which, entry, extras))

    @rule(which=logged, area=st.integers(1, AREAS))
    def set_opener(self, which: int, area: int) -> None:
        if which in self.ids():
            self.act(lambda: services.jobs.set_opener(self.store, self.areas[area], which))

    @rule(which=consumes(logged), target=logged)
    def delete(self, which: int):
        if which in self.ids():
            waited_for = any(
                one.kind is TaskKind.TIGHTENING
                and one.anchor.of == part(which)
                and one.removal_id != which
                for one in self.tasks()
            )
            self.act(lambda: services.strip.delete_removal(self.store, which))
            assert (which in self.ids()) == waited_for
        return which  # an undo may bring it back

    @rule(which=logged, reason=st.sampled_from(["", "trial fit"]))
    def sign(self, which: int, reason: str) -> None:
        if which in self.ids():
            self.act(
                lambda: services.signing.sign(
                    self.store, part(which), services.signing.SignForm(reason=reason), who="Ada"
                )
            )

    @rule(which=logged)
    def take_back(self, which: int) -> None:
        if which in self.ids():
            self.act(lambda: services.signing.take_back(self.store, part(which)))

    @rule(which=logged)
    def make_twins(self, which: int) -> None:
        if which in self.ids():
            self.act(lambda: services.tags.make_twins(self.store, which)[0])

    @rule(kind=st.sampled_from(list(RuleKind)), one=logged, other=logged, third=logged)
    def make_rule(self, kind: RuleKind, one: int, other: int, third: int) -> None:
        members = [part(one), part(other)]
        members += [part(third)] if kind is RuleKind.TOGETHER and third != one else []
        self.act(lambda: services.rules.add_rule(self.store, self.job_id, kind, members))

    @rule(which=st.integers(0, 3))
    def drop_rule(self, which: int) -> None:
        rules = services.rules.rules_of(self.store, self.job_id)
        if which < len(rules):
            self.act(lambda: services.rules.drop_rule(self.store, rules[which].rule.id))

    def tasks(self) -> list[Task]:
        return services.tasks.tasks_of(self.store, self.job_id)

    @rule(
        kind=st.sampled_from([TaskKind.OIL, TaskKind.HOLD_POINT, TaskKind.END_FLOAT]),
        beside=st.sampled_from(list(Beside)),
        of=logged,
        on_task=st.booleans(),
    )
    def add_task(self, kind: TaskKind, beside: Beside, of: int, on_task: bool) -> None:
        known = self.tasks()
        step = task(known[-1].id) if on_task and known else part(of)
        form = TaskForm(kind, anchor=Anchor(beside, step))
        self.act(lambda: services.tasks.add_task(self.store, self.job_id, form))

    @rule(pieces=st.lists(logged, min_size=1, max_size=3, unique=True))
    def bench_build(self, pieces: list[int]) -> None:
        refs = [part(piece) for piece in pieces]
        self.act(lambda: services.tasks.make_bench_build(self.store, self.job_id, "cluster", refs))

    @rule(which=logged, after=logged)
    def tighten_later(self, which: int, after: int) -> None:
        if which in self.ids():
            self.act(lambda: services.tasks.tighten_later(self.store, which, part(after)))

    @rule(which=st.integers(0, 3))
    def delete_task(self, which: int) -> None:
        if which < len(known := self.tasks()):
            self.act(lambda: services.tasks.delete_task(self.store, known[which].id))

    @rule(which=st.integers(0, 3), who=st.sampled_from(["Ada", "Ben"]))
    def sign_task(self, which: int, who: str) -> None:
        if which < len(known := self.tasks()):
            form = services.signing.SignForm(reason="trial", note="none")
            ref = task(known[which].id)
            self.act(lambda: services.signing.sign(self.store, ref, form, who=who))

    @rule(which=logged, across=st.floats(-10, 300), mark=st.sampled_from(["", "A", "Q"]))
    def map_holes(self, which: int, across: float, mark: str) -> None:
        if which in self.ids():
            made = HoleMap((Hole(1, 20, 20, mark), Hole(2, across, 20, mark)))
            self.act(lambda: services.holes.save_map(self.store, which, made))

    @rule(which=logged)
    def drop_map(self, which: int) -> None:
        if which in self.ids():
            self.act(lambda: services.holes.delete_map(self.store, which))

    @rule(which=logged, count=st.integers(0, 3))
    def set_passes(self, which: int, count: int) -> None:
        if which in self.ids():
            self.act(
                lambda: services.tightening.set_passes(self.store, which, PASSES[:count], who="Ada")
            )

    @rule(which=logged, place=st.integers(-1, 3), back=st.booleans())
    def tick(self, which: int, place: int, back: bool) -> None:
        if which in self.ids():
            do = services.tightening.untick if back else services.tightening.tick
            self.act(lambda: do(self.store, part(which), place, who="Ada"))

    @rule(names=st.lists(st.sampled_from(TOOLS), min_size=1, max_size=2))
    def lay_out(self, names: list[str]) -> None:
        self.act(lambda: services.tools.take_out(self.store, self.job_id, names, who="Ada"))

    @rule(which=st.integers(0, 2))
    def count_back(self, which: int) -> None:
        out = services.tools.out_now(self.store, self.job_id)
        if which < len(out):
            self.act(lambda: services.tools.count_back(self.store, [out[which].id], who="Ada"))

    @rule(which=st.integers(0, 2))
    def count_one_back(self, which: int) -> None:
        out = services.tools.out_now(self.store, self.job_id)
        if which < len(out):
            self.act(lambda: services.tools.count_one_back(self.store, out[which].id, who="Ada"))

    @precondition(lambda self: self.done)
    @rule()
    def undo(self) -> None:
        self.undone.append(self.rows())
        services.history.undo(self.store, self.job_id)
        assert self.rows() == self.done.pop()

    @precondition(lambda self: self.undone)
    @rule()
    def redo(self) -> None:
        self.done.append(self.rows())
        services.history.redo(self.store, self.job_id)
        assert self.rows() == self.undone.pop()

    @rule()
    def restart(self) -> None:
        self.store.close()
        self.store = Store(self.store.location)

    @invariant()
    def numbers_and_places_are_each_once(self) -> None:
        if not hasattr(self, "store"):
            return
        removals = self.rows()["removal"]
        for what in ("id", "uid", "number", "position"):
            assert len({row[what] for row in removals}) == len(removals)
        in_order = sorted(removals, key=lambda row: row["position"])
        assert [row["id"] for row in in_order] == self.ids()

    @invariant()
    def the_index_finds_what_is_logged(self) -> None:
        if not hasattr(self, "store"):
            return
        names = {row["id"]: row["name"] for row in self.rows()["removal"]}
        for name in ("gear", "шестерня", "nut", "clutch sea"):
            hits = services.find.find(self.store, name, limit=500)
            words = name.split()
            wanted = {id_ for id_, text in names.items() if all(w in text for w in words)}
            assert [hit.removal_id for hit in hits] == sorted(wanted, reverse=True)

    @invariant()
    def the_build_has_every_step_once_and_keeps_what_is_tied(self) -> None:
        """What is signed off comes first; among the rest no cover too early, and every rule that
        is in force is kept."""
        if not hasattr(self, "store"):
            return
        rows = self.rows()
        removals = rows["removal"]
        steps = services.board.board(self.store, self.job_id).steps
        unscrapped = {part(row["id"]) for row in removals if row["fate"] != Fate.SCRAP.value}
        wanted = unscrapped | {task(row["id"]) for row in rows["task"]}
        assert sorted(step.ref for step in steps) == sorted(wanted)
        signed = [step.sign_off is not None for step in steps]
        assert signed == sorted(signed, reverse=True)
        open_ = {step.ref: step for step in steps if step.sign_off is None}
        self.keeps_rules(open_)
        parts = {ref.id: step.place for ref, step in open_.items() if ref.removal_id}
        self.keeps_openers(removals, parts)

    def keeps_rules(self, steps: dict[Ref, Step]) -> None:
        for row in services.rules.rules_of(self.store, self.job_id):
            members = [steps[ref] for ref in row.rule.members if ref in steps]
            if not row.in_force or len(members) < 2:
                continue
            if row.rule.kind is RuleKind.TOGETHER:
                assert {step.ref for step in members[1:]} <= set(members[0].along)
            else:
                assert members[1].place < members[0].place

    def keeps_openers(self, removals: list[dict], place: dict[int, int]) -> None:
        areas = {a.id: a for a in services.jobs.areas_of(self.store, self.job_id)}
        for row in removals:
            for opener in _over(areas, row["area_id"]):
                if opener in place and row["id"] in place:
                    assert place[row["id"]] < place[opener]


def _over(areas: dict[int, Area], area_id: int | None) -> list[int | None]:
    """The openers of an area and of those around it, told again in the test's own way."""
    if area_id is None:
        return []
    return [areas[area_id].opener_id, *_over(areas, areas[area_id].parent_id)]


TestStory = Story.TestCase
TestStory.settings = settings(
    derandomize=True, max_examples=20, stateful_step_count=40, deadline=None, database=None
)
