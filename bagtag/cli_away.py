"""`away`: send parts to an outside shop, list what is there, check parts back in."""

import re
from collections.abc import Sequence
from datetime import date
from typing import Annotated

import typer

from bagtag import services
from bagtag.cli_answers import answer
from bagtag.cli_away_data import batch_data, batch_lines, late_data
from bagtag.domain import codes
from bagtag.domain.asked import figure
from bagtag.domain.days import late_words
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.measuring.figures import decimal
from bagtag.domain.model import Removal
from bagtag.domain.send_out import BackCheck
from bagtag.domain.sending import Back, Item, PackForm, ShopPart, Wanted
from bagtag.store.work import Store

app = typer.Typer(help="Send parts to an outside shop, and check them back in.")

JOB = Annotated[str, typer.Argument(metavar="JOB", help="The job: its number or its title.")]
PARTS = Annotated[
    list[str], typer.Argument(metavar="PART…", help="Parts: the number in the log, or a tag code.")
]
AS_JSON = Annotated[bool, typer.Option("--json", help="Answer in JSON, on standard output alone.")]
_OF_PART = re.compile(r"\s*(\S+?)\s*[:=]\s*(.*)", re.DOTALL)
_COUNTED = re.compile(r"(?:(\d{1,4})\s*(?:x|×)?\s+)?(.+)", re.IGNORECASE)
_FIGURE = re.compile(
    r"(?P<name>.+?),?\s+(?P<low>[-0-9.,]+)(?:\s+to\s+(?P<high>[-0-9.,]+))?\s*(?P<unit>\D*)"
)


@app.command(name="list")
def list_(context: typer.Context, job: JOB, as_json: AS_JSON = False) -> None:
    """List the send-outs of a job: what is out, what is back, what is late."""
    with context.obj.store() as store:
        known = services.send_outs.batches(store, services.jobs.find_job(store, job).id)
    lines = [line for one in known for line in batch_lines(one)]
    answer([batch_data(one) for one in known], lines or ["Nothing has gone away."], as_json)


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
    out: Annotated[str, typer.Option(metavar="DAY", help="Went out: 2026-11-25; today.")] = "",
    promised: Annotated[str, typer.Option(metavar="DAY", help="Promised for: 2026-12-04.")] = "",
    contact: Annotated[str, typer.Option(metavar="TEXT", help="Whom to ask there.")] = "",
    price: Annotated[str, typer.Option(metavar="FIGURE", help="The price named.")] = "",
    currency: Annotated[str, typer.Option(metavar="NAME", help="Of the price: EUR.")] = "",
    takes: Annotated[
        list[str],
        typer.Option(metavar="PART:WHAT", help='The shop takes this off it: "12: 3 oil jets".'),
    ] = [],  # noqa: B006  (read by the command line alone)
    wants: Annotated[
        list[str],
        typer.Option(metavar="PART:FIGURE", help='A figure wanted: "12: bore 76.50 to 76.52 mm".'),
    ] = [],  # noqa: B006
    as_json: AS_JSON = False,
) -> None:
    """Send parts away as one batch; say its code, and the codes of what the shop takes off."""
    out_on = _day(out, "out") if out else date.today()
    due = _day(promised, "promised") if promised else None
    form = PackForm(shop, out_on, due, contact=contact, price=price, currency=currency)
    with context.obj.store() as store:
        job_id = services.jobs.find_job(store, job).id
        wanted = _wanted(store, job_id, parts, work, (takes, wants))
        done = services.send_outs.send(store, job_id, form, wanted, who=context.obj.who)
        assert done.new_id is not None
        whole = services.send_outs.batch(store, done.new_id)
    answer(batch_data(whole), batch_lines(whole), as_json)


def _wanted(
    store: Store,
    job_id: int,
    parts: Sequence[str],
    work: str,
    said: tuple[Sequence[str], Sequence[str]],
) -> list[Wanted]:
    ids = [_part(store, job_id, text).id for text in parts]
    takes, wants = (_of_parts(store, job_id, some, ids) for some in said)
    return [
        Wanted(
            id_,
            work,
            asks=tuple(_asked(text) for of, text in wants if of == id_),
            by_shop=tuple(_shop_part(text) for of, text in takes if of == id_),
        )
        for id_ in ids
    ]


