"""A place in a row by itself, as dots; and a numbered part."""

from bagtag.domain import lettering
from bagtag.domain.datum import Datum, Side
from bagtag.domain.panel_parts import ROOMY, Caption, Style, beside, captioned
from bagtag.domain.panels_row import MOST, Along, along, gap_dots, left_to_right
from bagtag.domain.sentence import place_words, tidy
from bagtag.domain.shapes import Anchor, Box, Cell, Circle, Ink, Item, Text
from bagtag.domain.which_way import Place

_UPRIGHT = {Side.TOP, Side.BOTTOM}


def place(fact: Place, datum: Datum, cell: Cell, style: Style) -> list[Item]:
    """The row with this place filled; "cylinder 2" without a row is its number in a disc."""
    if fact.of is None and fact.counted_from is None:
        return _numbered(fact, cell, style)
    if style.wide and fact.counted_from in {Side.LEFT, Side.RIGHT}:
        return along(Along(fact), datum, cell, style)
    if fact.counted_from in _UPRIGHT:
        return _column(fact, datum, cell, style)
    return _row(fact, datum, cell, style)


def _numbered(fact: Place, cell: Cell, style: Style) -> list[Item]:
    what = Caption((tidy(fact.what),), style.mark, bold=True)
    if cell.h < ROOMY:
        items, room = beside(cell, style, min(cell.w, cell.h), [what])
    else:
        items, room = captioned(cell, style, over=what)
    return items + _disc(room, min(room.w, room.h) / 2, str(fact.index), True, style)


def _row(fact: Place, datum: Datum, cell: Cell, style: Style) -> list[Item]:
    items, room = _named(fact, datum, cell, style)
    numbers = left_to_right(fact)
    post = style.thin + style.gap if fact.counted_from else 0.0
    step = min(room.h * 1.2, (room.w - post) / len(numbers))
    left = room.cx - (step * len(numbers) + post) / 2
    at_right = numbers[-1] == 1 and len(numbers) > 1
    if fact.counted_from:
        x = left + step * len(numbers) + style.gap if at_right else left
        items.append(_post(Cell(x, room.cy - step / 2, style.thin, step), room))
        left += 0 if at_right else post
    for i, number in enumerate(numbers):
        spot = Cell(left + step * i, room.y, step, room.h)
        items += _spot(number, fact, spot, style)
    return items


def _column(fact: Place, datum: Datum, cell: Cell, style: Style) -> list[Item]:
    numbers = left_to_right(fact)
    post = style.thin + style.gap
    step = min((cell.h - post) / len(numbers), cell.w)
    captions = _captions(fact, datum, style)
    items, room = beside(cell, style, step, captions)
    top = room.cy - (step * len(numbers) + post) / 2
    at_foot = fact.counted_from is Side.BOTTOM
    y = top + step * len(numbers) + style.gap if at_foot else top
    items.append(Box(room.cx - step / 2, y, step, style.thin, filled=True))
    top += 0 if at_foot else post
    for i, number in enumerate(numbers):
        items += _spot(number, fact, Cell(room.cx - step / 2, top + step * i, step, step), style)
    return items


def _named(fact: Place, datum: Datum, cell: Cell, style: Style) -> tuple[list[Item], Cell]:
    if cell.h < ROOMY and not style.wide:
        return [], cell
    over, *under = _captions(fact, datum, style)
    return captioned(cell, style, over=over, under=under[0] if under else None, symbol=0.2)


def _captions(fact: Place, datum: Datum, style: Style) -> list[Caption]:
    words = [place_words(fact), tidy(f"{fact.what} {fact.index}")]
    if not tidy(fact.what) and (fact.of or 0) <= MOST:
        words.pop()
    what = [Caption(tuple(words), style.mark * 0.85, bold=True)]
    if fact.counted_from is None:
        return what
    side = datum.call(fact.counted_from)
    ways = (f"from {side}", f"from {side}".removesuffix(" side"), side.removesuffix(" side"))
    return [*what, Caption(ways, style.name)]


def _post(cell: Cell, room: Cell) -> Item:
    """The end that the row is counted from."""
    high = min(cell.h, room.h)
    return Box(cell.x, room.cy - high / 2, cell.w, high, filled=True)


def _spot(number: int | None, fact: Place, cell: Cell, style: Style) -> list[Item]:
    if number is None:
        return gap_dots(cell.middle(cell.w * 0.7, cell.h), style)
    radius = min(cell.w, cell.h) * 0.43
    return _disc(cell, radius, str(number), number == fact.index, style)


def _disc(cell: Cell, radius: float, number: str, own: bool, style: Style) -> list[Item]:
    """A filled disc with its number reversed out, where it can be read; the others are rings."""
    if not own:
        edge = min(style.thin, radius * 0.5)
        return [Circle(cell.cx, cell.cy, radius * 0.86 - edge / 2, edge)]
    disc: list[Item] = [Circle(cell.cx, cell.cy, radius, filled=True)]
    words, size = lettering.fit(number, radius * 1.5, radius * 1.5, style.least)
    if not words or size < style.least or words != number:
        return disc
    line = cell.cy + lettering.CAP * size / 2
    return [*disc, Text(cell.cx, line, words, size, Anchor.MIDDLE, bold=True, ink=Ink.PAPER)]
