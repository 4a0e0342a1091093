"""The change record: what an act touched, for the screens that show it."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Change:
    """One act, done: its name as undo will show it, its journal entry, and the ids it touched.

    `touched` maps a kind ("job", "area", "removal", "container", "tag", "photo", "sign_off",
    "away", "task", "rule", "hole_map", "pass_tick", "wrench", "tool_out", "send_out", "document",
    "renewal", "measure_sheet", "instrument") to ids; `new_id` is the
    row the act made, where it made one; `job_id` is 0 for acts that belong to no job.
    """

    act: str
    journal_id: int = 0
    job_id: int = 0
    new_id: int | None = None
    touched: Mapping[str, frozenset[int]] = field(default_factory=dict)

    def touches(self, kind: str) -> bool:
        return bool(self.touched.get(kind))
