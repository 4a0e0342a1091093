"""How wide a line of lettering runs, without loading a font.

Advance widths of Roboto, the wider of Regular and Bold for each sign, in thousandths of the font
size, read from the font's own tables. Letters outside them are taken as wide as any of their kind:
a line is never wider than this says, so that what is laid out by it does not overlap.
"""

import unicodedata
from functools import lru_cache

CAP = 0.711
"""Height of a capital above the line, as a share of the font size (Roboto: 1456 / 2048)."""
ASCENT = 0.78
"""How far b, d and l reach above the line."""
DESCENT = 0.22
"""How far g, p and y reach below it."""

_SIGNS = (
    "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
    "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~ "
)
_WIDTHS = """
    575 575 575 575 575 575 575 575 575 575
    545 564 524 565 542 359 572 561 266 261 535 266 878 561 571 564 569 366 517 339 561 507 752
    510 503 510
    674 639 656 657 569 554 682 714 293 560 636 543 877 714 691 647 691 639 616 620 659 655 888
    637 620 607
    273 322 617 575 739 657 176 352 354 455 568 246 389 292 414 283 263 510 573 524 499 899 279
    423 279 439 452 332 339 254 339 681 250
"""
_ASCII = dict(zip(_SIGNS, map(int, _WIDTHS.split()), strict=True))
_WIDE = frozenset("ЖМШЩЪЫЮФДЉЊЂЋжмшщъыюфдљњђћҖҗѠѡωώψφΜΩΏΦΨΉЦďľĲĵÆæŒœŴŵ©®¼½¾…‰—")
_WIDEST, _OTHER = 1090, 740
_LOW = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ+-., ")
_DEEP = frozenset("gjpqy,;()[]{}@|/\\_$Q")


@lru_cache(maxsize=4096)
def width(text: str) -> float:
    """How wide `text` runs at most, as a share of the font size."""
    return sum(map(_advance, text)) / 1000


def height(text: str) -> float:
    """How far `text` reaches above its line, as a share of the font size."""
    return CAP if all(sign in _LOW for sign in text) else ASCENT


def depth(text: str) -> float:
    """How far `text` reaches below its line, as a share of the font size; 0 for capitals."""
    return DESCENT if any(sign in _DEEP or not sign.isascii() for sign in text) else 0.0


def fit(text: str, room: float, size: float, least: float) -> tuple[str, float]:
    """The text and font size that fit into `room`: as asked, smaller down to `least`, then cut
    short with an ellipsis; ("", size) where not even five letters fit."""
    text = " ".join(text.split())
    if not text or width(text) * size <= room:
        return text, size
    if width(text) * least <= room:
        return text, room / width(text)
    return _cut(text, room / least), least


def fits(text: str, room: float, size: float) -> bool:
    return width(text) * size <= room


def _cut(text: str, room: float) -> str:
    """The longest beginning of `text` that fits with an ellipsis, or "" (`room` in font sizes)."""
    left = room - width("…")
    for end, sign in enumerate(text):
        left -= _advance(sign) / 1000
        if left < 0:
            return f"{text[:end].rstrip(' ,')}…" if end >= 5 else ""
    return text


def _advance(sign: str) -> int:
    known = _ASCII.get(sign)
    return known if known is not None else _foreign(sign)


@lru_cache(maxsize=1024)
def _foreign(sign: str) -> int:
    if unicodedata.combining(sign):
        return 0
    if sign in _WIDE:
        return _WIDEST
    base = unicodedata.normalize("NFD", sign)[0]
    if base in _ASCII:
        return _ASCII[base] + 20
    if base in _WIDE:
        return _WIDEST
    ordinary = ord(sign) < 0x490 or 0x2010 <= ord(sign) < 0x2070
    return _OTHER if ordinary else _WIDEST
