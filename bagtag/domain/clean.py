"""What a person typed, made clean: text without what cannot be seen, and figures that can be."""

import re
import unicodedata
from math import isfinite

from bagtag.domain.errors import BadInput

NAME_LIMIT = 200
TEXT_LIMIT = 500
NOTE_LIMIT = 10_000
MOST = 9999

_NEWLINES = re.compile("\r\n|[\r\x0b\x0c\x85\u2028\u2029]")
_SPACES = re.compile(r"[^\S\n]+")
# Marks and overrides of direction (Unicode Standard Annex #9): unseen, and able to show a text
# in another order than it has.
_DIRECTION = set("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff")


def clean_text(
    text: str, *, lines: bool = False, limit: int, field: str = "", what: str = "This text"
) -> str:
    """Text without control characters and direction marks, single spaces, trimmed, in NFC.

    `lines` keeps line breaks. Longer than `limit` characters is BadInput, never cut.
    """
    clean = tidied(text, lines=lines)
    if len(clean) > limit:
        raise BadInput(
            f"{what} has {len(clean)} characters and may have {limit}. Shorten it.", field=field
        )
    return clean


def tidied(text: str, *, lines: bool = False) -> str:
    """Text made clean as `clean_text` does, of any length."""
    if text.isascii() and text.isprintable() and "  " not in text:
        return text.strip()  # most text is: nothing in it can be unclean
    broken = _NEWLINES.sub("\n", text) if lines else " ".join(text.split())
    kept = "".join(c for c in _SPACES.sub(" ", broken) if _is_kept(c))
    rows = [_SPACES.sub(" ", row).strip() for row in kept.split("\n")]
    return unicodedata.normalize("NFC", "\n".join(rows).strip())


def whole(value: object, what: str, *, field: str, most: int = MOST) -> int:
    """A whole number from 1 to `most`, or BadInput."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise BadInput(f"{what} is a whole number from 1 to {most}. Correct it.", field=field)
    if not 1 <= value <= most:
        raise BadInput(f"{what} is {value}; give a number from 1 to {most}.", field=field)
    return value


def _is_kept(character: str) -> bool:
    if character == "\n":
        return True
    return unicodedata.category(character) not in ("Cc", "Cs") and character not in _DIRECTION


def is_above_zero(figure: float) -> bool:
    """Whether a figure is one, and above zero."""
    return isfinite(figure) and figure > 0
