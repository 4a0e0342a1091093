"""How a table of lines to renew lies in a file: its letters, what parts its cells, its header."""

import codecs
import csv
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from io import StringIO
from itertools import islice

from bagtag.domain.errors import BadInput
from bagtag.domain.kinds import fold
from bagtag.domain.phrases import spanned
from bagtag.domain.renewal_csv import as_meant

MOST_BYTES = 100_000_000
MOST_CELL = 1_000_000
MOST_BREAKS = 20
"""How many line breaks one cell may have, in a file whose quotation marks are not in order."""
NAMED = 10
"""How many lines a sentence names by number."""
LOOKED_AT = 200
"""How many lines tell what parts the cells."""
DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab"}
HEADS: Mapping[str, str] = {
    head: column
    for column, heads in {
        "what": "what, part, parts, name, item, description, designation, article, part name",
        "size": "size, dimension, dimensions",
        "part number": "part number, part no, part no., article number, order number, p/n, pn",
        "count": "count, quantity, qty, pieces, pcs, number off, amount",
        "supplier": "supplier, from, shop, dealer, source, vendor",
        "price": "price, price each, unit price, each, cost, price per piece",
        "currency": "currency",
        "due": "due, due on, expected",
        "note": "note, notes, remark, remarks, comment",
        "for": "for, needed for, goes with",
        "job": "job",
        "state": "state",
        "ordered": "ordered, ordered on",
        "arrived": "arrived",
        "step": "step",
    }.items()
    for head in heads.split(", ")
}
MAY_BE_NUMBER = ("number", "no", "no.", "reference", "ref")
"""Heads of the part number where no other column is that; else lines are counted in it."""
WITHOUT = ("what", "size", "part number", "count", "supplier", "price")
"""The columns of a table without a header."""

_HINT = re.compile(r"sep=([,;\t])\r?\n")
Record = tuple[int, list[str]]


@dataclass(frozen=True, slots=True)
class Table:
    """A file taken apart: `records` have the number of their first line, from 1; `columns` says
    which cell is what; `header` whether the file said so itself."""

    records: Sequence[Record]
    columns: Mapping[str, int]
    delimiter: str
    encoding: str
    header: bool
    troubles: tuple[str, ...] = ()


def table(data: bytes) -> Table:
    """The file as a table; BadInput for what is none."""
    if len(data) > MOST_BYTES:
        raise BadInput("This file is larger than 100 MB. Take out what is no order list.")
    text, encoding, troubles = _text(data)
    text, skipped, delimiter = _parting(text)
    records, more = _records(text, delimiter, skipped)
    if not records:
        raise BadInput("This file has no line in it. Choose another one, or save it again.")
    header = _header(records[0][1])
    columns = header or {column: at for at, column in enumerate(WITHOUT)}
    rest = records[1:] if header else records
    return Table(rest, columns, delimiter, encoding, bool(header), (*troubles, *more))


def mark_of(said: str) -> str:
    """What parts the cells, said by itself or by its word (`semicolon`); BadInput for others."""
    for mark, word in DELIMITERS.items():
        if said in (mark, word):
            return mark
    named = ", ".join(DELIMITERS.values())
    raise BadInput(f"Cells are parted by one of these: {named}.", field="delimiter")


