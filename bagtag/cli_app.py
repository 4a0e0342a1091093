"""The commands of the terminal, each one use case."""

import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Annotated, Any

import typer

from bagtag import (
    __version__,
    cli_answers,
    cli_audit,
    cli_away,
    cli_close,
    cli_holding,
    cli_measure,
    cli_renew,
    cli_tools,
    cli_torque,
    cli_where,
)
from bagtag.cli_options import AS_JSON, JOB
from bagtag.cli_store import Bench
from bagtag.cli_window import Wanted, open_window
from bagtag.domain.errors import BadInput, NotFound, Trouble

DONE, NO, BAD = 0, 1, 2

app = typer.Typer(
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

app.add_typer(cli_torque.app, name="torque")
app.add_typer(cli_away.app, name="away")
app.add_typer(cli_measure.app, name="measure")


def run(arguments: Sequence[str]) -> int:
    """Run one command line; returns its exit status."""
    try:
        return app(list(arguments), prog_name="bagtag", standalone_mode=False) or DONE
    except NotFound as trouble:
        return _said(trouble.sentence, NO)
    except Trouble as trouble:
        return _said(trouble.sentence, BAD)
    except BrokenPipeError:  # whoever read the answer has had enough of it
        with suppress(OSError):
            sys.stdout.close()
        return NO
    except (KeyboardInterrupt, typer.Abort):
        return 130
    except Exception as wrong:
        # what the command line itself got wrong; its class moved between releases of the library
        if not hasattr(wrong, "format_message"):
            raise
        return _said(_usage(wrong), BAD)


def _said(sentence: str, status: int) -> int:
    sys.stderr.write(sentence + "\n")
    return status


def _usage(wrong: Any) -> str:
    said = " ".join(wrong.format_message().split()).rstrip(".")
    return f"{said}; bagtag --help lists what there is."


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"bagtag {__version__}")
        raise typer.Exit


@app.callback(invoke_without_command=True)
def bagtag(
    context: typer.Context,
    data_dir: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Keep the store in this folder.")
    ] = None,
    database: Annotated[
        str, typer.Option(metavar="URL", help="Use this store: sqlite:///FILE.")
    ] = "",
    demo: Annotated[
        bool, typer.Option("--demo", help="Open the demo job on a throw-away copy.")
    ] = False,
    version: Annotated[
        bool, typer.Option("--version", is_eager=True, callback=_version, help="Say the version.")
    ] = False,
) -> None:
    """Log what comes off, tag it, scan it, and build it back in an order that works.

    Without a command, the window opens. The maker's manual overrides every figure.
    """
    if data_dir is not None and database:
        raise BadInput("Give either --data-dir or --database, not both.")
    if demo and context.invoked_subcommand:
        raise BadInput("--demo opens the window; to write the demo job use: bagtag demo.")
    wanted = Wanted(data_dir, database, demo)
    if context.invoked_subcommand is None:
        raise typer.Exit(open_window(wanted))
    context.obj = Bench(wanted)


@app.command()
def demo(context: typer.Context, as_json: AS_JSON = False) -> None:
    """Write the demo job, a walking tractor half way through its build, into the store."""
    with context.obj.store() as store:
        cli_answers.say_demo(store, context.obj.who, as_json)


@app.command()
def new(
    context: typer.Context,
    machine: Annotated[str, typer.Argument(metavar="MACHINE", help="What is taken apart.")],
    purpose: Annotated[str, typer.Option("--for", metavar="PURPOSE", help="What for.")] = "",
    as_json: AS_JSON = False,
) -> None:
    """Open a job; its number is what the other commands call it by."""
    with context.obj.store() as store:
        cli_answers.say_new(store, machine, purpose, context.obj.who, as_json)


@app.command()
def jobs(context: typer.Context, as_json: AS_JSON = False) -> None:
    """List the jobs: how many lines are off, back and away."""
    with context.obj.store() as store:
        cli_answers.say_jobs(store, as_json)


@app.command()
def log(
    context: typer.Context,
    job: JOB,
    line: Annotated[str, typer.Argument(metavar="LINE", help="As you would write it on tape.")],
    as_json: AS_JSON = False,
) -> None:
    """Log the next removal from a line as written on masking tape."""
    with context.obj.store() as store:
        cli_answers.say_log(store, job, line, context.obj.who, as_json)


@app.command()
def labels(
    context: typer.Context,
    *,
    out: Annotated[Path, typer.Option("-o", "--out", metavar="FILE", help="The PDF to write.")],
    job: Annotated[
        str, typer.Argument(metavar="[JOB]", help="The job: its number or its title.")
    ] = "",
    blank: Annotated[
        int | None, typer.Option(metavar="N", help="N blank tags, bound on their first scan.")
    ] = None,
    stock: Annotated[str, typer.Option(metavar="NAME", help="The label stock.")] = "a4-3x7",
    start: Annotated[
        int, typer.Option(metavar="N", help="The first free place on a part-used sheet.")
    ] = 1,
    dpi: Annotated[int, typer.Option(metavar="N", help="The printer's dots per inch.")] = 300,
    as_json: AS_JSON = False,
) -> None:
    """Write the labels of a job, or blank tags, as one PDF."""
    if (blank is None) == (not job):
        raise BadInput("Say whose labels: a JOB, or --blank N for tags to bind later.")
    sheet = cli_answers.Sheet(out, stock, start, dpi)
    with context.obj.store() as store:
        if blank is None:
            cli_answers.say_labels(store, job, sheet, context.obj.who, as_json)
        else:
            cli_answers.say_blanks(store, blank, sheet, context.obj.who, as_json)


