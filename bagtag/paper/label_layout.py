"""Where everything on a label goes: the symbol left, bench text right, small print below."""

from dataclasses import dataclass, field

from bagtag.domain import codes, picture
from bagtag.domain.errors import BadInput
from bagtag.domain.model import TagRole
from bagtag.domain.shapes import Picture, Text
from bagtag.paper import label_column as fill
from bagtag.paper.blocks import Block, writing_lines
from bagtag.paper.fonts import CAP, missing_glyphs
from bagtag.paper.label_column import BENCH_CAP, SMALL_CAP, Column
from bagtag.paper.label_text import Bar, LabelText, Laid, Placed, Words
from bagtag.paper.qr import INCH_MM, QUIET, SIZE, module_dots
from bagtag.paper.stock import Stock

EDGE = 1.5
"""Nothing but white this near to the label's edge, in mm: printers and knives wander."""


AIR = 0.4
"""Between the quiet zone and what stands below it, in mm: l and b are higher than capitals."""


LETTERING_CAP = 1.2
"""The smallest by-words inside a which-way picture, in mm."""


@dataclass(frozen=True, slots=True)
class Box:
    """Part of a label, in mm from its top left corner."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _Symbol:
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
class _Frame:
    """The symbol, and the boxes left for words: `foot` below a symbol with room under it, `body`
    on an upright label."""

    symbol: _Symbol
    side: Box
    foot: Box | None = None
    body: Box | None = None


def layout(label: LabelText, stock: Stock, dpi: int) -> Laid:
    """Lay one label out for a printer of `dpi` dots an inch; what did not fit is in `left_out`.

    Text is never under 3 mm where it is read at the bench and never under 1.8 mm elsewhere. Large
    labels set it larger, unless something would have to be left out. BadInput for a label without
    a tag code and for a stock too small for the symbol.
    """
    if not codes.is_valid(label.code):
        raise BadInput(
            f"{label.name or 'A label'} has no tag code to print; give it a tag first.",
            field="code",
        )
    frame = _frame(stock, dpi)
    for unit in _units(frame):
        laid = _lay(label, frame, unit)
        if not laid.left_out:
            break
    return laid


@dataclass(slots=True)
class _Gathered:
    """The pieces of all columns, in the label's own coordinates."""

    label: LabelText
    words: list[Words] = field(default_factory=list)
    bars: list[Bar] = field(default_factory=list)
    pictures: list[Placed] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def add(self, block: Block, x: float, y: float) -> None:
        self.words += [Words(w.x + x, w.y + y, *w[2:]) for w in block.words]
        self.bars += [Bar(b.x + x, b.y + y, b.width, b.height) for b in block.bars]
        if block.picture is not None:
            box = block.picture
            drawn = _drawn(self.label, box)
            self.pictures.append(Placed(drawn, box.x + x, box.y + y, box.width, box.height))


def _drawn(label: LabelText, box: Bar) -> Picture:
    """The picture for a box, without by-words too small to read: the sentence says them anyway."""
    drawn = picture.draw(label.facts, label.datum, aspect=box.width / box.height)
    least = LETTERING_CAP / CAP / box.height
    items = (i for i in drawn.items if not isinstance(i, Text) or i.bold or i.size >= least)
    return Picture(tuple(items), drawn.aspect)


def _lay(label: LabelText, frame: _Frame, unit: float) -> Laid:
    filled = _fill_blank(label, frame) if label.role is TagRole.BLANK else _fill(label, frame, unit)
    pieces = _Gathered(label, complaints=_glyph_complaints(label))
    for box, column in filled:
        pieces.complaints += column.complaints()
        for top, block in column.placed():
            pieces.add(block, box.x, box.y + top)
    return Laid(
        code=label.code,
        dpi=frame.symbol.dpi,
        qr_x=frame.symbol.x,
        qr_y=frame.symbol.y,
        module=frame.symbol.module,
        words=tuple(pieces.words),
        bars=tuple(pieces.bars),
        pictures=tuple(pieces.pictures),
        left_out=tuple(pieces.complaints),
    )


