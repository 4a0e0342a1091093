"""One part on a traveller: its picture, what is wanted, room to write what was measured."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from bagtag.domain.asked import limits, shown
from bagtag.domain.codes import show
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import Item
from bagtag.paper.block_marks import Drawing, Frame, Middle, Photo, Rule
from bagtag.paper.block_pages import Block
from bagtag.paper.block_set import SMALL, Said, Setting
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.fonts import BOLD, MEDIUM
from bagtag.paper.ink import HAIR, INK, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.traveller_text import TravellerPart, called, off_words, state_words, work_words

SIDE = 32 * MM
"""The picture's side."""
CHUNK = 8
"""Rows of a table that are never parted."""
_MOST = 55 * MM
"""From here down no further table begins in the same block."""
SIGNED = (("work done by", 3.0), ("date", 1.3), ("signature", 3.0))
_X = SIDE + 5 * MM
_ROOM = WIDTH - _X
_PAD = 3 * MM
_ROW, _TICK = 7.4 * MM, 3.6 * MM
_BASE = _ROW / 2 + 3.6
"""Where the words of a row stand, below its top."""
_LIMITS, _MEASURED = 100 * MM, 148 * MM
_BOXES = ((118 * MM, "off"), (138 * MM, "back in"), (158 * MM, "handed back"))


def blocks(part: TravellerPart, send_out: SendOut) -> Iterator[Block]:
    """The part as one block, or as many as its tables take; the lines to sign stand in the last."""
    made, is_first = Setting(_PAD), True
    _head(made, part, send_out)
    for table in _tables(part):
        if made.y > _MOST:
            yield _ended(made, is_first).block(rule=is_first)
            made, is_first = Setting(), False
        table(made, of="" if is_first else part.item.called)
    _ended(made, is_first).sign(*SIGNED)
    made.y += _PAD
    yield made.block(rule=is_first)


def _ended(made: Setting, is_first: bool) -> Setting:
    """With room for the picture, where it has one, and air below."""
    made.y = max(made.y, _PAD + SIDE if is_first else 0.0) + _PAD
    return made


def _tables(part: TravellerPart) -> Iterator[Callable[..., None]]:
    """What is set below the head, in pieces that are never parted; in another block than the head
    they name their part again."""
    time = part.item.away
    for start in range(0, len(time.asks), CHUNK):
        yield partial(_figures, asks=time.asks[start : start + CHUNK], figures=time.figures)
    for start in range(0, len(part.pieces), CHUNK):
        yield partial(_pieces, pieces=part.pieces[start : start + CHUNK])


def _head(made: Setting, part: TravellerPart, send_out: SendOut) -> None:
    """Number, name and tag beside the picture, then what is wanted."""
    item = part.item
    _picture(made, part)
    if item.code:
        made.put_right(WIDTH, made.y + 11, Said(f"tag {show(item.code)}", MEDIUM, 10.5))
    name = f"{item.removal.number}  {called(item)}"
    made.say(_X, _ROOM - 38 * MM, Said(name, BOLD, 13, most=2))
    made.say(
        _X,
        _ROOM,
        Said(work_words(item, send_out), size=11, space=3),
        Said(off_words(item), size=9.5, colour=SOFT, space=3),
        Said(state_words(item), MEDIUM, 9.5, space=3),
    )


def _picture(made: Setting, part: TravellerPart) -> None:
    """The photo, else how it sits, else its number."""
    room = (0.0, _PAD, SIDE, SIDE)
    if part.photo is not None:
        made.marks.append(Photo(*room, part.photo))
        return
    made.marks.append(Frame(*room))
    if part.picture.items:
        inside = (2 * MM, _PAD + 2 * MM, SIDE - 4 * MM, SIDE - 4 * MM)
        made.marks.append(Drawing(*inside, part.picture))
    else:
        made.marks.append(Middle(*room, part.item.removal.number))


def _heads(made: Setting, first: str, *others: tuple[float, str]) -> None:
    """The columns' names, the first as wide as there is room."""
    room = others[0][0] - _X - 3 * MM
    made.put(_X, made.y + 7, Said(first, size=SMALL, colour=SOFT), room)
    for x, name in others:
        made.put(x, made.y + 7, Said(name, size=SMALL, colour=SOFT))
    made.y += 10


def _figures(made: Setting, asks: Sequence[Asked], figures: Sequence[Figure], of: str) -> None:
    """The figures wanted with their limits, and a cell for each to write what was measured in."""
    made.y += 3 * MM
    head = f"figures wanted of {of}" if of else "figures wanted"
    _heads(made, head, (_LIMITS, "from, to"), (_MEASURED, "measured"))
    known = {one.name: one for one in figures}
    for ask in asks:
        made.marks.append(Rule(_X, made.y, _ROOM, HAIR, 0.5))
        base = made.y + _BASE
        made.put(_LIMITS, base, Said(_wanted(ask)), _MEASURED - _LIMITS - 3 * MM)
        _cell(made, base, known.get(ask.name))
        _named(made, ask.name, _LIMITS)


def _named(made: Setting, name: str, right: float) -> None:
    """What a row is about, whole, in as many lines as it takes; the row ends below it."""
    said = Said(name, MEDIUM, most=4)
    foot, above = made.y + _ROW, _BASE - said.size
    made.y += above
    made.say(_X, right - _X - 3 * MM, said)
    made.y = max(foot, made.y + above)


def _wanted(ask: Asked) -> str:
    if ask.given is not None:
        return limits(ask) or f"{shown(ask.given, ask.places)} {ask.unit}".strip()
    return limits(ask) or "to be measured"


def _cell(made: Setting, base: float, read: Figure | None) -> None:
    wide = WIDTH - _MEASURED
    made.marks.append(Frame(_MEASURED, made.y + 0.9 * MM, wide, _ROW - 1.8 * MM, INK, 0.7))
    if read is not None:
        said = f"{shown(read.value, read.places)} {read.unit}".strip()
        made.put(_MEASURED + 2 * MM, base, Said(said, MEDIUM), wide - 4 * MM)


def _pieces(made: Setting, pieces: Sequence[Item], of: str) -> None:
    """What the shop takes off, each with its boxes."""
    made.y += 3 * MM
    _heads(made, f"the shop takes off {of}".strip(), *_BOXES)
    for piece in pieces:
        made.marks.append(Rule(_X, made.y, _ROOM, HAIR, 0.5))
        for x, _ in _BOXES:
            made.marks.append(Frame(x, made.y + (_ROW - _TICK) / 2, _TICK, _TICK, INK, 1.0))
        _named(made, f"{piece.removal.number}  {called(piece)}", _BOXES[0][0])
