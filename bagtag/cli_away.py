"""`away`: send parts to an outside shop, list what is there, check parts back in."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from bagtag import services
from bagtag.cli_answers import answer
from bagtag.cli_away_data import batch_data, batch_lines, late_data
from bagtag.cli_away_typed import measured_figure, of_parts, part_of, wanted_figure
from bagtag.cli_options import AS_JSON, JOB
from bagtag.domain.days import late_words
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Figure
from bagtag.domain.model import Removal
from bagtag.domain.send_out import BackCheck
from bagtag.domain.sending import Back, Item, PackForm, Wanted
from bagtag.domain.sending_check import read_shop_part
from bagtag.domain.sending_days import out_day, promised_day
from bagtag.store.work import Store

app = typer.Typer(help="Send parts to an outside shop, and check them back in.")

PARTS = Annotated[
    list[str], typer.Argument(metavar="PART…", help="Parts: the number in the log, or a tag code.")
]


@app.command(name="list")
def list_(context: typer.Context, job: JOB, as_json: AS_JSON = False) -> None:
    """List the send-outs of a job: what is out, what is back, what is late."""
    with context.obj.store() as store:
        known = services.send_outs.batches(store, services.jobs.find_job(store, job).id)
    lines = [line for one in known for line in batch_lines(one)]
    answer([batch_data(one) for one in known], lines or ["Nothing is away."], as_json)


@app.command()
def late(context: typer.Context, as_json: AS_JSON = False) -> None:
    """List what is late at outside shops, over all jobs, the latest first."""
    today = date.today()
    with context.obj.store() as store:
        known = services.send_outs.late(store, today)
    lines = [
        f"{one.called}: {late_words(one.promised, today)}, promised for {one.promised}; "
        f"{one.job_title}"
        for one in known
    ]
    answer([late_data(one) for one in known], lines or ["Nothing is late."], as_json)


@app.command()
def send(
    context: typer.Context,
    job: JOB,
    parts: PARTS,
    *,
    shop: Annotated[str, typer.Option(metavar="NAME", help="Where they go.")],
    work: Annotated[str, typer.Option(metavar="TEXT", help="The work wanted on each.")] = "",
    out: Annotated[str, typer.Option(metavar="DAY", help="The day they went out; today.")] = "",
    promised: Annotated[str, typer.Option(metavar="DAY", help="Promised: 12 May, 2 weeks.")] = "",
    contact: Annotated[str, typer.Option(metavar="TEXT", help="Whom to ask there.")] = "",
    price: Annotated[str, typer.Option(metavar="FIGURE", help="The price named.")] = "",
    currency: Annotated[str, typer.Option(metavar="NAME", help="Of the price: EUR.")] = "",
    off: Annotated[
        list[str] | None,
        typer.Option(metavar="PART:PART", help='Taken off it first, and stays here: "12: 9".'),
    ] = None,
    takes: Annotated[
        list[str] | None,
        typer.Option(metavar="PART:WHAT", help='The shop takes this off it: "12: 3 oil jets".'),
    ] = None,
    wants: Annotated[
        list[str] | None,
        typer.Option(metavar="PART:FIGURE", help='A figure wanted: "12: bore 76.50 to 76.52 mm".'),
    ] = None,
    as_json: AS_JSON = False,
) -> None:
    """Send parts away as one batch; say its code, and the codes of what the shop takes off."""
    today = date.today()
    days = (out_day(out, today), promised_day(promised, today))
    form = PackForm(shop, *days, contact=contact, price=price, currency=currency)
    with context.obj.store() as store:
        job_id = services.jobs.find_job(store, job).id
        wanted = _wanted(store, job_id, parts, work, (off or [], takes or [], wants or []))
        done = services.send_outs.send(store, job_id, form, wanted, who=context.obj.who)
        assert done.new_id is not None
        whole = services.send_outs.batch(store, done.new_id)
    answer(batch_data(whole), batch_lines(whole), as_json)


def _wanted(
    store: Store,
    job_id: int,
    parts: Sequence[str],
    work: str,
    said: tuple[Sequence[str], Sequence[str], Sequence[str]],
) -> list[Wanted]:
    ids = [part_of(store, job_id, text).id for text in parts]
    first, takes, wants = (of_parts(store, job_id, some, ids) for some in said)
    return [
        Wanted(
            id_,
            work,
            asks=tuple(wanted_figure(text) for of, text in wants if of == id_),
            off=tuple(part_of(store, job_id, text).id for of, text in first if of == id_),
            by_shop=tuple(read_shop_part(text) for of, text in takes if of == id_),
        )
        for id_ in ids
    ]


@app.command()
def back(
    context: typer.Context,
    job: JOB,
    parts: PARTS,
    *,
    looked: Annotated[
        list[BackCheck] | None,
        typer.Option("--looked", help="What was looked at and found right, once for each."),
    ] = None,
    measured: Annotated[
        list[str] | None,
        typer.Option(metavar="PART:FIGURE", help='A figure measured: "12: bore 76.51".'),
    ] = None,
    note: Annotated[str, typer.Option(metavar="TEXT", help="What else is to be said.")] = "",
    decide: Annotated[
        bool, typer.Option("--decide", help="It is not as wanted: leave it to be decided.")
    ] = False,
    as_json: AS_JSON = False,
) -> None:
    """Check parts back in; what speaks against one is said, and what is not named stays away."""
    with context.obj.store() as store:
        job_id = services.jobs.find_job(store, job).id
        items = [_out(store, part_of(store, job_id, text)) for text in parts]
        figures = of_parts(store, job_id, measured or [], [one.removal.id for one in items])
        said = [
            Back(one.away.id, _seen(one, looked), _read(one, figures), note, decide)
            for one in items
        ]
        services.send_outs.back(store, said, who=context.obj.who)
        missing = _still_there(store, items)
    pairs = list(zip(said, items, strict=True))
    against = [one for pair in pairs for one in services.send_outs.against(*pair)]
    back_now = [item.called for item in items]
    data = {"back": back_now, "against": against, "still_away": missing}
    lines = [*(f"{called} is back." for called in back_now), *against]
    lines += [f"Still away: {', '.join(missing)}."] if missing else []
    answer(data, lines, as_json)


def _still_there(store: Store, items: Sequence[Item]) -> list[str]:
    """What went with the same send-outs and is not back."""
    went = dict.fromkeys(item.away.send_out_id for item in items)
    wholes = [services.send_outs.batch(store, id_) for id_ in went if id_ is not None]
    return [item.called for whole in wholes for item in whole.out]


def _seen(item: Item, looked: Sequence[BackCheck] | None) -> tuple[BackCheck, ...]:
    """Of what was looked at, what is looked at on this part."""
    return tuple(check for check in item.to_check if check in (looked or ()))


def _read(item: Item, figures: Sequence[tuple[int, str]]) -> tuple[Figure, ...]:
    """The figures that were given of this part."""
    return tuple(measured_figure(item, text) for of, text in figures if of == item.removal.id)


@app.command()
def took(
    context: typer.Context,
    job: JOB,
    part: Annotated[str, typer.Argument(metavar="PART", help="What is at the shop.")],
    what: Annotated[str, typer.Argument(metavar="WHAT", help='As "3 oil jets".')],
    as_json: AS_JSON = False,
) -> None:
    """Say what else the shop took off a part that is there, so that it comes back too."""
    with context.obj.store() as store:
        item = _out(store, part_of(store, services.jobs.find_job(store, job).id, part))
        piece, send_out_id = read_shop_part(what), item.away.send_out_id
        if send_out_id is None:
            raise BadInput(f"{item.called} went without a send-out. Log {piece.name} by itself.")
        services.send_outs.shop_took(
            store, send_out_id, item.removal.id, piece.name, piece.quantity, who=context.obj.who
        )
        whole = services.send_outs.batch(store, send_out_id)
    answer(batch_data(whole), batch_lines(whole), as_json)


@app.command()
def traveller(
    context: typer.Context,
    job: JOB,
    which: Annotated[str, typer.Argument(metavar="SEND-OUT", help="Its number, or its code.")],
    *,
    out: Annotated[Path, typer.Option("-o", "--out", metavar="FILE", help="The PDF to write.")],
    as_json: AS_JSON = False,
) -> None:
    """Write the traveller, the sheet that goes with a send-out to its shop, as a PDF."""
    with context.obj.store() as store:
        job_id = services.jobs.find_job(store, job).id
        whole = services.send_outs.find_send_out(store, job_id, which)
        pages = services.travellers.write(store, whole.id, out)
    data = {"send_out": whole.called, "file": str(out), "pages": pages}
    answer(data, [f"The traveller of {whole.called} is in {out}."], as_json)


def _out(store: Store, part: Removal) -> Item:
    """A part that is away now."""
    item = services.send_outs.out_now(store, part.id)
    if item is None:
        raise BadInput(f"{part.number} {part.name} is not away. Name the parts that are back.")
    return item
