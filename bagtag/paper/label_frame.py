"""Where the symbol of a label goes, in printer dots, and what room it leaves for words."""

from dataclasses import dataclass
from functools import lru_cache

from bagtag.domain.errors import BadInput
from bagtag.paper.label_column import BENCH_CAP, SMALL_CAP
from bagtag.paper.qr import INCH_MM, QUIET, SIZE, module_dots
from bagtag.paper.stock import Stock

EDGE = 1.5
"""Nothing but white this near to the label's edge, in mm: printers and knives wander."""


AIR = 0.4
"""Between the quiet zone and what stands below it, in mm: l and b are higher than capitals."""


@dataclass(frozen=True, slots=True)
class Box:
    """Part of a label, in mm from its top left corner."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Symbol:
    """The symbol's top left corner and its module, in printer dots."""

    dpi: int
    x: int
    y: int
    module: int

    def mm(self, dots: int) -> float:
        return dots * INCH_MM / self.dpi

    @property
    def left(self) -> float:
        """Where the black begins, in mm."""
        return self.mm(self.x)

    @property
    def right(self) -> float:
        """Where the quiet zone ends, in mm."""
        return self.mm(self.x + (SIZE + QUIET) * self.module)

    @property
    def bottom(self) -> float:
        """Where the quiet zone ends, in mm."""
        return self.mm(self.y + (SIZE + QUIET) * self.module)


@dataclass(frozen=True, slots=True)
class Frame:
    """The symbol, and the boxes left for words: `foot` below a symbol with room under it, `body`
    on an upright label."""

    symbol: Symbol
    side: Box
    foot: Box | None = None
    body: Box | None = None


@lru_cache(maxsize=64)
def frame_of(stock: Stock, dpi: int) -> Frame:
    """The symbol at the left; on an upright label, or with room below it, at the top left."""
    left = 0.0 if stock.hole is None else stock.hole.x + stock.hole.diameter / 2 + 1
    module = _module(stock, min(stock.label_width - left, stock.label_height), dpi)
    dot = INCH_MM / dpi
    below = stock.label_height - (SIZE + 2 * QUIET) * module * dot
    upright = stock.label_height > stock.label_width
    with_foot = not upright and below - EDGE - AIR >= 2 * SMALL_CAP
    top = 0.0 if upright or with_foot else below / 2
    quiet = QUIET * module
    symbol = Symbol(dpi, round(left / dot) + quiet, round(top / dot) + quiet, module)
    if upright:
        return Frame(symbol, _side(symbol, stock, symbol.bottom), body=_body(symbol, stock))
    side = _side(symbol, stock, stock.label_height)
    return Frame(symbol, side, foot=_foot(symbol, stock) if with_foot else None)


def _module(stock: Stock, room: float, dpi: int) -> int:
    module = module_dots(dpi, room)
    if module < 1 or dpi < 100:
        raise BadInput(
            f"{stock.title} at {dpi} dots an inch has no room for the code; "
            "choose a larger label or 203, 300 or 600 dots.",
            field="dpi",
        )
    return module


def _side(symbol: Symbol, stock: Stock, height: float) -> Box:
    x = symbol.right
    return Box(x, EDGE, stock.label_width - x - EDGE, height - 2 * EDGE)


def _foot(symbol: Symbol, stock: Stock) -> Box:
    y = symbol.bottom + AIR
    width = symbol.mm((SIZE + 2) * symbol.module)
    return Box(symbol.left, y, width, stock.label_height - y - EDGE)


def _body(symbol: Symbol, stock: Stock) -> Box:
    x, y = symbol.left, symbol.bottom + AIR
    return Box(x, y, stock.label_width - 2 * x, stock.label_height - y - 2 * EDGE)


def units(frame: Frame) -> list[float]:
    """Heights to try for bench text, in mm: larger on a larger label, at last 3."""
    if frame.body is not None:
        largest = min(6.0, frame.body.height * 0.05)
    else:
        largest = min(6.0, frame.side.height * 0.095, frame.side.width / 12)
    larger = (largest * share for share in (1.0, 0.85, 0.72))
    return [*(unit for unit in larger if unit > BENCH_CAP), BENCH_CAP]
