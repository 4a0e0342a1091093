"""Reading a table of lines to renew: every line that can be taken, and what is wrong with others,
one sentence for each kind of trouble."""

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from bagtag.domain.clean import MOST, NAME_LIMIT, NOTE_LIMIT, TEXT_LIMIT, tidied
from bagtag.domain.errors import BadInput
from bagtag.domain.money import currency
from bagtag.domain.renewal_check import read_price
from bagtag.domain.renewal_csv_form import Table, at_lines, table

_COUNT = re.compile(r"(\d{1,9})(?:[.,]0+)?(?: ?(?:x|×|off|pcs\.?|pieces?))?", re.IGNORECASE)
LIMITS = {
    "what": NAME_LIMIT,
    "size": TEXT_LIMIT,
    "part number": TEXT_LIMIT,
    "supplier": NAME_LIMIT,
    "note": NOTE_LIMIT,
    "for": TEXT_LIMIT,
}
NO_NAME = "{lines}: nothing says what is bought. {They} left out."
NO_COUNT = (
    f"{{lines}}: the count is no whole number from 1 to {MOST}. {{They}} left out; correct the "
    "count and read the file again."
)
NO_PRICE = "{lines}: the price is no sum of money. {They} taken without one."
NO_DAY = "{lines}: the day it is due is not written as 2026-11-25. {They} taken without one."
TOO_LONG = "{lines}: a text is too long. {They} left out; shorten it."
FORMULA = "{lines}: a cell begins as a formula would. It is taken as text and reckons nothing."


@dataclass(frozen=True, slots=True)
class CsvRow:
    """One line of a file. `line` is its number there; `count` is None where the file says none,
    and a text is empty. `for_` names the part that the line is for, as lists call it."""

    line: int
    what: str
    size: str = ""
    part_number: str = ""
    count: int | None = None
    supplier: str = ""
    price: Decimal | None = None
    currency: str = ""
    due: date | None = None
    note: str = ""
    for_: str = ""


@dataclass(frozen=True, slots=True)
class CsvRead:
    """A file as it was read. `delimiter` is what parts its cells; `header` whether it says itself
    which column is what; `troubles` has one sentence for each kind of trouble, with its lines."""

    rows: tuple[CsvRow, ...] = ()
    delimiter: str = ","
    encoding: str = "UTF-8"
    header: bool = False
    troubles: tuple[str, ...] = ()


def read(data: bytes) -> CsvRead:
    """What a file says. BadInput where it is no table at all."""
    found = table(data)
    reading = _Reading(found)
    rows = tuple(filter(None, map(reading.row, found.records)))
    troubles = (*found.troubles, *reading.told())
    return CsvRead(rows, found.delimiter, found.encoding, found.header, troubles)


@dataclass(slots=True)
class _Reading:
    """Takes record by record and gathers what is wrong, by kind."""

    table: Table
    wrong: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))

    def row(self, record: tuple[int, list[str]]) -> CsvRow | None:
        line, cells = record
        said = {name: cells[at] for name, at in self.table.columns.items() if at < len(cells)}
        texts = {name: tidied(said.get(name, ""), lines=name == "note") for name in LIMITS}
        count = self._count(line, said)
        if not self._is_good(line, texts) or count == _BAD:
            return None
        if any(text[:1] == "=" for text in texts.values()):
            self.wrong[FORMULA].append(line)
        price, money = self._price(line, said)
        return CsvRow(
            line=line,
            what=texts["what"],
            size=texts["size"],
            part_number=texts["part number"],
            count=count,
            supplier=texts["supplier"],
            price=price,
            currency=money,
            due=self._due(line, said),
            note=texts["note"],
            for_=texts["for"],
        )

    def _is_good(self, line: int, texts: Mapping[str, str]) -> bool:
        if not texts["what"]:
            self.wrong[NO_NAME].append(line)
            return False
        if any(len(texts[name]) > limit for name, limit in LIMITS.items()):
            self.wrong[TOO_LONG].append(line)
            return False
        return True

    def _count(self, line: int, said: Mapping[str, str]) -> int | None:
        text = said.get("count", "")
        if not text:
            return None
        match = _COUNT.fullmatch(text)
        count = int(match[1]) if match else 0
        if 1 <= count <= MOST:
            return count
        self.wrong[NO_COUNT].append(line)
        return _BAD

    def _price(self, line: int, said: Mapping[str, str]) -> tuple[Decimal | None, str]:
        try:
            price, money = read_price(said.get("price", ""))
            return price, money or currency(said.get("currency", ""))
        except BadInput:
            self.wrong[NO_PRICE].append(line)
            return None, ""

    def _due(self, line: int, said: Mapping[str, str]) -> date | None:
        text = said.get("due", "")
        if not text:
            return None
        try:
            return date.fromisoformat(text)
        except ValueError:
            self.wrong[NO_DAY].append(line)
            return None

    def told(self) -> tuple[str, ...]:
        return tuple(_sentence(words, lines) for words, lines in self.wrong.items())


_BAD = -1
"""A count that cannot be taken."""


def _sentence(words: str, lines: Sequence[int]) -> str:
    they = "They are" if len(lines) > 1 else "It is"
    return words.format(lines=at_lines(lines), They=they)
