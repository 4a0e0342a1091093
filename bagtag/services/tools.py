"""The tools of a job: what to lay out for what is still to fit, laid out, and counted back."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import BinaryIO

from bagtag.domain.change import Change
from bagtag.domain.entry import NAME_LIMIT, NOTE_LIMIT, clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.kinds import fold
from bagtag.domain.phrases import listed
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.tools import ToolSheet
from bagtag.domain.tools_list import sheet
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.rendering import rendered
from bagtag.paper.tools_page import tools_pdf
from bagtag.services import jobs as job_cases
from bagtag.services import strip, tools_steps, torque
from bagtag.services.planning import planned
from bagtag.store import joints, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

MOST = 999
"""The most tools of one name that are laid out."""
NAMED = 3
"""How many tools an act names; the rest are counted."""


@dataclass(frozen=True, slots=True)
class Span:
    """For which steps: an area with those below it, None for the whole build; `steps` the next so
    many that can go in now, None for all that are still to be done."""

    area_id: int | None = None
    steps: int | None = None


WHOLE = Span()


def lay_out(store: Store, job_id: int, span: Span = WHOLE) -> ToolSheet:
    """What to lay out for the steps of a span that are not signed off, and what is laid out now."""
    job_cases.get_job(store, job_id)
    known = planned(store, job_id)
    chosen, said = tools_steps.chosen(known, span.area_id, span.steps)
    works = tools_steps.works(store, chosen)
    with store.read() as connection:
        wrenches = joints.wrenches(connection)
        out = joints.tools_out(connection, job_id)
    found = sheet(works, torque.threads(), wrenches, span=said, today=date.today())
    return replace(found, out=tuple(out))


def write(store: Store, job_id: int, out: Path | BinaryIO, span: Span = WHOLE) -> int:
    """The tools of a span as one PDF to lay the bench by; returns how many pages."""
    job = job_cases.get_job(store, job_id)
    header = ChecklistHeader(job.title, date.today(), job.owner, job.datum)
    return tools_pdf(out, header, lay_out(store, job_id, span))


def preview(
    store: Store, job_id: int, width_px: int, pages: int | None = None, span: Span = WHOLE
) -> Sequence[bytes]:
    """Pages of the very PDF that would be printed, as PNG files `width_px` wide."""
    return rendered(partial(write, store, job_id, span=span), width_px=width_px, pages=pages)


def printed_pages(store: Store, job_id: int, dpi: int, span: Span = WHOLE) -> Sequence[bytes]:
    """Every page as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, job_id, span=span), dpi=dpi)


def out_now(store: Store, job_id: int) -> list[ToolOut]:
    """The tools of a job that are laid out and not counted back, the first laid out first."""
    with store.read() as connection:
        return joints.tools_out(connection, job_id)


def take_out(store: Store, job_id: int, names: Sequence[str], *, who: str = "") -> Change:
    """Lay tools out, in one act. One that is out already, or is named twice, is one more of it."""
    job_cases.get_job(store, job_id)
    clean = [_name(name) for name in names]
    if not clean:
        raise BadInput("Choose a tool to lay out, or write its name.", field="name")

    def do(act: Act) -> None:
        out = {fold(one.name): one for one in joints.tools_out(act.connection, job_id)}
        for name, count in _counted(clean).items():
            _lay(act, job_id, out.get(fold(name)), name, count)

    return store.act(f"lay out {_named(clean)}", do, who=who, job_id=job_id)


def _lay(act: Act, job_id: int, there: ToolOut | None, name: str, count: int) -> None:
    wanted = count + (there.count if there else 0)
    if wanted > MOST:
        raise BadInput(
            f"{wanted} of {name} are more than a bench holds. Count back what is not out.",
            field="name",
        )
    if there is not None:
        act.update(tables.tool_out, there.id, count=wanted)
    else:
        made = {"name": name, "count": wanted, "out_at": rows.now(), "out_by": act.who}
        act.insert(tables.tool_out, job_id=job_id, **made)


def _name(name: str) -> str:
    clean = clean_text(name, limit=NAME_LIMIT, field="name", what="The tool's name")
    if not clean:
        raise BadInput("Write the tool's name, for example: 13 mm spanner.", field="name")
    return clean


def _counted(names: Iterable[str]) -> dict[str, int]:
    """How many of each, by the first way it was written."""
    written: dict[str, str] = {}
    found: dict[str, int] = {}
    for name in names:
        first = written.setdefault(fold(name), name)
        found[first] = found.get(first, 0) + 1
    return found


def _named(names: Sequence[str]) -> str:
    once = list(_counted(names))
    more = len(once) - NAMED
    return listed([*once[:NAMED], f"{more} more"] if more > 0 else once)


def count_back(store: Store, tool_ids: Sequence[int], *, who: str = "") -> Change:
    """Count tools back, in one act: all of each name that are out."""
    if not tool_ids:
        raise BadInput("Choose what is counted back.")
    found = [_tool(store, tool_id) for tool_id in dict.fromkeys(tool_ids)]
    job_ids = {one.job_id for one in found}
    if len(job_ids) > 1:
        raise BadInput("These tools lie at different jobs. Count back those of one job at a time.")

    def do(act: Act) -> None:
        for one in found:
            if _gone(joints.get_tool(act.connection, one.id)):
                raise BadInput(f"{one.name} is counted back already.")
            act.update(tables.tool_out, one.id, back_at=rows.now(), back_by=act.who)

    title = f"count back {_named([one.name for one in found])}"
    return store.act(title, do, who=who, job_id=job_ids.pop())


def count_one_back(store: Store, tool_id: int, *, who: str = "") -> Change:
    """Count one of a name back; the others stay out."""
    one = _tool(store, tool_id)
    if one.count == 1:
        return count_back(store, [tool_id], who=who)

    def do(act: Act) -> None:
        now = joints.get_tool(act.connection, tool_id)
        if now is None or _gone(now) or now.count < 2:
            raise BadInput(f"{one.name} is not out as often any more. Look at the list again.")
        act.update(tables.tool_out, tool_id, count=now.count - 1)
        was = {"name": now.name, "out_at": now.out_at.isoformat(), "out_by": now.out_by}
        back = {"count": 1, "back_at": rows.now(), "back_by": act.who}
        act.insert(tables.tool_out, job_id=now.job_id, **was, **back)

    return store.act(f"count one {one.name} back", do, who=who, job_id=one.job_id)


def _tool(store: Store, tool_id: int) -> ToolOut:
    with store.read() as connection:
        found = joints.get_tool(connection, tool_id)
    if found is None:
        raise NotFound("This tool is no longer laid out. Look at the list again.")
    return found


def _gone(one: ToolOut | None) -> bool:
    return one is None or one.back_at is not None


def note_special(store: Store, removal_id: int, text: str, *, who: str = "") -> Change:
    """The special tools that a part needs, with commas between; nothing takes the note away."""
    removal = strip.get_removal(store, removal_id)
    clean = clean_text(text, limit=NOTE_LIMIT, field="tools", what="The special tools")

    def do(act: Act) -> None:
        act.update(tables.removal, removal_id, tools=clean)

    title = f"special tools of {removal.number} {removal.name}"
    return store.act(title, do, who=who, job_id=removal.job_id)
