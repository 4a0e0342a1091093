"""What the panels of a which-way picture share: two styles, captions, a part with its arrow."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bagtag.domain import lettering
from bagtag.domain.shapes import Anchor, Arrow, Box, Cell, Ink, Item, Text


@dataclass(frozen=True, slots=True)
class Style:
    """Weights and font sizes in units of the picture's height.

    `mark` and `name` are the sizes wished for, `least` the smallest that is still read, `symbol`
    the height that captions leave to the drawing.
    """

    wide: bool
    stroke: float
    thin: float
    head: float
    mark: float
    name: float
    least: float
    gap: float
    symbol: float

    def fitted(self, cell: Cell) -> "Style":
        """Thinner strokes for a cell too small for these; lettering keeps its size."""
        share = min(cell.w, cell.h) / (self.stroke * 5)
        if share >= 1:
            return self
        return replace(
            self,
            stroke=self.stroke * share,
            thin=self.thin * share,
            head=self.head * share,
            gap=self.gap * share,
        )


COMPACT = Style(
    wide=False, stroke=0.075, thin=0.045, head=0.24, mark=0.34, name=0.25, least=0.2, gap=0.06,
    symbol=0.36,
)  # fmt: skip
WIDE = Style(
    wide=True, stroke=0.03, thin=0.014, head=0.12, mark=0.19, name=0.115, least=0.085, gap=0.045,
    symbol=0.3,
)  # fmt: skip

ROOMY = 0.75
"""A panel of a small picture at least this high has room for lettering over and under its
drawing."""
_ROOMY_WIDE = 0.55
"""The same for a wide picture."""

Words = tuple[str, ...]
"""Ways to say one thing, longest first: the first that fits is taken."""


def is_low(cell: Cell, style: Style) -> bool:
    """Whether lettering stands beside the drawing: over and under it there is no room."""
    return cell.h < (_ROOMY_WIDE if style.wide else ROOMY)


@dataclass(frozen=True, slots=True)
class Caption:
    """A line of lettering that a panel wishes for."""

    words: Words
    size: float
    bold: bool = False
    ink: Ink = Ink.INK

    def fitted(self, room: float, least: float) -> tuple[str, float]:
        """What can be said in this width and at which size; "" if nothing."""
        for words in self.words[:-1]:
            if lettering.fits(words, room, least):
                return lettering.fit(words, room, self.size, least)
        return lettering.fit(self.words[-1], room, self.size, least) if self.words else ("", 0.0)


def mark(words: str, style: Style) -> Caption:
    """The mark on the part itself: bold, in the accent."""
    return Caption(shorter(words), style.mark, bold=True, ink=Ink.ACCENT)


def name(words: str, style: Style) -> Caption:
    """The name of a side or of another part; a small picture does without the word "side"."""
    return Caption(shorter(words), style.name)


def shorter(words: str) -> Words:
    """ "clutch side" can also be said "clutch"."""
    words = " ".join(words.split())
    return (words, words[:-5]) if words.casefold().endswith(" side") else (words,)


def captioned(
    cell: Cell,
    style: Style,
    *,
    over: Caption | None = None,
    under: Caption | None = None,
    symbol: float | None = None,
) -> tuple[list[Item], Cell]:
    """Lettering over and under a drawing as far as there is room, and the cell left for it, at
    least `symbol` high."""
    least = style.symbol if symbol is None else symbol
    items: list[Item] = []
    for caption, on_top in ((over, True), (under, False)):
        if caption is None:
            continue
        text = _line(caption, cell, style, cell.h - least - style.gap)
        if text is None:
            continue
        taken = line_height(text, style) + style.gap
        items.append(_standing(text, cell.y if on_top else cell.bottom - taken + style.gap, style))
        cell = cell.trimmed(top=taken) if on_top else cell.trimmed(bottom=taken)
    return items, cell


def beside(
    cell: Cell, style: Style, symbol: float, captions: Sequence[Caption]
) -> tuple[list[Item], Cell]:
    """A drawing `symbol` wide with lines of lettering to its right, the two together centred."""
    room = Cell(cell.x, cell.y, cell.w - symbol - style.gap, cell.h)
    lines = _stack(captions, room, style)
    if not lines:
        return [], cell.middle(symbol, cell.h)
    widest = max(text.width for text in lines)
    left = cell.x + (cell.w - symbol - style.gap - widest) / 2
    x = left + symbol + style.gap
    y = cell.cy - sum(line_height(text, style) + style.gap for text in lines) / 2 + style.gap / 2
    items: list[Item] = []
    for text in lines:
        items.append(_standing(replace(text, x=x, anchor=Anchor.START), y, style))
        y += line_height(text, style) + style.gap
    return items, Cell(left, cell.y, symbol, cell.h)


def lettered(
    cell: Cell, style: Style, symbol: float, captions: Sequence[Caption]
) -> tuple[list[Item], Cell]:
    """Lettering beside the drawing; where the first two lines cannot be said there in full and the
    cell is high, over and under it."""
    room = cell.w - symbol - style.gap
    whole = all(lettering.fits(c.words[-1], room, style.least) for c in captions[:2] if c.words)
    if whole or cell.h < ROOMY:
        return beside(cell, style, symbol, captions)
    return captioned(cell, style, over=captions[0], under=captions[1])


def written(cell: Cell, caption: Caption, style: Style, anchor: Anchor) -> list[Item]:
    """One line in the middle of the cell's height, at its start, middle or end."""
    text = _line(caption, cell, style, cell.h)
    if text is None:
        return []
    x = {Anchor.START: cell.x, Anchor.MIDDLE: cell.cx, Anchor.END: cell.right}[anchor]
    top = cell.cy - line_height(text, style) / 2
    return [_standing(replace(text, x=x, anchor=anchor), top, style)]


