"""A table that comes from elsewhere: a file that is dropped, or rows that were copied."""

from pathlib import Path

from PySide6.QtCore import QMimeData

from bagtag.ui.forms.dropped import files_in

FILTER = "Lists (*.csv *.tsv *.txt);;All files (*)"


def table_in(mime: QMimeData | None, *, wanted: bool = False) -> Path | bytes | None:
    """A file that is dropped or copied, else the text of a table. Where a table is `wanted`, any
    text that could be one; elsewhere a sentence with a comma in it is left alone."""
    if mime is None:
        return None
    files = files_in(mime)
    if files:
        return files[0]
    text = mime.text() if mime.hasText() else ""
    is_table = _could_be(text) if wanted else _is_sure(text)
    return text.encode("utf-8") if is_table else None


def _could_be(text: str) -> bool:
    return any(mark in text for mark in "\t;,\n")


def _is_sure(text: str) -> bool:
    """Rows of a spreadsheet have tabs between their cells; those of a file the same mark each."""
    rows = [row for row in text.splitlines() if row.strip()]
    alike = len(rows) > 1 and any(all(mark in row for row in rows) for mark in ";,")
    return "\t" in text or alike
