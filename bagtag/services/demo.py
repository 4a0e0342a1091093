"""The demo job: a walking tractor's engine and gearbox, half way through its build.

The story is data, in resources/demo; it is written through the same use cases as any job.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from bagtag import resources
from bagtag.domain import hardware, which_way
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.model import Fate, Hazard, Replacement
from bagtag.services import board, containers, fates, jobs, labels, photos, strip, tags
from bagtag.services.labels import LabelOrder
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
    for away in story["away"]:
        writer.send(away)
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

    def log(self, removal: Table) -> None:
        """One line of the log with all that belongs to it."""
        change = strip.log_removal(self.store, self.job_id, self._entry(removal), who=self.who)
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

    def send(self, away: Table) -> None:
        """A part to an outside shop, and back again where the story says so."""
        ids = [self.removals[away["removal"]]]
        due = date.today() + timedelta(days=away["due_in_days"])
        fates.send_away(
            self.store, ids, shop=away["shop"], work=away["work"], due=due, who=self.who
        )
        if away.get("back"):
            fates.came_back(self.store, ids, who=self.who)

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
            removal = strip.get_removal(self.store, step.removal_id)
            if removal.id in wanted or removal.area_id in inside:
                board.sign(self.store, removal.id, who=build["who"])


def _new(change: Change) -> int:
    assert change.new_id is not None
    return change.new_id


def _photo(name: str) -> Path:
    return resources.find(f"demo/photos/{name}")
