"""What a person says of a line to renew, made clean, or one sentence that says what is wrong."""

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal
from unicodedata import category

from bagtag.domain.clean import NAME_LIMIT, NOTE_LIMIT, TEXT_LIMIT, clean_text, whole
from bagtag.domain.errors import BadInput
from bagtag.domain.money import SIGNS, check_one_way, currency, sum_of_money
from bagtag.domain.new_part import NewPart

_BESIDE = {"at", "ca", "ca.", "net", "pcs", "per"}
"""Short words that stand beside a price and are no currency."""
_SHORT = re.compile(r"[^\W\d_]{2,3}\.?")
_FIGURE = re.compile(r"\d[\d.,' \u00a0\u202f]*")
_THOUSANDS = re.compile(r"\d{1,3}(?:([.,' \u00a0\u202f])\d{3})(?:\1\d{3})*")


def checked(part: NewPart) -> NewPart:
    """A line as it can be kept: its text clean, its count a whole number, its days in order."""
    found = replace(
        part,
        what=_text(part.what, "what", "The name", NAME_LIMIT),
        size=_text(part.size, "size", "The size"),
        part_number=_text(part.part_number, "part_number", "The part number"),
        supplier=_text(part.supplier, "supplier", "The supplier", NAME_LIMIT),
        count=whole(part.count, "The count", field="count"),
        price=sum_of_money(part.price),
        currency=currency(part.currency),
        note=clean_text(part.note, lines=True, limit=NOTE_LIMIT, field="note", what="The note"),
    )
    if not found.what:
        raise BadInput("Say what is bought, for example: oil seal.", field="what")
    check_days(found.ordered_on, found.due)
    return found


def _text(text: str, field: str, what: str, limit: int = TEXT_LIMIT) -> str:
    return clean_text(text, limit=limit, field=field, what=what)


def check_days(ordered_on: date | None, due: date | None) -> None:
    """BadInput for a new part that is due before it was ordered."""
    if ordered_on is not None and due is not None and due < ordered_on:
        raise BadInput(
            f"It is due {due}, before it was ordered on {ordered_on}. Correct one of the two.",
            field="due",
        )


def read_price(text: str) -> tuple[Decimal | None, str]:
    """`12,50 EUR`, `£ 12.50`, `1.234,50`: the price and its currency, None and nothing for none.

    A comma or a point is the decimal sign. One alone with three figures behind it could be either,
    so it is BadInput, as is anything that is no figure.
    """
    clean = clean_text(text, limit=TEXT_LIMIT, field="price", what="The price")
    if not clean:
        return None, ""
    match = _FIGURE.search(clean)
    rest = (clean[: match.start()] + " " + clean[match.end() :]).strip() if match else clean
    if match is None or (rest and not _is_currency(rest)):
        raise BadInput(
            f"{clean!r} is no price. Give a figure and, if you like, its currency: 12.50 EUR.",
            field="price",
        )
    return sum_of_money(_decimal(match[0].rstrip(".,' \u00a0\u202f"), clean)), currency(rest)


def _is_currency(word: str) -> bool:
    """A sign of money, with letters or alone, or a short word: not `about` and not `each`."""
    if any(c.isdecimal() or c in "-+=/" for c in word) or word.casefold() in _BESIDE:
        return False
    has_sign = any(category(c) == "Sc" for c in word)
    return has_sign or word.casefold() in SIGNS or bool(_SHORT.fullmatch(word))


def _decimal(figure: str, said: str) -> Decimal:
    """A figure with a comma or a point; spaces, apostrophes, and the other of the two, in groups
    of three."""
    check_one_way(figure, said)
    marks = [c for c in figure if c in ".,"]
    head, mark, tail = figure, "", ""
    if marks and marks.count(marks[-1]) == 1:
        head, mark, tail = figure.rpartition(marks[-1])
    if not (head.isdecimal() or _THOUSANDS.fullmatch(head)) or (mark and not tail.isdecimal()):
        raise BadInput(f"{said!r} is no price. Write it as 1234.50.", field="price")
    return Decimal(re.sub(r"\D", "", head) + (f".{tail}" if tail else ""))
