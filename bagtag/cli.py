"""The terminal: `bagtag` opens the window, `bagtag COMMAND` does one use case and answers.

Exit status: 0 for yes or done, 1 for no or not found, 2 for bad input or a store that cannot be
opened or written. What went wrong is one sentence on standard error.
"""

import sys
from collections.abc import Sequence
from pathlib import Path

from bagtag.cli_window import Wanted, open_window


def main(arguments: Sequence[str] | None = None) -> None:
    """Run what the command line asks for and leave with its status."""
    given = sys.argv[1:] if arguments is None else list(arguments)
    wanted = _window_only(given)
    if wanted is not None:
        sys.exit(open_window(wanted))
    from bagtag import cli_app

    sys.exit(cli_app.run(given))


def _window_only(given: Sequence[str]) -> Wanted | None:
    """What a command line asks for that only opens the window; then nothing else is imported."""
    wanted, rest = Wanted(), list(given)
    while rest:
        match rest:
            case ["--demo", *rest]:
                wanted.demo = True
            case ["--data-dir", folder, *rest] if folder[:1] != "-":
                wanted.data_dir = Path(folder)
            case ["--database", url, *rest] if url[:1] != "-":
                wanted.database = url
            case _:
                return None
    both = wanted.data_dir is not None and wanted.database
    return None if both else wanted
