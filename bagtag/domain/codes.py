"""Tag codes: six characters that survive a greasy keyboard.

Five random symbols and one check character by ISO/IEC 7064 MOD 37-2, all from 31 symbols that
leave out 0, 1, I, L and O. Every single wrong character and every swap of two is caught.
"""

from collections.abc import Callable

from bagtag.domain.errors import BadInput

SYMBOLS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
LENGTH = 6
_VALUES = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
_SEPARATORS = str.maketrans("", "", " -\t\u00a0\u2010\u2011\u2013")


def check_character(payload: str) -> str:
    """The MOD 37-2 check character of `payload`: one of 0-9, A-Z or `*` (ISO/IEC 7064)."""
    s = 0
    for symbol in payload:
        s = (2 * (s + _VALUES.index(symbol))) % 37
    return _VALUES[(1 - s) % 37]


def is_valid(code: str) -> bool:
    """Whether a bare six-character code stands: its length, its symbols and its check character."""
    return (
        len(code) == LENGTH
        and all(symbol in SYMBOLS for symbol in code)
        and check_character(code[:-1]) == code[-1]
    )


def draw(choose: Callable[[str], str]) -> str:
    """A new code; `choose` picks one symbol of a string, e.g. `secrets.choice`.

    Drawn again when the check character is none of the 31, and when all six are alike: a key held
    down would type such a code.
    """
    while True:
        payload = "".join(choose(SYMBOLS) for _ in range(LENGTH - 1))
        code = payload + check_character(payload)
        if is_valid(code) and len(set(code)) > 1:
            return code


def show(code: str) -> str:
    """As printed: `K7Q-4M2`."""
    return f"{code[:3]}-{code[3:]}"


def bare(text: str) -> str:
    """Upper case, without spaces and hyphens: what is left is what has to be a code."""
    return text.translate(_SEPARATORS).upper()


def parse(text: str) -> str:
    """The code in `text`, or BadInput with the one thing that is wrong: length first."""
    code = bare(text)
    if len(code) != LENGTH:
        raise BadInput(
            f"A tag code has {LENGTH} characters; this has {len(code)}. "
            "Read it off the label again.",
            field="code",
        )
    for place, symbol in enumerate(code, start=1):
        if symbol not in SYMBOLS:
            raise BadInput(_never_used(symbol, place), field="code")
    if not is_valid(code):
        raise BadInput(
            f"{show(code)} is no tag: one character is wrong or two are swapped. "
            "Read it off the label again.",
            field="code",
        )
    return code


def _never_used(symbol: str, place: int) -> str:
    if symbol in "01ILO":
        return (
            f"Character {place} reads {symbol}, and tags never use 0, 1, I, L or O. "
            "Look at the label again."
        )
    return (
        f"Character {place} reads {symbol!r}, and tags use only letters and digits. Type it again."
    )