@app.command()
def where(
    context: typer.Context,
    asked: Annotated[
        list[str],
        typer.Argument(metavar="CODE|PICTURE…", help="Tag codes, or pictures that show tags."),
    ],
    as_json: AS_JSON = False,
) -> None:
    """Say what a tag belongs to, where it lies, which way it sat and whether it can go in now."""
    with context.obj.store() as store:
        raise typer.Exit(cli_where.say_where(store, asked, as_json))


@app.command()
def build(
    context: typer.Context,
    job: JOB,
    *,
    pdf: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the checklist as a PDF too.")
    ] = None,
    area: Annotated[
        str, typer.Option(metavar="AREA", help="The PDF has only this area and those below it.")
    ] = "",
    by_area: Annotated[
        bool, typer.Option("--by-area", help="The PDF has a section for each area.")
    ] = False,
    as_json: AS_JSON = False,
) -> None:
    """List the build of a job, in the order parts go back."""
    with context.obj.store() as store:
        sheet = cli_answers.Checklist(pdf, area, by_area)
        cli_answers.say_build(store, job, sheet, as_json)


@app.command()
def close(context: typer.Context, job: JOB, as_json: AS_JSON = False) -> None:
    """Count a job up: off = back + renewed + scrapped; exit 1 when it does not add up."""
    with context.obj.store() as store:
        raise typer.Exit(DONE if cli_close.say_close(store, job, as_json) else NO)


@app.command()
def tools(
    context: typer.Context,
    job: JOB,
    *,
    area: Annotated[
        str, typer.Option(metavar="AREA", help="For this area and those below it alone.")
    ] = "",
    steps: Annotated[
        int | None, typer.Option("--next", metavar="N", help="The next N that can go in now.")
    ] = None,
    pdf: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the list as a PDF too.")
    ] = None,
    as_json: AS_JSON = False,
) -> None:
    """List what to lay out for what is still to fit, and what is out and not counted back."""
    with context.obj.store() as store:
        cli_tools.say_tools(store, job, cli_tools.ToolsAsked(area, steps, pdf), as_json)


@app.command()
def renew(
    context: typer.Context,
    job: JOB,
    *,
    csv: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the lines as a table (CSV) too.")
    ] = None,
    parted_by: Annotated[
        str, typer.Option(metavar="MARK", help="In the table: comma, semicolon or tab.")
    ] = "comma",
    read: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Read lines from a table (CSV) first.")
    ] = None,
    only_try: Annotated[
        bool, typer.Option("--try", help="Say what reading would do, and write nothing.")
    ] = False,
    as_json: AS_JSON = False,
) -> None:
    """List what is renewed: why, from whom, where each new part stands, where the old one is."""
    asked = cli_renew.RenewAsked(csv, read, parted_by, only_try)
    with context.obj.store() as store:
        cli_renew.say_renew(store, job, asked, context.obj.who, as_json)


@app.command()
def orders(
    context: typer.Context,
    jobs: Annotated[
        list[str], typer.Argument(metavar="JOB…", help="The jobs: their numbers or titles.")
    ],
    *,
    everything: Annotated[
        bool, typer.Option("--all", help="What is ordered and here too, not only what is wanted.")
    ] = False,
    pdf: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the list as a PDF too.")
    ] = None,
    as_json: AS_JSON = False,
) -> None:
    """List what is to be bought for one job or several, by supplier, equal lines as one."""
    with context.obj.store() as store:
        cli_renew.say_orders(store, jobs, cli_renew.OrdersAsked(everything, pdf), as_json)


@app.command()
def holding(context: typer.Context, job: JOB, as_json: AS_JSON = False) -> None:
    """Say what is holding a job up: what to chase first, and from which day what can go in."""
    with context.obj.store() as store:
        cli_holding.say_holding(store, job, as_json)


@app.command()
def audit(
    context: typer.Context,
    job: JOB,
    pdf: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the audit as a PDF too.")
    ] = None,
    as_json: AS_JSON = False,
) -> None:
    """Say what is missing before the bench is cleared, worst first; exit 1 when something is."""
    with context.obj.store() as store:
        raise typer.Exit(DONE if cli_audit.say_audit(store, job, pdf, as_json) else NO)


@app.command()
def kinds(
    context: typer.Context,
    word: Annotated[str, typer.Argument(metavar="[WORD]", help="A kind, or part of a name.")] = "",
    as_json: AS_JSON = False,
) -> None:
    """List the kinds of parts that are known, or say all that is known of one."""
    with context.obj.store() as store:
        cli_audit.say_kinds(store, word, as_json)


@app.command()
def check(context: typer.Context, as_json: AS_JSON = False) -> None:
    """Say whether the store is whole: database, journal, search index, tags, files, builds."""
    with context.obj.store() as store:
        raise typer.Exit(DONE if cli_answers.say_check(store, as_json) else NO)
