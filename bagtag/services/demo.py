"""The demo job: a walking tractor's engine and gearbox, half way through its build.

The story is data, in resources/demo; it is written through the same use cases as any job.
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bagtag import resources
from bagtag.domain import hardware, which_way
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import (
    Anchor,
    Asked,
    Beside,
    Figure,
    Ref,
    RuleKind,
    TaskKind,
    part,
    task,
)
from bagtag.domain.model import Fate, Hazard, Origin, Replacement
from bagtag.services import (
    board,
    containers,
    demo_between,
    demo_joints,
    fates,
    jobs,
    labels,
    photos,
    rules,
    signing,
    strip,
    tags,
    tasks,
)
from bagtag.services.labels import LabelOrder
from bagtag.services.strip import Extras
from bagtag.store.work import Store

Table = Mapping[str, Any]


def write(store: Store, *, who: str = "") -> Change:
    """Write the demo job into a store; the change is that of opening it."""
    story = tomllib.loads(resources.find("demo/job.toml").read_text(encoding="utf-8"))
    opened = jobs.open_job(store, _form(story["job"]), who=who)
    writer = _Writer(store, opened.job_id, who or story["build"]["who"])
    for area in story["area"]:
        writer.add_area(area)
    for container in story["container"]:
        writer.add_container(container)
    for removal in story["removal"]:
        writer.log(removal)
    writer.add_to_build(story)
    demo_between.write(store, writer.job_id, story, writer.removals, who=writer.who)
    demo_joints.write(store, story, writer.removals, who=writer.who)
    writer.print_labels()
    writer.build(story["build"])
    return opened


def _form(job: Table) -> jobs.JobForm:
    names = {Side(side): name for side, name in job["sides"].items()}
    datum = Datum(job["viewpoint"], names)
    return jobs.JobForm(job["machine"], job["purpose"], job["owner"], job["note"], datum)


@dataclass(slots=True)
class _Writer:
    """Writes the story part by part; names of the story lead to ids of the store."""

    store: Store
    job_id: int
    who: str
    areas: dict[str, int] = field(default_factory=dict)
    containers: dict[str, int] = field(default_factory=dict)
    removals: dict[str, int] = field(default_factory=dict)
    tasks: dict[str, int] = field(default_factory=dict)
    figures: dict[Ref, tuple[Figure, ...]] = field(default_factory=dict)

    def add_area(self, area: Table) -> None:
        parent = self.areas.get(area.get("inside", ""))
        change = jobs.add_area(
            self.store, self.job_id, area["name"], parent_id=parent, who=self.who
        )
        self.areas[area["name"]] = _new(change)
        if area.get("open"):
            jobs.set_open(self.store, _new(change), True, who=self.who)

    def add_container(self, container: Table) -> None:
        kind, name = containers.parse_label(container["label"])
        parent = self.containers.get(container.get("inside", ""))
        change = containers.add_container(
            self.store, self.job_id, kind, name, parent_id=parent, who=self.who
        )
        self.containers[container["label"]] = _new(change)

    def log(self, removal: Table, extras: Extras | None = None) -> None:
        """One line of the log with all that belongs to it."""
        entry = self._entry(removal)
        change = strip.log_removal(self.store, self.job_id, entry, extras or Extras(), who=self.who)
        removal_id = self.removals[removal["name"]] = _new(change)
        if "opens" in removal:
            area_id = self.areas[removal["opens"]]
            jobs.set_opener(self.store, area_id, removal_id, who=self.who)
        if "photo" in removal:
            photos.add(self.store, removal_id, [_photo(removal["photo"])], who=self.who)
        if removal.get("twins"):
            tags.make_twins(self.store, removal_id, who=self.who)
        if "new_part" in removal:
            state = Replacement(removal["new_part"])
            fates.set_replacement(self.store, [removal_id], state, who=self.who)

    def _entry(self, removal: Table) -> Entry:
        return Entry(
            name=removal["name"],
            quantity=removal.get("quantity", 1),
            area_id=self.areas[removal["area"]],
            which_way=which_way.from_data(removal.get("which_way", ())),
            held_by=hardware.from_data(removal.get("held_by", ())),
            condition=removal.get("condition", ""),
            fate=Fate(removal.get("fate", "refit")),
            goes_on=removal.get("goes_on", ""),
            note=removal.get("note", ""),
            container_id=self.containers.get(removal.get("container", "")),
            kind=removal.get("kind", ""),
            side=Side(removal["side"]) if "side" in removal else None,
            size=removal.get("size", ""),
            hazards=tuple(Hazard(word) for word in removal.get("hazards", ())),
        )

    def add_to_build(self, story: Table) -> None:
        """What was never logged: parts, bench builds, tasks, final tightenings, rules."""
        for one in story["part"]:
            self.log(one, Extras(origin=Origin(one["origin"]), beside=self._anchor(one)))
        for one in story["bench_build"]:
            pieces = self._steps(one["pieces"])
            made = tasks.make_bench_build(
                self.store, self.job_id, one["name"], pieces, who=self.who
            )
            self.tasks[one["name"]] = _new(made)
        for one in story["task"]:
            self._add_task(one)
        for one in story["tighten_later"]:
            part_id = self.removals[one["part"]]
            tasks.tighten_later(self.store, part_id, self._step(one["after"]), who=self.who)
        for one in story["rule"]:
            kind, steps = RuleKind(one["kind"]), self._steps(one["steps"])
            rules.add_rule(self.store, self.job_id, kind, steps, why=one["why"], who=self.who)

    def _step(self, name: str) -> Ref:
        return task(self.tasks[name]) if name in self.tasks else part(self.removals[name])

    def _steps(self, names: Iterable[str]) -> list[Ref]:
        return [self._step(name) for name in names]

    def _anchor(self, one: Table) -> Anchor:
        return Anchor(Beside(one["beside"]), self._step(one["of"]))

    def _add_task(self, one: Table) -> None:
        asks = tuple(Asked(**item) for item in one.get("asks", ()))
        form = tasks.TaskForm(
            TaskKind(one["kind"]),
            one["name"],
            self._anchor(one),
            asks=asks,
            note=one.get("note", ""),
        )
        made = task(_new(tasks.add_task(self.store, self.job_id, form, who=self.who)))
        self.tasks[one["name"]] = made.id
        if "figures" in one:
            self.figures[made] = signing.figures_of(asks, one["figures"])

    def print_labels(self) -> None:
        """Every part and every container has its label."""
        order = LabelOrder(
            self.job_id, tuple(self.removals.values()), tuple(self.containers.values())
        )
        labels.mark_printed(self.store, order, who=self.who)

    def build(self, build: Table) -> None:
        """Sign off what the story says is in, in the order of the build."""
        inside = {self.areas[name] for name in build["areas"]}
        wanted = {self.removals[name] for name in build["parts"]}
        for step in board.board(self.store, self.job_id).steps:
            given = self.figures.get(step.ref, ())
            if step.removal_id in wanted or step.area_id in inside or given:
                form = signing.SignForm(figures=given)
                signing.sign(self.store, step.ref, form, who=build["who"])


def _new(change: Change) -> int:
    assert change.new_id is not None
    return change.new_id


def _photo(name: str) -> Path:
    return resources.find(f"demo/photos/{name}")
