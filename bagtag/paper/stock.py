"""Label stock: what is in the printer, in plain millimetres."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from bagtag import resources
from bagtag.domain.errors import BadInput
from bagtag.paper import stock_file
from bagtag.paper.stock_sizes import Hole, Stock

__all__ = ["Cell", "Hole", "Stock", "cells", "find", "stocks"]

FILE = "label_stock.toml"


@dataclass(frozen=True, slots=True)
class Cell:
    """Where one label lies: page from 0, left and top edge from the page's top left, in mm."""

    page: int
    x: float
    y: float


def cells(
    stock: Stock, count: int, *, start: int = 1, nudge: tuple[float, float] = (0.0, 0.0)
) -> Iterator[Cell]:
    """The places of `count` labels, row by row, from position `start` of the first page on.

    `nudge` moves all of them right and down, in mm. BadInput when the page has no such position.
    """
    _check_start(stock, start)
    for position in range(start - 1, start - 1 + count):
        page, on_page = divmod(position, stock.per_page)
        row, column = divmod(on_page, stock.columns)
        yield Cell(
            page,
            stock.margin_left + column * (stock.label_width + stock.gap_x) + nudge[0],
            stock.margin_top + row * (stock.label_height + stock.gap_y) + nudge[1],
        )


def _check_start(stock: Stock, start: int) -> None:
    if not 1 <= start <= stock.per_page:
        raise BadInput(
            f"{stock.title} has no position {start}: count from 1 to {stock.per_page}, "
            "row by row from the top left.",
            field="start",
        )


def find(name: str) -> Stock:
    """The stock called `name`, or BadInput that lists the names there are."""
    known = stocks()
    if name not in known:
        raise BadInput(
            f"There is no label stock {name!r}. Choose one of {', '.join(known)}.", field="stock"
        )
    return known[name]


@cache
def stocks() -> Mapping[str, Stock]:
    """Every stock that comes with the program, by name, in the file's order."""
    return stock_file.load(resources.find(FILE))
