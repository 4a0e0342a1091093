"""What several commands take, said once: the job, and the wish for an answer in JSON."""

from typing import Annotated

import typer

JOB = Annotated[str, typer.Argument(metavar="JOB", help="The job: its number or its title.")]
AS_JSON = Annotated[bool, typer.Option("--json", help="Answer in JSON, on standard output alone.")]
