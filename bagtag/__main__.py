"""`python -m bagtag` is `bagtag`."""

from bagtag.cli import main

main()
