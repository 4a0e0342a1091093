"""Where everything on a label goes: the symbol left, bench text right, small print below."""

from dataclasses import dataclass, field

from bagtag.domain import codes, picture
from bagtag.domain.errors import BadInput
from bagtag.domain.model import TagRole
from bagtag.paper import label_column as fill
from bagtag.paper.blocks import Block, writing_lines
from bagtag.paper.fonts import missing_glyphs
from bagtag.paper.label_column import BENCH_CAP, SMALL_CAP, Column
from bagtag.paper.label_text import Bar, LabelText, Laid, Placed, Words
from bagtag.paper.qr import INCH_MM, QUIET, SIZE, module_dots
from bagtag.paper.stock import Stock

EDGE = 1.5
"""Nothing but white this near to the label's edge, in mm: printers and knives wander."""


@dataclass(frozen=True, slots=True)
class Box:
    """Part of a label, in mm from its top left corner."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _Frame:
    """The symbol's place in dots, and the boxes left for words. `foot` and `body` may be empty."""

    dpi: int
    qr_x: int
    qr_y: int
    module: int
    side: Box
    foot: Box | None
    body: Box | None


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
            aspect = box.width / box.height
            drawn = picture.draw(self.label.facts, self.label.datum, aspect=aspect)
            self.pictures.append(Placed(drawn, box.x + x, box.y + y, box.width, box.height))


def _lay(label: LabelText, frame: _Frame, unit: float) -> Laid:
    filled = _fill_blank(label, frame) if label.role is TagRole.BLANK else _fill(label, frame, unit)
    pieces = _Gathered(label, complaints=_glyph_complaints(label))
    for box, column in filled:
        pieces.complaints += column.complaints()
        for top, block in column.placed():
            pieces.add(block, box.x, box.y + top)
    return Laid(
        code=label.code,
        dpi=frame.dpi,
        qr_x=frame.qr_x,
        qr_y=frame.qr_y,
        module=frame.module,
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
    """The symbol at the left, or at the top left of an upright label."""
    left = 0.0 if stock.hole is None else stock.hole.x + stock.hole.diameter / 2 + 1
    room = min(stock.label_width - left, stock.label_height)
    module = module_dots(dpi, room)
    if module < 1 or dpi < 100:
        raise BadInput(
            f"{stock.title} at {dpi} dots an inch has no room for the code; "
            "choose a larger label or 203, 300 or 600 dots.",
            field="dpi",
        )
    dot = INCH_MM / dpi
    block = (SIZE + 2 * QUIET) * module * dot
    upright = stock.label_height > stock.label_width
    foot_height = stock.label_height - block - EDGE
    with_foot = not upright and foot_height >= 2 * SMALL_CAP
    top = 0.0 if upright or with_foot else (stock.label_height - block) / 2
    quiet = QUIET * module
    return _Frame(
        dpi=dpi,
        qr_x=round(left / dot) + quiet,
        qr_y=round(top / dot) + quiet,
        module=module,
        side=_side(stock, left + block, block if upright else stock.label_height),
        foot=Box(left + quiet * dot, block, (SIZE + 2) * module * dot, foot_height)
        if with_foot
        else None,
        body=_body(stock, quiet * dot, block) if upright else None,
    )


def _side(stock: Stock, x: float, height: float) -> Box:
    return Box(x, EDGE, stock.label_width - x - EDGE, height - 2 * EDGE)


def _body(stock: Stock, x: float, y: float) -> Box:
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
