"""Reading label_stock.toml, and naming the line that is wrong."""

import math
import re
import tomllib
from pathlib import Path
from typing import Any, NoReturn

from bagtag.domain.errors import BadInput
from bagtag.paper.stock_sizes import Hole, Stock


def load(path: Path) -> dict[str, Stock]:
    """The stocks in a file; BadInput names the line that is wrong and what belongs there."""
    text = path.read_text(encoding="utf-8")
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        raise BadInput(f"{path.name} cannot be read: {wrong}.") from wrong
    return {name: _Reader(path.name, text, name, table).stock() for name, table in tables.items()}


_SHAPES = {
    "title": "a text",
    "form": '"roll" or "sheet"',
    "page": "[width, height] in mm",
    "grid": "[columns, rows]",
    "label": "[width, height] in mm",
    "gap": "[between columns, between rows] in mm",
    "margin": "[left, top] in mm",
    "hole": "[from the left, from the top, diameter] in mm",
    "feed": "a text",
}


class _Reader:
    """Reads one table of the file and knows the line to blame."""

    def __init__(self, file: str, text: str, name: str, table: Any) -> None:
        self.file, self.lines, self.name = file, text.splitlines(), name
        self.table = table if isinstance(table, dict) else self._wrong(name, "a table")

    def stock(self) -> Stock:
        self._check_keys()
        page, grid = self._lengths("page"), self._grid()
        label = self._lengths("label", page)
        gap, margin = self._lengths("gap", [0, 0]), self._lengths("margin", [0, 0])
        stock = Stock(
            name=self.name,
            title=self._text("title"),
            roll=self._roll(),
            page_width=page[0],
            page_height=page[1],
            columns=grid[0],
            rows=grid[1],
            label_width=label[0],
            label_height=label[1],
            gap_x=gap[0],
            gap_y=gap[1],
            margin_left=margin[0],
            margin_top=margin[1],
            hole=self._hole(),
            feed=self._text("feed", ""),
        )
        self._check_fits(stock)
        return stock

    def _check_keys(self) -> None:
        for key in self.table:
            if key not in _SHAPES:
                self._blame(key, f"{key!r} is no entry of a label stock; use {', '.join(_SHAPES)}")

    def _text(self, key: str, default: str | None = None) -> str:
        value = self.table.get(key, default)
        return value if isinstance(value, str) else self._wrong(key)

    def _roll(self) -> bool:
        form: object = self.table.get("form")
        return form == "roll" if form in {"roll", "sheet"} else self._wrong("form")

    def _lengths(self, key: str, default: list[float] | None = None, count: int = 2) -> list[float]:
        value = self.table.get(key, default)
        if not isinstance(value, list) or len(value) != count or not all(map(_is_length, value)):
            self._wrong(key)
        if key in {"page", "label", "hole"} and 0 in value:
            self._wrong(key)
        return [float(length) for length in value]

    def _grid(self) -> list[int]:
        columns, rows = self._lengths("grid", [1, 1])
        if columns < 1 or rows < 1 or columns % 1 or rows % 1:
            self._wrong("grid")
        return [int(columns), int(rows)]

    def _hole(self) -> Hole | None:
        return Hole(*self._lengths("hole", count=3)) if "hole" in self.table else None

    def _check_fits(self, stock: Stock) -> None:
        """A grid wider or higher than its page would print labels into the void."""
        across = _reach(stock.margin_left, stock.columns, stock.label_width, stock.gap_x)
        down = _reach(stock.margin_top, stock.rows, stock.label_height, stock.gap_y)
        if across > stock.page_width + 0.01:
            self._blame("page", f"the labels reach to {across:g} mm, past the page's width")
        if down > stock.page_height + 0.01:
            self._blame("page", f"the labels reach to {down:g} mm, past the page's height")

    def _wrong(self, key: str, shape: str = "") -> NoReturn:
        self._blame(key, f"{key} must be {shape or _SHAPES[key]}")

    def _blame(self, key: str, what: str) -> NoReturn:
        raise BadInput(f"{self.file}, line {self._line(key)}: in [{self.name}], {what}.")

    def _line(self, key: str) -> int:
        """The line of `key` in this table, else of the table's head."""
        head = rf"\s*\[\s*[\"']?{re.escape(self.name)}[\"']?\s*\]"
        top = next((i for i, line in enumerate(self.lines, 1) if re.match(head, line)), 1)
        for number, line in enumerate(self.lines[top:], top + 1):
            if line.lstrip().startswith("["):
                break
            if re.match(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=", line):
                return number
        return top


def _is_length(value: Any) -> bool:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return math.isfinite(value) and value >= 0


def _reach(margin: float, count: int, size: float, gap: float) -> float:
    return margin + count * size + (count - 1) * gap