def line_height(text: Text, style: Style) -> float:
    """Wide pictures keep one baseline from panel to panel; small ones have no such room."""
    if style.wide:
        return (lettering.ASCENT + lettering.DESCENT) * text.size
    return (lettering.height(text.text) + lettering.depth(text.text)) * text.size


def part(cell: Cell, style: Style, *, upright: bool = True) -> Box:
    """The part seen edge on, in the middle of the cell: a bar."""
    thick = style.stroke * 1.7
    bar = cell.middle(thick, cell.h) if upright else cell.middle(cell.w, thick)
    return Box(bar.x, bar.y, bar.w, bar.h, radius=style.stroke * 0.4, filled=True)


def across(cell: Cell, style: Style, right: bool) -> list[Item]:
    """A part at one end of the cell and an arrow from it to the other."""
    thick = style.stroke * 1.7
    bar = cell.trimmed(right=cell.w - thick) if right else cell.trimmed(left=cell.w - thick)
    shaft = cell.trimmed(left=thick + style.gap) if right else cell.trimmed(right=thick + style.gap)
    ends = (shaft.x, shaft.right) if right else (shaft.right, shaft.x)
    return [part(bar, style), arrow(ends[0], cell.cy, ends[1], cell.cy, style=style)]


def upward(cell: Cell, style: Style, up: bool) -> list[Item]:
    """A part at the foot of the cell and an arrow up from it, or the other way round."""
    thick = style.stroke * 1.7
    bar = cell.trimmed(top=cell.h - thick) if up else cell.trimmed(bottom=cell.h - thick)
    shaft = cell.trimmed(bottom=thick + style.gap) if up else cell.trimmed(top=thick + style.gap)
    ends = (shaft.bottom, shaft.y) if up else (shaft.y, shaft.bottom)
    return [part(bar, style, upright=False), arrow(cell.cx, ends[0], cell.cx, ends[1], style=style)]


def arrow(x1: float, y1: float, x2: float, y2: float, *, style: Style) -> Arrow:
    """An arrow whose head is never longer than two thirds of it."""
    length = abs(x2 - x1) + abs(y2 - y1)
    return Arrow(x1, y1, x2, y2, style.stroke, min(style.head, length * 0.66))


def _line(caption: Caption, cell: Cell, style: Style, room: float) -> Text | None:
    """The caption as fits the cell's width and a line `room` high."""
    text, size = caption.fitted(cell.w, style.least)
    if not text:
        return None
    line = Text(cell.cx, 0, text, size, Anchor.MIDDLE, caption.bold, caption.ink)
    tall = line_height(line, style)
    if tall > room:
        size *= room / tall
    return None if size < style.least * 0.99 else replace(line, size=size)


def _stack(captions: Sequence[Caption], room: Cell, style: Style) -> list[Text]:
    lines: list[Text] = []
    left = room.h
    for caption in captions:
        text = _line(caption, room, style, left)
        if text is not None:
            lines.append(text)
            left -= line_height(text, style) + style.gap
    return lines


def _standing(text: Text, top: float, style: Style) -> Text:
    """The text with its line where the letters' upper edge is at `top`."""
    rise = lettering.ASCENT if style.wide else lettering.height(text.text)
    return replace(text, y=top + rise * text.size)