def _of_parts(
    store: Store, job_id: int, said: Sequence[str], ids: Sequence[int]
) -> list[tuple[int, str]]:
    """`12: 3 oil jets`, each with the part that it is said of."""
    found = []
    for text in said:
        match = _OF_PART.fullmatch(text)
        if match is None:
            raise BadInput(f"{text}: say of which part, for example: 12: 3 oil jets.")
        part = _part(store, job_id, match[1])
        if part.id not in ids:
            raise BadInput(f"{part.number} {part.name} is not among the parts named. Add it.")
        found.append((part.id, match[2]))
    return found


def _part(store: Store, job_id: int, text: str) -> Removal:
    """A part of the job by its number, or by the code on its tag."""
    try:
        return services.strip.find_removal(store, job_id, text)
    except NotFound:
        if not codes.is_valid(codes.bare(text)):
            raise
    found = services.tags.look_up(store, text)
    if found.removal_id is None or found.job_id != job_id:
        raise NotFound(f"{codes.show(found.tag.code)} is not the tag of a part of this job.")
    return services.strip.get_removal(store, found.removal_id)


def _shop_part(text: str) -> ShopPart:
    match = _COUNTED.fullmatch(text.strip())
    if match is None:
        raise BadInput("Say what the shop takes off, for example: 12: 3 oil jets.")
    return ShopPart(match[2], int(match[1] or 1))


def _asked(text: str) -> Asked:
    """`bore 76.50 to 76.52 mm`"""
    match = _FIGURE.fullmatch(text.strip())
    if match is None:
        raise BadInput(f"{text} is no figure. Write it like: 12: bore 76.50 to 76.52 mm.")
    low = float(decimal(match["low"]))
    high = float(decimal(match["high"])) if match["high"] else low
    return Asked(match["name"], match["unit"].strip(), low, high)


def _day(text: str, field: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise BadInput(f"{text} is no day. Write it as 2026-12-04.", field=field) from None


@app.command()
def back(
    context: typer.Context,
    job: JOB,
    parts: PARTS,
    *,
    looked: Annotated[
        list[BackCheck],
        typer.Option("--looked", help="What was looked at and found right, once for each."),
    ] = [],  # noqa: B006  (read by the command line alone)
    measured: Annotated[
        list[str],
        typer.Option(metavar="PART:FIGURE", help='A figure measured: "12: bore 76.51".'),
    ] = [],  # noqa: B006
    note: Annotated[str, typer.Option(metavar="TEXT", help="What else is to be said.")] = "",
    decide: Annotated[
        bool, typer.Option("--decide", help="It is not as wanted: leave it to be decided.")
    ] = False,
    as_json: AS_JSON = False,
) -> None:
    """Check parts back in; what speaks against one is said, and what is not named stays away."""
    with context.obj.store() as store:
        job_id = services.jobs.find_job(store, job).id
        items = [_out(store, _part(store, job_id, text)) for text in parts]
        figures = _of_parts(store, job_id, measured, [one.removal.id for one in items])
        said = [
            Back(
                item.away.id,
                tuple(check for check in item.to_check if check in looked),
                tuple(_measured(item, text) for of, text in figures if of == item.removal.id),
                note,
                decide,
            )
            for item in items
        ]
        services.send_outs.back(store, said, who=context.obj.who)
    pairs = list(zip(said, items, strict=True))
    against = [one for pair in pairs for one in services.send_outs.against(*pair)]
    data = {"back": [item.called for item in items], "against": against}
    answer(data, [*(f"{item.called} is back." for item in items), *against], as_json)


def _out(store: Store, part: Removal) -> Item:
    """A part that is away now."""
    away = next(
        (
            one
            for _, one in services.fates.away_list(store, part.job_id)
            if one.removal_id == part.id
        ),
        None,
    )
    if away is None:
        raise BadInput(f"{part.number} {part.name} is not away.")
    (item,) = services.send_outs.items(store, [away.id])
    return item


def _measured(item: Item, text: str) -> Figure:
    """`bore 76.51`, one of the figures that were wanted."""
    match = _FIGURE.fullmatch(text.strip())
    name = match["name"].strip() if match is not None else ""
    asked = next((one for one in item.away.asks if one.name.casefold() == name.casefold()), None)
    if match is None or asked is None:
        wanted = ", ".join(one.name for one in item.away.asks) or "none"
        raise BadInput(f"{text} is no figure wanted of {item.called}. Wanted: {wanted}.")
    return figure(asked, float(decimal(match["low"])))
