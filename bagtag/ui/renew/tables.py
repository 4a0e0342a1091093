"""A table that comes from elsewhere: a file that is dropped, or rows that were copied."""

from pathlib import Path

from PySide6.QtCore import QMimeData

FILTER = "Lists (*.csv *.tsv *.txt);;All files (*)"


def table_in(mime: QMimeData | None) -> Path | bytes | None:
    """A file that is dropped or copied, else the text of a table with more than one cell."""
    if mime is None:
        return None
    files = [Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile()]
    if files:
        return files[0]
    text = mime.text() if mime.hasText() else ""
    is_table = any(mark in text for mark in ("\t", ";", ",", "\n"))
    return text.encode("utf-8") if is_table else None
