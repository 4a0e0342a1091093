"""The rows of an order list: what, how many, for what, its price, and boxes to tick."""

from bagtag.domain.money import money
from bagtag.domain.phrases import capital
from bagtag.domain.renewal_merge import Merged, SupplierList
from bagtag.paper.block_marks import Frame, Rule
from bagtag.paper.block_pages import Block
from bagtag.paper.block_set import SMALL, Said, Setting
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.fonts import BOLD, MEDIUM
from bagtag.paper.ink import INK, SOFT
from bagtag.paper.pdf import MM

_ORDERED, _HERE = 0.0, 14 * MM
_COUNT, _WHAT, _PRICE, _SUM = 38 * MM, 43 * MM, 150 * MM, WIDTH
"""Where the columns begin; the count, the price and the sum end there."""
_ROOM = _PRICE - 26 * MM - _WHAT
_TICK, _PAD = 3.6 * MM, 2.2 * MM
_FOR = 8
"""Lines that what it is for may take."""


def heading() -> Block:
    """The columns' names."""
    made = Setting(6 * MM)
    for x, name in ((_ORDERED, "ordered"), (_HERE, "here"), (_WHAT, "what")):
        made.put(x, made.y, Said(name, size=SMALL, colour=SOFT))
    for right, name in ((_COUNT, "count"), (_PRICE, "price"), (_SUM, "sum")):
        made.put_right(right, made.y, Said(name, size=SMALL, colour=SOFT))
    made.y += 1.2 * MM
    return made.block(heading=True)


def row(line: Merged) -> Block:
    made = Setting(_PAD)
    base = _PAD + 11
    for x in (_ORDERED, _HERE):
        made.marks.append(Frame(x, base - _TICK + 0.6, _TICK, _TICK, INK, 1.0))
    made.put_right(_COUNT, base, Said(str(line.count), BOLD, 12))
    if line.price is None:
        marks = (Rule(_PRICE - 20 * MM, base + 1, 20 * MM), Rule(_SUM - 24 * MM, base + 1, 24 * MM))
        made.marks += marks
    made.put_right(_PRICE, base, Said(money(line.price, line.currency)))
    made.put_right(_SUM, base, Said(money(line.sum, line.currency), MEDIUM))
    made.say(_WHAT, _ROOM, Said(_named(line), MEDIUM, 11, most=3))
    if line.part_number:
        made.say(_WHAT, _ROOM, Said(f"part number {line.part_number}", size=10, most=2))
    for_ = f"for {'; '.join(line.for_)}" if line.for_ else ""
    made.say(_WHAT, _ROOM, Said(for_, size=8.5, colour=SOFT, most=_FOR))
    made.y += _PAD
    return made.block(rule=True)


def _named(line: Merged) -> str:
    """`Shaft seal, 25x42x7`"""
    return capital(", ".join(part for part in (line.what, line.size) if part))


def totals(found: SupplierList) -> Block:
    """The sum in each currency, and what of the list is in none."""
    made = Setting(1 * MM)
    made.marks.append(Rule(0, 0, WIDTH, INK, 0.9))
    for currency, total in found.total:
        made.y += 6 * MM
        name = "Sum of the lines that have a price" if found.unpriced else "Sum"
        made.put(_WHAT, made.y, Said(name, MEDIUM, 11))
        made.put_right(_SUM, made.y, Said(money(total, currency), BOLD, 12))
    many = f"{found.unpriced} line{'s have' if found.unpriced != 1 else ' has'}"
    if found.unpriced:
        made.y += 2 * MM
        made.say(_WHAT, _ROOM + 40 * MM, Said(f"{many} no price yet: ask.", size=10, colour=SOFT))
    made.y += 4 * MM
    made.sign(("ordered by", 3.0), ("on", 1.3), ("promised for", 1.6), ("order number", 2.4))
    return made.block()
