"""Setting text in a given width: whole words, and an ellipsis where it has to end early."""

from bagtag.paper.fonts import width

ELLIPSIS = "…"


def wrap(text: str, font: str, size: float, room: float) -> list[str]:
    """`text` in lines no wider than `room` (in the unit of `size`); a word too long is divided."""
    if not text:
        return []
    if width(text, font, size) <= room:
        return [text]
    lines, line, reach, space = [], "", 0.0, width(" ", font, size)
    for word in text.split(" "):
        wide = width(word, font, size)
        if line and reach + space + wide <= room:
            line, reach = f"{line} {word}", reach + space + wide
            continue
        if line:
            lines.append(line)
        *full, line = divide(word, font, size, room) if wide > room else [word]
        lines += full
        reach = width(line, font, size) if full else wide
    return [*lines, line]


def divide(word: str, font: str, size: float, room: float) -> list[str]:
    """One long word in pieces that fit; a piece is never empty."""
    pieces, piece = [], ""
    for letter in word:
        if piece and width(piece + letter, font, size) > room:
            pieces.append(piece)
            piece = ""
        piece += letter
    return [*pieces, piece]


def cut(
    text: str, font: str, size: float, room: float, most: int, *, tail: str = ""
) -> tuple[list[str], bool]:
    """At most `most` lines, and whether something had to go; `tail` is kept at the very end."""
    lines = wrap(text + tail, font, size, room)
    if len(lines) <= most:
        return lines, False
    kept = wrap(text, font, size, room)[:most]
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
