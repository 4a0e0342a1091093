"""The plan of a job's build, computed from its rows as they stand now."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from bagtag.domain import areas as tree
from bagtag.domain.fitting import Ref, Rule, Task, TaskKind, part, task
from bagtag.domain.model import Area, Away, SignOff
from bagtag.domain.new_part import NewPart, of_itself
from bagtag.domain.now import Lane, Now, now
from bagtag.domain.order_input import BuildRows, areas_of_steps, problem
from bagtag.domain.order_plan import InForce, in_force
from bagtag.domain.order_problem import Plan, Tie
from bagtag.domain.order_why import needs
from bagtag.domain.sheets_of_parts import open_by_part
from bagtag.domain.sign_off import looked_at, must_not_sign
from bagtag.domain.standing import Between, Hindrance, OpenSheet, Outline, of_its_own
from bagtag.domain.tie_words import Words
from bagtag.store import belongings, between, fittings, jobs, journal, removals, sendings
from bagtag.store.work import Store


@dataclass(frozen=True)
class Planned:
    """The rows of a job's build, its plan, and what is asked of both."""

    job_id: int
    rows: BuildRows
    signed: Mapping[Ref, SignOff]
    out: Mapping[int, Away]
    found: InForce
    new_parts: Mapping[int, Sequence[NewPart]] = field(default_factory=dict)
    sheets: Mapping[int, tuple[OpenSheet, ...]] = field(default_factory=dict)

    @property
    def plan(self) -> Plan:
        return self.found.plan

    @cached_property
    def lines(self) -> dict[Ref, Outline]:
        return {line.ref: line for line in self.rows.log}

    @cached_property
    def tasks(self) -> dict[Ref, Task]:
        return {task(one.id): one for one in self.rows.tasks}

    @cached_property
    def places(self) -> Mapping[Ref, int | None]:
        """The area that each step is done in."""
        return areas_of_steps(self.rows)

    @cached_property
    def areas(self) -> dict[int, Area]:
        return tree.by_id(self.rows.areas)

    @cached_property
    def needs(self) -> Mapping[Ref, Sequence[Tie]]:
        return needs(self.found.problem)

    @cached_property
    def now(self) -> Now:
        lanes = {ref: self.lane(ref) for ref in self.plan.order}
        stuck = [ref for ref in self.plan.order if self.own(ref)]
        return now(self.plan, self.needs, lanes, self.signed.keys(), stuck)

    @cached_property
    def rules(self) -> dict[int, Rule]:
        return {rule.id: rule for rule in self.rows.rules}

    def words(self, who: str = "") -> Words:
        """What steps, areas and rules are called for a person at the bench."""
        return Words(self.called, self.area_name, self.rules, who)

    def called(self, ref: Ref) -> str:
        """What a step is called: "27 fork R", "measure the end float"."""
        if ref in self.tasks:
            return self.tasks[ref].name
        return self.lines[ref].called if ref in self.lines else "a part that is gone"

    def area_name(self, area_id: int) -> str:
        return self.areas[area_id].name if area_id in self.areas else ""

    def area_path(self, ref: Ref) -> str:
        return tree.path_text(self.areas, self.places.get(ref))

    def build_id(self, ref: Ref) -> int | None:
        """The bench build that a step belongs to."""
        of = self.tasks.get(ref) or self.lines.get(ref)
        return of.build_id if of is not None else None

    def lane(self, ref: Ref) -> Lane:
        build_id = self.build_id(ref)
        return ("area", self.places.get(ref)) if build_id is None else ("bench", build_id)

    def own(self, ref: Ref) -> tuple[Hindrance, ...]:
        """What keeps a step out whatever the others do."""
        line = self.lines.get(ref)
        if line is None or ref in self.signed:
            return ()
        bought = self.new_parts.get(line.id, ())
        known = Between(
            away=self.out.get(line.id),
            new_part=of_itself(bought),
            fasteners=tuple(one for one in bought if one.line),
            sheets=self.sheets.get(line.id, ()),
        )
        return of_its_own(line, known)

    def why_stuck(self, ref: Ref) -> str:
        return "; ".join(hindrance.sentence for hindrance in self.own(ref))

    @cached_property
    def steps(self) -> frozenset[Ref]:
        """Every step of the plan."""
        return frozenset(self.plan.order)

    @cached_property
    def _pieces(self) -> dict[int | None, list[Ref]]:
        found: dict[int | None, list[Ref]] = {}
        for ref in self.plan.order:
            found.setdefault(self.build_id(ref), []).append(ref)
        return found

    def pieces(self, build_id: int) -> list[Ref]:
        """The pieces of a bench build, in the order of the plan."""
        return self._pieces.get(build_id, [])

    @cached_property
    def tightenings(self) -> dict[Ref, Task]:
        """The final tightening that a part's fasteners still get, for those that have one."""
        wanted = (one for one in self.rows.tasks if one.kind is TaskKind.TIGHTENING)
        return {part(one.removal_id or 0): one for one in wanted}

    def torque_after(self, ref: Ref) -> str:
        """The step after which a part's fasteners get their final torque; empty for at once."""
        later = self.tightenings.get(ref)
        return self.called(later.anchor.of) if later is not None and later.anchor.of else ""

    @cached_property
    def holds(self) -> frozenset[Ref]:
        """The hold points."""
        return frozenset(ref for ref, one in self.tasks.items() if one.kind is TaskKind.HOLD_POINT)

    def not_by(self, ref: Ref) -> tuple[str, ...]:
        """Who must not sign a step: nobody, but for a hold point."""
        if ref not in self.holds:
            return ()
        work = looked_at(ref, self.tasks[ref], self.places, self.rows.areas)
        return must_not_sign(work - self.holds, self.signed)


def planned(store: Store, job_id: int) -> Planned:
    """The plan of a job as it stands now; one that works also where its rules do not all hold.

    Every act has its entry in the journal, so a plan holds until the next: the card, the board and
    the sign-off that follow one another share it.
    """
    with store.read() as connection:
        newest = journal.newest(connection)
    return _planned(store, job_id, newest)


@lru_cache(maxsize=2)
def _planned(store: Store, job_id: int, _: int) -> Planned:
    return planned_afresh(store, job_id)


def planned_afresh(store: Store, job_id: int) -> Planned:
    """The same, from the rows alone, whatever the journal says."""
    with store.read() as connection:
        signed = belongings.sign_offs(connection, job_id)
        rows = BuildRows(
            log=removals.outlines(connection, job_id),
            areas=jobs.areas(connection, job_id),
            tasks=fittings.tasks(connection, job_id),
            rules=fittings.rules(connection, job_id),
            signed=list(signed),
        )
        out = belongings.away_now(connection, job_id)
        bought = between.new_parts(connection, job_id)
        back = sendings.last_back(connection, job_id)
        sheets = open_by_part(between.open_sheets(connection, job_id), back)
    new: dict[int, list[NewPart]] = {}
    for one in bought:
        if one.removal_id is not None:
            new.setdefault(one.removal_id, []).append(one)
    return Planned(job_id, rows, signed, out, in_force(problem(rows)), new, sheets)
