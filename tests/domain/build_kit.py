"""Real builds, read from check_values/build_orders.json into what the order is computed from."""

import json
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from bagtag.domain.fitting import Anchor, Beside, Ref, Rule, RuleKind, Task, TaskKind, part, task
from bagtag.domain.model import Area, Fate, Origin, Replacement
from bagtag.domain.now import Lane, Now, now
from bagtag.domain.order_input import BuildRows, areas_of_steps, problem
from bagtag.domain.order_problem import Plan, Problem, Tie
from bagtag.domain.order_why import needs
from bagtag.domain.standing import Outline
from bagtag.domain.tie_words import Words

FILE = Path(__file__).parents[1] / "check_values" / "build_orders.json"
PUBLISHED = json.loads(FILE.read_text("utf-8"))
JOB = 1


@dataclass(frozen=True)
class Case:
    """One build. Names of its steps are unique; removals are numbered from 101, tasks from 1."""

    told: dict[str, Any]

    def __str__(self) -> str:
        return str(self.told["name"])

    @cached_property
    def refs(self) -> dict[str, Ref]:
        parts = {name: part(id_) for id_, name in enumerate(self.told["log"], 101)}
        tasks = {one["name"]: task(id_) for id_, one in enumerate(self.those("tasks"), 1)}
        assert not parts.keys() & tasks.keys(), self
        assert len(parts) == len(self.told["log"]), self
        return parts | tasks

    @cached_property
    def names(self) -> dict[Ref, str]:
        return {ref: name for name, ref in self.refs.items()}

    def those(self, key: str) -> list[Any]:
        return self.told.get(key, [])

    @cached_property
    def rows(self) -> BuildRows:
        return BuildRows(
            log=[self._outline(name) for name in self.told["log"]],
            areas=self.areas,
            tasks=[self._task(one) for one in self.those("tasks")],
            rules=self.rules,
            signed=[self.refs[name] for name in self.those("signed")],
        )

    @cached_property
    def problem(self) -> Problem:
        return problem(self.rows)

    @cached_property
    def areas(self) -> tuple[Area, ...]:
        ids = {one["name"]: id_ for id_, one in enumerate(self.those("areas"), 1)}
        return tuple(
            Area(ids[one["name"]], JOB, one["name"], ids.get(one.get("inside")), self._opener(one))
            for one in self.those("areas")
        )

    @cached_property
    def rules(self) -> tuple[Rule, ...]:
        return tuple(self._rule(id_, one) for id_, one in enumerate(self.those("rules"), 1))

    @property
    def words(self) -> Words:
        areas = {area.id: area.name for area in self.areas}
        rules = {rule.id: rule for rule in self.rules}
        return Words(self.names.__getitem__, areas.__getitem__, rules)

    def tie(self, one: Tie) -> tuple[str, str, str]:
        """A tie as the file writes it: before, after, where it comes from."""
        return self.names[one.before], self.names[one.after], one.because.value

    def now(self, plan: Plan) -> Now:
        """What can be fitted today: a step follows those before it in its area or bench build."""
        away = {self.refs[name] for name in self.those("away")}
        return now(plan, needs(self.problem), self._lanes(), set(self.problem.signed), away)

    def _lanes(self) -> dict[Ref, Lane]:
        builds = {line.ref: line.build_id for line in self.rows.log if line.build_id is not None}
        places = areas_of_steps(self.rows).items()
        return {
            ref: ("bench", builds[ref]) if ref in builds else ("area", area_id)
            for ref, area_id in places
        }

    def _opener(self, area: dict[str, Any]) -> int | None:
        return self.refs[area["opener"]].id if "opener" in area else None

    def _outline(self, name: str) -> Outline:
        ref = self.refs[name]
        homes = [at for at, one in enumerate(self.those("areas"), 1) if name in one["holds"]]
        builds = [at for at, one in enumerate(self.those("tasks"), 1) if name in pieces(one)]
        fate = Fate.SCRAP if name in self.those("scrapped") else Fate.REFIT
        return Outline(
            id=ref.id,
            number=str(ref.id),
            name=name,
            area_id=homes[0] if homes else None,
            fate=fate,
            replacement=Replacement.WANTED,
            origin=Origin.OFF,
            build_id=builds[0] if builds else None,
        )

    def _task(self, one: dict[str, Any]) -> Task:
        id_ = self.refs[one["name"]].id
        kind = TaskKind(one["kind"])
        of = self.refs[one["of"]].id if "of" in one else None
        return Task(id_, f"t{id_}", JOB, kind, one["name"], anchor=self._anchor(one), removal_id=of)

    def _anchor(self, one: dict[str, Any]) -> Anchor:
        if "before" in one:
            return Anchor(Beside.BEFORE, self.refs[one["before"]])
        if "after" in one:
            return Anchor(Beside.AFTER, self.refs[one["after"]])
        return Anchor(Beside.BEFORE if one.get("first") else Beside.AFTER)

    def _rule(self, id_: int, one: dict[str, Any]) -> Rule:
        kind, members = _said(one)
        return Rule(id_, JOB, kind, tuple(self.refs[name] for name in members), one.get("why", ""))


def pieces(one: dict[str, Any]) -> list[str]:
    return one.get("pieces", [])


def _said(one: dict[str, Any]) -> tuple[RuleKind, list[str]]:
    if "fit" in one:
        return RuleKind.FIRST, [one["before"], one["fit"]]
    if "hold" in one:
        return RuleKind.UNTIL, [one["hold"], one["until"]]
    return RuleKind.TOGETHER, one["together"]


CASES = [Case(told) for told in PUBLISHED["cases"]]
CIRCLES = [case for case in CASES if "circle" in case.told]
BUILDS = [case for case in CASES if "circle" not in case.told]
AWAY = [case for case in CASES if "away" in case.told]
