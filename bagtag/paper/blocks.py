"""The pieces of a label's text column: each a block of known height, drawn from its own top."""

from collections.abc import Sequence
from typing import NamedTuple

from bagtag.domain.codes import show
from bagtag.paper.fonts import BOLD, CAP, DESCENT, MEDIUM, REGULAR, width
from bagtag.paper.label_text import Bar, Words
from bagtag.paper.typeset import cut, wrap

LINE = 1.15
"""From one baseline to the next, in font sizes."""

PAD = 0.28
"""White around a word on black, in cap heights."""

AIR = 1.15
"""What stands on its line without tails gets as much more room, so that gaps look alike."""


class Block(NamedTuple):
    """Lines, bars and the box for a picture with their top at 0; `complaint` says what it leaves
    out."""

    height: float
    words: tuple[Words, ...] = ()
    bars: tuple[Bar, ...] = ()
    picture: Bar | None = None
    complaint: str = ""


def text_height(count: int, cap: float) -> float:
    """From the top of the capitals of the first of `count` lines to the tails of the last."""
    return cap + ((count - 1) * LINE + DESCENT) * cap / CAP


def lines_block(lines: Sequence[str], font: str, cap: float, complaint: str = "") -> Block:
    """Lines of one size; `cap` is the height of a capital in mm."""
    size = cap / CAP
    words = [Words(0.0, cap + i * LINE * size, text, font, size) for i, text in enumerate(lines)]
    return Block(text_height(len(lines), cap), tuple(words), (), None, complaint)


def paragraph(
    text: str, font: str, cap: float, room: float, *, most: int, what: str, tail: str = ""
) -> Block:
    """`text` in at most `most` lines; the block complains when `what` had to be cut."""
    lines, was_cut = cut(text, font, cap / CAP, room, most, tail=tail)
    return lines_block(lines, font, cap, f"{what} was cut." if was_cut else "")


def whole(text: str, font: str, cap: float, room: float) -> Block:
    """`text` in as many lines as it takes."""
    return lines_block(wrap(text, font, cap / CAP, room), font, cap)


def code_row(code: str, number: str, room: float, most_cap: float, *, tight: bool = False) -> Block:
    """The code as large as it goes, the running number at the far end of the same line."""
    tag, gap, scale = show(code), 0.35 if tight else 0.7, 0.75 if tight else 1.0
    ems = width(tag, BOLD, 1) + (gap + scale * width(number, REGULAR, 1) if number else 0)
    size = min(most_cap / CAP, room / ems)
    cap = size * CAP
    words = [Words(0.0, cap, tag, BOLD, size)]
    if number:
        right = room - width(number, REGULAR, size * scale)
        words.append(Words(right, cap, number, REGULAR, size * scale))
    return Block(cap * AIR, tuple(words))


def banner(text: str, room: float, cap: float, *, right: str = "") -> Block:
    """White words on a black bar across the column, smaller where it is narrow."""
    pad = cap * 0.4
    gap = 1.0 if right else 0.0
    ems = width(text, BOLD, 1) + gap + width(right, MEDIUM, 1)
    size = min(cap / CAP, (room - 2 * pad) / ems)
    height = cap * 1.6
    baseline = (height + size * CAP) / 2
    words = [Words(pad, baseline, text, BOLD, size, white=True)]
    if right:
        at = room - pad - width(right, MEDIUM, size)
        words.append(Words(at, baseline, right, MEDIUM, size, white=True))
    return Block(height * AIR, tuple(words), (Bar(0, 0, room, height),))


def pill(text: str, cap: float) -> Block:
    """A word in white on black, as wide as it needs."""
    size, pad = cap / CAP, cap * PAD
    line = Words(pad, pad + cap, text, BOLD, size, white=True)
    high = cap + 2 * pad
    return Block(high * AIR, (line,), (Bar(0, 0, pill_width(text, cap), high),))


def pill_width(text: str, cap: float) -> float:
    return width(text, BOLD, cap / CAP) + 2 * PAD * cap


def moved(block: Block, x: float, y: float) -> Block:
    """The same words and bars, shifted right and down; the height is left as it was."""
    words = tuple([Words(w.x + x, w.y + y, *w[2:]) for w in block.words])
    bars = tuple([Bar(b.x + x, b.y + y, b.width, b.height) for b in block.bars])
    return Block(block.height, words, bars, block.picture, block.complaint)


def side_by_side(left: Block, right: Block, offset: float) -> Block:
    """Two blocks in one row, the right one at `offset`, centred on each other."""
    height = max(left.height, right.height)
    left = moved(left, 0, (height - left.height) / 2)
    right = moved(right, offset, (height - right.height) / 2)
    words, bars = left.words + right.words, left.bars + right.bars
    return Block(height, words, bars, complaint=left.complaint or right.complaint)


def picture_block(room: float, height: float) -> Block:
    return Block(height, picture=Bar(0, 0, room, height))


def writing_lines(hints: Sequence[str], room: float, pitch: float, cap: float) -> Block:
    """Lines to write on, each with a small word under its left end."""
    size, bars, words = cap / CAP, [], []
    for row, hint in enumerate(hints, start=1):
        line = row * pitch - cap * 1.4
        bars.append(Bar(0, line, room, 0.25))
        if hint:
            words.append(Words(0, row * pitch, hint, MEDIUM, size))
    return Block(pitch * len(hints) + DESCENT * size, tuple(words), tuple(bars))