def _text(data: bytes) -> tuple[str, str, tuple[str, ...]]:
    """UTF-8 with or without a byte order mark, UTF-16 with one, else Windows-1252."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return _whole(data.decode("utf-16", "replace")), "UTF-16", ()
    if b"\x00" in data or data.startswith((b"PK\x03\x04", b"%PDF")):
        raise BadInput(
            "This is no table of text. Save the sheet as CSV in the spreadsheet and choose that."
        )
    try:
        return _whole(data.decode("utf-8-sig")), "UTF-8", ()
    except UnicodeDecodeError:
        text = data.decode("cp1252", "replace")
    lines = [n for n, line in enumerate(text.split("\n"), 1) if "\ufffd" in line]
    unread = f"{at_lines(lines)}: some letters cannot be read. Save the file as UTF-8."
    return _whole(text), "Windows-1252", (unread,) if lines else ()


def _whole(text: str) -> str:
    """Line ends as one (a lone CR too), and no byte order mark that somebody took for letters."""
    return text.removeprefix("ï»¿").replace("\r\n", "\n").replace("\r", "\n")


def at_lines(lines: Sequence[int]) -> str:
    """`Line 4`, `Lines 4, 6–9 and 311 more`: the first few by number, the rest counted."""
    named = lines[:NAMED]
    rest = len(lines) - len(named)
    more = f" and {rest:,} more" if rest else ""
    return f"Line{'s' * (len(lines) > 1)} {spanned(named)}{more}"


def _parting(text: str) -> tuple[str, int, str]:
    """What parts the cells, and the text without the line that says so in some files."""
    hint = _HINT.match(text)
    if hint is not None:
        return text[hint.end() :], 1, hint[1]
    head = text if len(text) < 400_000 else text[: text.rfind("\n", 0, 400_000) + 1]
    return text, 0, max(DELIMITERS, key=lambda mark: _fits(head, mark))


def _fits(text: str, delimiter: str) -> tuple[int, float, int]:
    """How well a mark parts the cells: heads that are known, lines of one width, width."""
    rows = [cells for _, cells in _some(text, delimiter) if any(cells)]
    if not rows:
        return 0, 0.0, 0
    width, alike = Counter(len(cells) for cells in rows).most_common(1)[0]
    known = len(_header(rows[0])) if width > 1 else 0
    return known, alike / len(rows) if width > 1 else 0.0, width


def _some(text: str, delimiter: str) -> list[Record]:
    found: list[Record] = []
    with suppress(csv.Error):  # a cell without an end: what was read until then tells enough
        found.extend(islice(_reading(text, delimiter), LOOKED_AT))
    return found


def _reading(text: str, delimiter: str, *, strict: bool = False) -> Iterator[Record]:
    csv.field_size_limit(MOST_CELL)
    reader = csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=strict)
    start = 1
    for cells in reader:
        yield start, cells
        start = reader.line_num + 1


def _records(text: str, delimiter: str, skipped: int) -> tuple[list[Record], tuple[str, ...]]:
    """Every record that is not empty. A quotation mark that is not as it should be is taken as it
    stands, and told; one that never closes would swallow the rest, and is BadInput."""
    found: list[Record] = []
    try:
        found.extend(_reading(text, delimiter, strict=True))
    except csv.Error as wrong:
        line = _after(found) + skipped
        if "expected after" not in str(wrong):
            raise _never_closed(line) from wrong
        return _as_it_goes(text, delimiter, skipped), (
            f"Line {line}: a quotation mark inside a cell is not written twice. "
            "It was read as well as it goes; look at that line.",
        )
    return _kept(found, skipped), ()


def _after(found: Sequence[Record]) -> int:
    """The first line of the record behind these."""
    if not found:
        return 1
    start, cells = found[-1]
    return start + 1 + sum(cell.count("\n") for cell in cells)


def _as_it_goes(text: str, delimiter: str, skipped: int) -> list[Record]:
    found: list[Record] = []
    try:
        found.extend(_reading(text, delimiter))
    except csv.Error as wrong:
        raise _never_closed(_after(found) + skipped) from wrong
    for start, cells in found:
        if any(cell.count("\n") > MOST_BREAKS for cell in cells):
            raise _never_closed(start + skipped)
    return _kept(found, skipped)


def _never_closed(line: int) -> BadInput:
    return BadInput(
        f"A quotation mark that opens a cell in line {line} is never closed. Correct that line "
        "and choose the file again."
    )


def _kept(found: Sequence[Record], skipped: int) -> list[Record]:
    """Those that say something, their cells without the apostrophe that made them harmless."""
    return [
        (start + skipped, [as_meant(cell).strip() for cell in cells])
        for start, cells in found
        if any(cell.strip() for cell in cells)
    ]


def _header(cells: Sequence[str]) -> dict[str, int]:
    """Which cell is what, where these cells are heads: the name must be among them, and most of
    them known. Of two heads for one column the first holds."""
    heads = [fold(cell) for cell in cells]
    found: dict[str, int] = {}
    for at, head in enumerate(heads):
        if head in HEADS:
            found.setdefault(HEADS[head], at)
    known = sum(head in HEADS or head in MAY_BE_NUMBER for head in heads)
    if "what" not in found or 2 * known < sum(map(bool, heads)):
        return {}
    numbers = [at for at, head in enumerate(heads) if head in MAY_BE_NUMBER]
    return ({"part number": numbers[0]} if numbers else {}) | found
