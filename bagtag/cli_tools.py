"""`tools`: what to lay out for a build, and what is laid out and not counted back."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import Any

from bagtag import services
from bagtag.cli_answers import answer
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.phrases import capital
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.tools import (
    COUNT,
    ToolKind,
    ToolNeed,
    ToolSheet,
    ToolStep,
    out_words,
    places_words,
)
from bagtag.services.tools import Span
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class ToolsAsked:
    """For which steps tools are laid out: of one area by its name, the next few; and the PDF."""

    area: str = ""
    steps: int | None = None
    pdf: Path | None = None


def say_tools(store: Store, job: str, asked: ToolsAsked, as_json: bool) -> None:
    """The tools by kind, each with the steps that need it; then what is still out."""
    found = services.jobs.find_job(store, job)
    area = services.jobs.find_area(store, found.id, asked.area) if asked.area else None
    span = Span(area.id if area else None, asked.steps)
    sheet = services.tools.lay_out(store, found.id, span)
    if asked.pdf is not None:
        services.tools.write(store, found.id, asked.pdf, span)
    data = {
        "job": {"number": found.number, "title": found.title},
        "span": sheet.span,
        "steps": sheet.steps,
        "tools": [_need_data(row) for row in sheet.rows],
        "unknown": [_step_data(step) for step in sheet.unknown],
        "out": [_out_data(one) for one in sheet.out],
        "file": str(asked.pdf) if asked.pdf else None,
        "cautions": list(TORQUE_CAUTIONS) if sheet.has_torque else [],
    }
    answer(data, _lines(sheet, asked.pdf), as_json)


def _need_data(row: ToolNeed) -> dict[str, Any]:
    return {
        "name": row.name,
        "kind": row.kind.value,
        "is_likely": row.is_likely,
        "notes": list(row.notes),
        "steps": [_step_data(step) for step in row.steps],
    }


def _step_data(step: ToolStep) -> dict[str, Any]:
    return {"place": step.place, "step": step.called, "what": step.what}


def _out_data(one: ToolOut) -> dict[str, Any]:
    return {
        "name": one.name,
        "count": one.count,
        "out_at": one.out_at.isoformat(),
        "out_by": one.out_by,
    }


def _lines(sheet: ToolSheet, pdf: Path | None) -> Iterator[str]:
    many = "" if sheet.steps == 1 else "s"
    yield f"{capital(sheet.span)}: {sheet.steps} step{many} to do."
    for kind, rows in groupby(sheet.rows, key=lambda row: row.kind):
        yield kind.value
        for row in rows:
            yield f"  {row.name}{', likely' if row.is_likely else ''}: {places_words(row.places)}"
            yield from (f"    {note}" for note in (*row.notes, *_settings(row)))
    yield from _unknown(sheet)
    if sheet.has_torque:
        yield from TORQUE_CAUTIONS
    yield f"Still out: {out_words(sheet.out)}." if sheet.out else "Nothing is laid out."
    yield COUNT
    if pdf is not None:
        yield f"The list is in {pdf}."


def _settings(row: ToolNeed) -> Iterator[str]:
    """What a torque wrench is set to, step by step."""
    if row.kind is ToolKind.TORQUE:
        yield from (f"step {one.place} {one.called}: {one.what}" for one in row.steps if one.what)


def _unknown(sheet: ToolSheet) -> Iterator[str]:
    if sheet.unknown:
        yield "Look before you lay out: nothing tells the tool for these."
        yield from (f"  step {one.place} {one.called}: {one.what}" for one in sheet.unknown)
