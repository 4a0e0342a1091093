"""Where everything on a label goes: the symbol left, bench text right, small print below."""

from dataclasses import dataclass, field

from bagtag.domain import codes, picture
from bagtag.domain.errors import BadInput
from bagtag.domain.model import TagRole
from bagtag.domain.shapes import Picture, Text
from bagtag.paper.blocks import Block, writing_lines
from bagtag.paper.fonts import CAP, missing_glyphs
from bagtag.paper.label_column import BENCH_CAP, SMALL_CAP, Column
from bagtag.paper.label_fill import fill, take_code
from bagtag.paper.label_frame import Box, Frame, frame_of, units
from bagtag.paper.label_text import Bar, LabelText, Laid, Placed, Words
from bagtag.paper.stock import Stock

LETTERING_CAP = 1.2
"""The smallest by-words inside a which-way picture, in mm."""


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
    frame = frame_of(stock, dpi)
    for unit in units(frame):
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


def _lay(label: LabelText, frame: Frame, unit: float) -> Laid:
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


def _fill(label: LabelText, frame: Frame, unit: float) -> list[tuple[Box, Column]]:
    side = _column(label, frame.side, unit, centred=True)
    take_code(side, (0.19 if frame.body is None else 0.6) * side.height)
    if frame.body is not None:
        body = _column(side.label, frame.body, unit)
        fill(body, body)
        return [(frame.side, side), (frame.body, body)]
    if frame.foot is None:
        fill(side, side)
        return [(frame.side, side)]
    foot = _column(side.label, frame.foot, BENCH_CAP)
    fill(side, foot)
    return [(frame.side, side), (frame.foot, foot)]


def _fill_blank(label: LabelText, frame: Frame) -> list[tuple[Box, Column]]:
    """The code, and lines to write on."""
    side = _column(label, frame.side, BENCH_CAP, centred=True)
    take_code(side, (0.28 if frame.body is None else 0.6) * side.height)
    box = frame.body or frame.side
    lines = side if frame.body is None else _column(label, box, BENCH_CAP)
    room = lines.height - lines.used - lines.gap
    hints = ("part", "from", "which way", "note", "", "")[: max(1, int(room / 8))]
    pitch = min(room / len(hints) * 0.95, 16)
    lines.take("lines", [writing_lines(hints, lines.width, pitch, SMALL_CAP)])
    return [(frame.side, side)] if lines is side else [(frame.side, side), (box, lines)]


def _column(label: LabelText, box: Box, unit: float, *, centred: bool = False) -> Column:
    return Column(label, box.width, box.height, unit, centred=centred)


def _glyph_complaints(label: LabelText) -> list[str]:
    said = " ".join((label.name, label.area, label.job, label.number, *label.lines))
    said += " ".join(map(str, label.held_by))
    lost = "" if said.isascii() else missing_glyphs(said)
    return [f"Roboto has no {', '.join(lost)}; an empty box is printed."] if lost else []
