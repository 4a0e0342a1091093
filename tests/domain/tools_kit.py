"""Steps to lay tools out for."""

from bagtag import resources
from bagtag.domain import threads
from bagtag.domain.fitting import part
from bagtag.domain.tools import ToolSheet, ToolStep
from bagtag.domain.tools_list import sheet
from bagtag.domain.tools_work import Work

THREADS = threads.read(resources.find("threads.toml").read_text(encoding="utf-8"), "threads.toml")


def work(place: int, *held_by, name: str = "cover", **more) -> Work:
    """A step at a place of the plan, with these lines of hardware."""
    return Work(ToolStep(part(place), place, f"{place} {name}"), tuple(held_by), **more)


def told(*works: Work, wrenches=(), **more) -> ToolSheet:
    return sheet(works, THREADS, wrenches, **more)


def names(found: ToolSheet) -> list[str]:
    return [row.name for row in found.rows]