def _fill(label: LabelText, frame: _Frame, unit: float) -> list[tuple[Box, Column]]:
    side = _column(label, frame.side, unit, centred=True)
    fill.take_code(side, (0.19 if frame.body is None else 0.6) * side.height)
    if frame.body is not None:
        body = _column(side.label, frame.body, unit)
        fill.fill(body, body)
        return [(frame.side, side), (frame.body, body)]
    if frame.foot is None:
        fill.fill(side, side)
        return [(frame.side, side)]
    foot = _column(side.label, frame.foot, BENCH_CAP)
    fill.fill(side, foot)
    return [(frame.side, side), (frame.foot, foot)]


def _fill_blank(label: LabelText, frame: _Frame) -> list[tuple[Box, Column]]:
    """The code, and lines to write on."""
    side = _column(label, frame.side, BENCH_CAP, centred=True)
    fill.take_code(side, (0.28 if frame.body is None else 0.6) * side.height)
    box = frame.body or frame.side
    lines = side if frame.body is None else _column(label, box, BENCH_CAP)
    room = lines.height - lines.used - lines.gap
    hints = ("part", "from", "which way", "note", "", "")[: max(1, int(room / 8))]
    pitch = min(room / len(hints) * 0.95, 16)
    lines.take("lines", [writing_lines(hints, lines.width, pitch, SMALL_CAP)])
    return [(frame.side, side)] if lines is side else [(frame.side, side), (box, lines)]


def _column(label: LabelText, box: Box, unit: float, *, centred: bool = False) -> Column:
    return Column(label, box.width, box.height, unit, centred=centred)


def _frame(stock: Stock, dpi: int) -> _Frame:
    """The symbol at the left; on an upright label, or with room below it, at the top left."""
    left = 0.0 if stock.hole is None else stock.hole.x + stock.hole.diameter / 2 + 1
    module = _module(stock, min(stock.label_width - left, stock.label_height), dpi)
    dot = INCH_MM / dpi
    below = stock.label_height - (SIZE + 2 * QUIET) * module * dot
    upright = stock.label_height > stock.label_width
    with_foot = not upright and below - EDGE - AIR >= 2 * SMALL_CAP
    top = 0.0 if upright or with_foot else below / 2
    quiet = QUIET * module
    symbol = _Symbol(dpi, round(left / dot) + quiet, round(top / dot) + quiet, module)
    if upright:
        return _Frame(symbol, _side(symbol, stock, symbol.bottom), body=_body(symbol, stock))
    side = _side(symbol, stock, stock.label_height)
    return _Frame(symbol, side, foot=_foot(symbol, stock) if with_foot else None)


def _module(stock: Stock, room: float, dpi: int) -> int:
    module = module_dots(dpi, room)
    if module < 1 or dpi < 100:
        raise BadInput(
            f"{stock.title} at {dpi} dots an inch has no room for the code; "
            "choose a larger label or 203, 300 or 600 dots.",
            field="dpi",
        )
    return module


def _side(symbol: _Symbol, stock: Stock, height: float) -> Box:
    x = symbol.right
    return Box(x, EDGE, stock.label_width - x - EDGE, height - 2 * EDGE)


def _foot(symbol: _Symbol, stock: Stock) -> Box:
    y = symbol.bottom + AIR
    width = symbol.mm((SIZE + 2) * symbol.module)
    return Box(symbol.left, y, width, stock.label_height - y - EDGE)


def _body(symbol: _Symbol, stock: Stock) -> Box:
    x, y = symbol.left, symbol.bottom + AIR
    return Box(x, y, stock.label_width - 2 * x, stock.label_height - y - 2 * EDGE)


def _units(frame: _Frame) -> list[float]:
    """Heights to try for bench text, in mm: larger on a larger label, at last 3."""
    if frame.body is not None:
        largest = min(6.0, frame.body.height * 0.05)
    else:
        largest = min(6.0, frame.side.height * 0.095, frame.side.width / 12)
    larger = (largest * share for share in (1.0, 0.85, 0.72))
    return [*(unit for unit in larger if unit > BENCH_CAP), BENCH_CAP]


def _glyph_complaints(label: LabelText) -> list[str]:
    said = " ".join((label.name, label.area, label.job, label.number, *label.lines))
    said += " ".join(map(str, label.held_by))
    lost = "" if said.isascii() else missing_glyphs(said)
    return [f"Roboto has no {', '.join(lost)}; an empty box is printed."] if lost else []
