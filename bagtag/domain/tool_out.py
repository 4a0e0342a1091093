"""A tool that is laid out at a job, to be counted back before anything is closed over it."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class ToolOut:
    """`count` tools of one name laid out; `back_at` is empty while they are out."""

    id: int
    job_id: int
    name: str
    count: int
    out_at: datetime
    out_by: str
    back_at: datetime | None = None
    back_by: str = ""
