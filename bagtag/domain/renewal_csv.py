"""Lines to renew as a table for a spreadsheet: RFC 4180, with cells that do nothing.

A cell that begins with a sign that a spreadsheet takes for a formula is written with an apostrophe
before it, and read back without (the signs: OWASP, CSV Injection; from memory).
"""

import csv
import re
from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from io import StringIO

from bagtag.domain.renewals import RenewLine

COLUMNS = (
    "what",
    "size",
    "part number",
    "count",
    "supplier",
    "price",
    "currency",
    "state",
    "ordered",
    "due",
    "arrived",
    "for",
    "step",
    "job",
    "note",
)
"""The first six are in the order in which a table without a header is read."""

_FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")


def harmless(text: str) -> str:
    """The same with an apostrophe before it where a spreadsheet would reckon with it."""
    return f"'{text}" if _FORMULA.match(text) else text


def as_meant(cell: str) -> str:
    """A cell without the apostrophe that made it harmless."""
    return cell[1:] if cell[:1] == "'" and _FORMULA.match(cell) else cell


def write(rows: Iterable[tuple[RenewLine, str]], delimiter: str = ",") -> bytes:
    """The table with its header, lines ending in CR LF, in UTF-8 with a byte order mark, without
    which spreadsheets guess. Each line comes with the title of its job. Where a semicolon parts
    the cells, prices have a decimal comma, as those spreadsheets do."""
    text = StringIO(newline="")
    writer = csv.writer(text, delimiter=delimiter, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows(_cells(line, job, delimiter) for line, job in rows)
    return text.getvalue().encode("utf-8-sig")


def _cells(line: RenewLine, job: str, delimiter: str) -> Iterator[str]:
    part = line.new_part
    price = _money(part.price, delimiter)
    head = (part.what, part.size, part.part_number, str(part.count), part.supplier, price)
    days = (_day(part.ordered_on), _day(part.due), str(part.arrived))
    step = str(line.step) if line.step else ""
    tail = (part.currency, line.state.value, *days, line.before, step, job, part.note)
    return map(harmless, (*head, *tail))


def _day(when: date | None) -> str:
    return when.isoformat() if when else ""


def _money(price: Decimal | None, delimiter: str) -> str:
    """With three decimals a fourth, so that nobody takes the point for one that parts thousands."""
    said = "" if price is None else f"{price:f}"
    said += "0" if price is not None and price.as_tuple().exponent == -3 else ""
    return said.replace(".", ",") if delimiter == ";" else said
