"""`measure`: sheets read, judged and decided; shims and a ratio worked out on the spot."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from bagtag import services
from bagtag.cli_answers import answer
from bagtag.cli_measure_data import (
    instrument_data,
    instrument_line,
    plan_data,
    rows_data,
    rows_lines,
    view_data,
    view_lines,
)
from bagtag.cli_measure_reckon import limits_of, ratio_sheet, valve_sheet
from bagtag.cli_options import AS_JSON, JOB
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.measuring import valves
from bagtag.domain.measuring.figures import reading
from bagtag.domain.measuring.form import FigureSlot, GivenSlot
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.sheet import Given, MeasureSheet, Reading, SheetKind
from bagtag.domain.model import Fate
from bagtag.domain.typed_days import Lies, typed_day
from bagtag.services.measuring import SheetView
from bagtag.store.work import Store

app = typer.Typer(help="Measure parts against their limits, and decide what becomes of them.")

SHEET = Annotated[int, typer.Argument(metavar="SHEET", help="The sheet's number, as listed.")]


@app.command(name="list")
def list_(context: typer.Context, job: JOB, as_json: AS_JSON = False) -> None:
    """List the parts to decide and the sheets of a job; exit 1 when one is out or too close."""
    with context.obj.store() as store:
        rows = services.measuring.for_stage(store, services.jobs.find_job(store, job).id)
    answer(rows_data(rows), rows_lines(rows), as_json)
    said = (one.verdict for row in rows for one in row.sheets if one.sheet.decision is None)
    raise typer.Exit(int(any(verdict.is_doubted for verdict in said)))


@app.command()
def show(
    context: typer.Context,
    sheet: SHEET,
    *,
    pdf: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Write its page too, with cells for what is not read."),
    ] = None,
    as_json: AS_JSON = False,
) -> None:
    """Say what a sheet asks for and what it says; exit 1 when it is out or too close to call."""
    with context.obj.store() as store:
        view = services.measuring.view(store, sheet, today=date.today())
        if pdf is not None:
            services.measure_pages.write(store, sheet, pdf)
    raise typer.Exit(_say(view, as_json))


def _say(view: SheetView, as_json: bool) -> int:
    answer(view_data(view), view_lines(view), as_json)
    return int(view.results.verdict.is_doubted)


@app.command()
def new(
    context: typer.Context,
    job: JOB,
    kind: Annotated[str, typer.Argument(metavar="KIND", help='"bore", "run-out", "flatness" …')],
    *,
    part: Annotated[str, typer.Option(metavar="NUMBER", help="Of this part of the log.")] = "",
    title: Annotated[str, typer.Option(metavar="TEXT", help="Which one: second gear.")] = "",
    unit: Annotated[str, typer.Option(metavar="UNIT", help="mm or in.")] = "mm",
    as_json: AS_JSON = False,
) -> None:
    """Begin a sheet; its number is what the other commands call it by."""
    wanted = _kind(kind)
    with context.obj.store() as store:
        job_id = services.jobs.find_job(store, job).id
        part_id = services.strip.find_removal(store, job_id, part).id if part else None
        made = services.measuring.add_sheet(
            store, job_id, wanted, part_id, title, unit=unit, who=context.obj.who
        )
        assert made.new_id is not None
        _say(services.measuring.view(store, made.new_id), as_json)


def _kind(text: str) -> SheetKind:
    word = " ".join(text.casefold().split())
    found = [kind for kind in SheetKind if kind.value == word]
    found = found or [kind for kind in SheetKind if word and kind.value.startswith(word)]
    if len(found) != 1:
        known = "; ".join(kind.value for kind in found or SheetKind)
        raise NotFound(f"No one kind of sheet is called {text}. There are: {known}.")
    return found[0]


@app.command()
def read(
    context: typer.Context,
    sheet: SHEET,
    place: Annotated[str, typer.Argument(metavar="PLACE", help="Its name, or its number.")],
    figure: Annotated[str, typer.Argument(metavar="FIGURE", help='"76,31", "3.002 in".')],
    *,
    instrument: Annotated[
        str, typer.Option("--with", metavar="NAME", help="An instrument of the list.")
    ] = "",
    as_json: AS_JSON = False,
) -> None:
    """Take one reading down. The answer is the sheet as it stands then."""
    with context.obj.store() as store:
        now = services.measuring.view(store, sheet)
        at = next((one for one in now.form.places if place in (one.key, str(one.number))), None)
        unit = (at.unit if at else "") or now.sheet.unit
        value, unit = reading(figure, unit, field="figure")
        one = Reading(at.key if at else place, value, unit)
        if instrument:
            one = _with(store, one, instrument)
        services.measuring.take_reading(store, sheet, one, who=context.obj.who)
        _say(services.measuring.view(store, sheet, today=date.today()), as_json)


def _with(store: Store, one: Reading, name: str) -> Reading:
    known = services.instruments.all_instruments(store)
    tool = next((each for each in known if each.name.casefold() == name.strip().casefold()), None)
    if tool is None:
        listed = ", ".join(each.name for each in known) or "none yet"
        raise NotFound(f"No instrument is called {name}. There are: {listed}.")
    step = services.measuring.step_in(tool, one.unit)
    return replace(one, instrument=tool.name, resolution=step)


@app.command()
def limit(
    context: typer.Context,
    sheet: SHEET,
    figure: Annotated[str, typer.Argument(metavar="FIGURE", help='"size", "taper", "end float".')],
    *,
    new_low: Annotated[str, typer.Option(metavar="N", help="A new part: at least.")] = "",
    new_high: Annotated[str, typer.Option(metavar="N", help="A new part: at most.")] = "",
    wear_low: Annotated[str, typer.Option(metavar="N", help="Worn but good: at least.")] = "",
    wear_high: Annotated[str, typer.Option(metavar="N", help="Worn but good: at most.")] = "",
    as_json: AS_JSON = False,
) -> None:
    """Write what the manual allows of one figure, instead of what was written before."""
    with context.obj.store() as store:
        view = services.measuring.view(store, sheet)
        texts = (new_low, new_high, wear_low, wear_high)
        kept = tuple(one for one in view.sheet.limits if one.key != figure)
        told = (limits_of(figure, texts, _unit(view.form.figures, figure, view.sheet.unit)),)
        limits = (*kept, *told) if any(texts) else kept
        _keep(store, replace(view.sheet, limits=limits), context.obj.who, as_json)


def _unit(slots: Sequence[FigureSlot | GivenSlot], key: str, unit: str) -> str:
    """The unit that a figure without one is taken in."""
    slot = next((one for one in slots if one.key == key), None)
    if slot is None:
        return unit
    return "" if slot.is_number else slot.unit or unit


def _keep(store: Store, sheet: MeasureSheet, who: str, as_json: bool) -> None:
    services.measuring.save(store, sheet, who=who)
    _say(services.measuring.view(store, sheet.id), as_json)


@app.command()
def give(
    context: typer.Context,
    sheet: SHEET,
    what: Annotated[str, typer.Argument(metavar="WHAT", help='"oversizes", "bore", "at hand".')],
    figures: Annotated[list[str], typer.Argument(metavar="FIGURE…", help="One, or several.")],
    as_json: AS_JSON = False,
) -> None:
    """Write what is known and not measured: a standard size, oversizes made, shims at hand."""
    with context.obj.store() as store:
        view = services.measuring.view(store, sheet)
        now, unit = view.sheet, _unit(view.form.given, what, view.sheet.unit)
        kept = tuple(one for one in now.given if one.key != what)
        more = tuple(Given(what, *reading(one, unit, field="given")) for one in figures)
        _keep(store, replace(now, given=(*kept, *more)), context.obj.who, as_json)


@app.command()
def decide(
    context: typer.Context,
    sheet: SHEET,
    fate: Annotated[str, typer.Argument(metavar="FATE", help="refit, renew, scrap or decide.")],
    *,
    why: Annotated[str, typer.Option(metavar="TEXT", help="The reason, where one is wanted.")] = "",
    work: Annotated[str, typer.Option(metavar="TEXT", help="The work a shop is to do.")] = "",
    as_json: AS_JSON = False,
) -> None:
    """Decide what becomes of the part: its fate is set, with your name and the date."""
    if fate not in set(Fate):
        raise BadInput(f"{fate} is no fate. Give one of: {', '.join(Fate)}.")
    with context.obj.store() as store:
        who = context.obj.who
        services.measuring.decide(store, sheet, Fate(fate), why=why, work=work, who=who)
        _say(services.measuring.view(store, sheet), as_json)


@app.command()
def instruments(
    context: typer.Context,
    *,
    add: Annotated[str, typer.Option(metavar="NAME", help="Add this one; wants --step.")] = "",
    step: Annotated[str, typer.Option(metavar="N", help='Its smallest step: "0.01 mm".')] = "",
    calibrated: Annotated[str, typer.Option(metavar="DAY", help="When: 14 March, today.")] = "",
    as_json: AS_JSON = False,
) -> None:
    """List what the bench measures with, or add an instrument to it."""
    with context.obj.store() as store:
        if add:
            value, unit = reading(step, "mm", field="step")
            on = typed_day(calibrated, date.today(), Lies.BEHIND, field="calibrated_on")
            one = Instrument(add, value, unit, on)
            services.instruments.add_instrument(store, one, who=context.obj.who)
        known = services.instruments.all_instruments(store)
    lines = [instrument_line(one) for one in known] or ["There is no instrument in the list yet."]
    answer([instrument_data(one) for one in known], lines, as_json)


@app.command(name="shims")
def shims_(
    found: Annotated[
        list[str],
        typer.Argument(metavar="VALVE…", help='"1 inlet=0.30/2.40": clearance, then shim.'),
    ],
    *,
    inlet: Annotated[str, typer.Option(metavar="LOW-HIGH", help="What inlets may have.")] = "",
    exhaust: Annotated[str, typer.Option(metavar="LOW-HIGH", help="And exhausts.")] = "",
    at_hand: Annotated[str, typer.Option(metavar="SIZES", help='"2.40 2.62": lie ready.')] = "",
    made: Annotated[str, typer.Option(metavar="LOW-HIGH/STEP", help='"2.00-2.98/0.02".')] = "",
    as_json: AS_JSON = False,
) -> None:
    """Say which valve shim goes where: swap before you buy. Nothing is kept."""
    sheet = valve_sheet(found, {"inlet": inlet, "exhaust": exhaust}, at_hand, made)
    view = services.measuring.reckon(sheet)
    plan = valves.plan_of(sheet)
    data = view_data(view) | {"plan": plan_data(plan) if plan else None}
    answer(data, view_lines(view), as_json)


@app.command()
def ratio(
    *,
    bore: Annotated[str, typer.Option(metavar="N", help='"76", "3 in".')],
    stroke: Annotated[str, typer.Option(metavar="N", help='"80", "3.15 in".')],
    cylinders: Annotated[int, typer.Option(metavar="N", help="How many.")] = 1,
    chamber: Annotated[str, typer.Option(metavar="N", help="The chamber, in cm³.")] = "",
    crown: Annotated[str, typer.Option(metavar="N", help="A dish in cm³; a dome below zero.")] = "",
    deck: Annotated[str, typer.Option(metavar="N", help="The piston below the face.")] = "",
    gasket: Annotated[str, typer.Option(metavar="N", help="The gasket, pressed.")] = "",
    gasket_bore: Annotated[str, typer.Option(metavar="N", help="The gasket's bore.")] = "",
    rebore: Annotated[str, typer.Option(metavar="N", help="The bore after a rebore.")] = "",
    as_json: AS_JSON = False,
) -> None:
    """Work out displacement and compression ratio, before and after a rebore. Nothing is kept."""
    read_ = {"chamber": chamber, "crown": crown, "deck": deck}
    given = {"bore": bore, "stroke": stroke, "rebore": rebore}
    head = {"gasket": gasket, "gasket bore": gasket_bore}
    _say(services.measuring.reckon(ratio_sheet(read_, given | head, cylinders)), as_json)
