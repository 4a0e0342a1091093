"""Setting text in a given width: whole words, and an ellipsis where it has to end early."""

from functools import lru_cache

from bagtag.paper.fonts import ems, width

ELLIPSIS = "…"


def wrap(text: str, font: str, size: float, room: float) -> list[str]:
    """`text` in lines no wider than `room` (in the unit of `size`); a word too long is divided."""
    return list(_wrap(text, font, room / size))


@lru_cache(maxsize=4096)
def _wrap(text: str, font: str, room: float) -> tuple[str, ...]:
    """Lines by ems: the same text is tried in several sizes and numbers of lines."""
    if not text:
        return ()
    if ems(text, font) <= room:
        return (text,)
    lines, line, reach, space = [], "", 0.0, ems(" ", font)
    for word in text.split(" "):
        wide = ems(word, font)
        if line and reach + space + wide <= room:
            line, reach = f"{line} {word}", reach + space + wide
            continue
        if line:
            lines.append(line)
        *full, line = _divide(word, font, room) if wide > room else [word]
        lines += full
        reach = ems(line, font) if full else wide
    return (*lines, line)


def _divide(word: str, font: str, room: float) -> list[str]:
    """One long word in pieces that fit; a piece is never empty."""
    pieces, piece, reach = [], "", 0.0
    for letter in word:
        wide = ems(letter, font)
        if piece and reach + wide > room:
            pieces.append(piece)
            piece, reach = "", 0.0
        piece, reach = piece + letter, reach + wide
    return [*pieces, piece]


def cut(
    text: str, font: str, size: float, room: float, most: int, *, tail: str = ""
) -> tuple[list[str], bool]:
    """At most `most` lines, and whether something had to go; `tail` is kept at the very end."""
    lines = wrap(text + tail, font, size, room)
    if len(lines) <= most:
        return lines, False
    kept = wrap(text, font, size, room)[:most] or [""]
    rest = room - width(ELLIPSIS + tail, font, size)
    kept[-1] = _shorten(kept[-1], font, size, rest) + ELLIPSIS + tail
    return kept, True


def _shorten(line: str, font: str, size: float, room: float) -> str:
    """As many whole words as fit; by the letter where whole words would leave it half empty."""
    words = line
    while " " in words and width(words, font, size) > room:
        words = words.rsplit(" ", 1)[0]
    if not room / 2 <= width(words, font, size) <= room:
        words = line
        while words and width(words, font, size) > room:
            words = words[:-1]
    return words.rstrip(" ,;:.·")
