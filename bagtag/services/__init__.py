"""The use cases: one function, one transaction, one change record.

Modules load when first named (`services.strip`), so that the window can paint before SQLAlchemy is
imported.
"""

from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bagtag.services import (
        audit,
        board,
        check,
        checklists,
        closing,
        containers,
        demo,
        documents,
        fates,
        find,
        history,
        holes,
        instruments,
        jobs,
        kinds,
        labels,
        measure_pages,
        measuring,
        order_sheets,
        people,
        photos,
        readiness,
        renewals,
        rules,
        scanning,
        send_outs,
        signing,
        steps,
        strip,
        tags,
        tape,
        task_views,
        tasks,
        templates,
        tightening,
        tools,
        torque,
        travellers,
        views,
        wrenches,
    )

__all__ = [
    "audit",
    "board",
    "check",
    "checklists",
    "closing",
    "containers",
    "demo",
    "documents",
    "fates",
    "find",
    "history",
    "holes",
    "instruments",
    "jobs",
    "kinds",
    "labels",
    "measure_pages",
    "measuring",
    "order_sheets",
    "people",
    "photos",
    "readiness",
    "renewals",
    "rules",
    "scanning",
    "send_outs",
    "signing",
    "steps",
    "strip",
    "tags",
    "tape",
    "task_views",
    "tasks",
    "templates",
    "tightening",
    "tools",
    "torque",
    "travellers",
    "views",
    "wrenches",
]


def __getattr__(name: str) -> ModuleType:
    if name not in __all__:
        raise AttributeError(f"bagtag.services has no module {name}")
    return import_module(f"bagtag.services.{name}")
