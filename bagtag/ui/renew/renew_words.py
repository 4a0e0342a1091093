"""How a line of Renew is put into words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bagtag.domain.money import money
from bagtag.domain.phrases import capital
from bagtag.ui.renew.renew_signs import Stand, stand_of

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine

_COUNTED = (
    Stand.WANTED, Stand.ORDERED, Stand.LATE, Stand.COMPARE, Stand.HERE, Stand.IN, Stand.SPARE,
)  # fmt: skip


def under(line: RenewLine) -> str:
    """The second line of a row: how far it has come, which one it is, what it is for."""
    part = line.new_part
    said = "" if line.said == "wanted" else line.said
    return ", ".join(filter(None, (said, part.part_number, _for(line))))


def _for(line: RenewLine) -> str:
    """`for step 12`; of hardware which part it holds too."""
    step = f"step {line.step}" if line.step else ""
    part = line.before if line.new_part.line else ""
    said = ", ".join(filter(None, (step, part)))
    return f"for {said}" if said else ""


def head(lines: Sequence[RenewLine]) -> str:
    """`5 to renew: 3 to order, 1 late, 1 here`"""
    sure = [line for line in lines if not line.is_suggestion]
    if not sure:
        return "Nothing is to be bought yet"
    stands = [stand_of(line) for line in sure]
    if set(stands) <= {Stand.HERE, Stand.IN}:
        return "The new part is here" if len(sure) == 1 else f"All {len(sure)} new parts are here"
    kinds = [f"{stands.count(one)} {_word(one)}" for one in _COUNTED if one in stands]
    return f"{len(sure)} to renew: {', '.join(kinds)}"


def _word(stand: Stand) -> str:
    return "to compare" if stand is Stand.COMPARE else stand.value


def facts(line: RenewLine) -> list[tuple[str, str, str]]:
    """Caption, words and tone of everything known of a line."""
    part = line.new_part
    late = "accent" if stand_of(line) is Stand.LATE else "ink"
    return [
        ("How far it is", "" if line.is_suggestion else capital(line.said), late),
        ("The old one", capital(line.old_part), "ink"),
        ("Part number", part.part_number, "ink"),
        ("From", part.supplier, "ink"),
        ("Price", price(line), "ink"),
        ("Needed for", capital(needed_for(line)), "ink"),
        ("Compared", part.compared_note, "ink"),
        ("Note", part.note, "ink"),
    ]


def price(line: RenewLine) -> str:
    """`4.20 EUR, 16.80 EUR in all`"""
    part = line.new_part
    if part.price is None:
        return ""
    one = money(part.price, part.currency)
    whole = money(part.cost(part.count), part.currency)
    return f"{one} each, {whole} in all" if part.count != 1 else one


def needed_for(line: RenewLine) -> str:
    """`step 12: 7 main shaft` of what holds a part, `step 12` of the part itself."""
    step = f"step {line.step}" if line.step else ""
    before = line.before if line.new_part.line or not step else ""
    return ": ".join(filter(None, (step, before)))


def why(line: RenewLine) -> str:
    """Why it is bought, or may have to be: `Renewed whenever it has been off. It takes a set.`"""
    said = (line.why.value, line.because)
    return " ".join(f"{capital(words.strip().rstrip('.'))}." for words in said if words.strip())
