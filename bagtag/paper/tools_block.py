"""The rows of a tools page: two boxes, what it is, which steps it is for."""

from collections.abc import Iterator, Sequence

from bagtag.domain.phrases import capital, whole
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.tools import ToolKind, ToolNeed, ToolSheet, ToolStep, places_words
from bagtag.paper.block_pages import PAD, SIZE, Block, Words
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, tidy
from bagtag.paper.ink import INK, RGB, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.typeset import cut

OUT, BACK, NAME, FOR = 0.0, 13 * MM, 27 * MM, 92 * MM
"""Where the columns begin: laid out, counted back, what it is, what it is for."""
EXTRA, UNKNOWN, MORE = "Laid out besides", "Look which tool these take", "What else is laid out"
_LEAD, _AIR = 12.6, 4 * MM
_BLANK = 8 * MM
_BLANKS = 3
_MOST = 14
"""Lines that the steps of a tool may take; the places of all of them stand above."""
_REST = " see the others on the checklist"


def groups(sheet: ToolSheet) -> Iterator[tuple[str, bool, list[Block]]]:
    """Heading, whether it is counted back, and rows of each group that has any."""
    for kind in ToolKind:
        rows = [_need(row, sheet) for row in sheet.of(kind)]
        if rows:
            yield kind.value, kind.is_counted, rows
    if sheet.unknown:
        yield UNKNOWN, True, [_step(step) for step in sheet.unknown]
    if sheet.extra:
        yield EXTRA, True, [_extra(one) for one in sheet.extra]
    yield MORE, True, [_blank() for _ in range(_BLANKS)]


def heading(title: str, *, is_counted: bool, again: bool = False) -> Block:
    """A group's name over what its boxes mean."""
    top = 0.0 if again else 5 * MM
    name = f"{title} (continued)" if again else title
    base = top + 12
    words = [Words(NAME, base, name, BOLD, 12), Words(OUT, base, "laid out", REGULAR, 7.5, SOFT)]
    if is_counted:
        words.append(Words(BACK, base, "back", REGULAR, 7.5, SOFT))
    return Block(base + 2 * MM, tuple(words), heading=True)


def _need(row: ToolNeed, sheet: ToolSheet) -> Block:
    out = sheet.is_out(row.name)
    likely = [("likely: look at it first", SOFT)] if row.is_likely else []
    there = [(_out_words(out), INK)] if out else []
    notes = [(note, SOFT) for note in row.notes]
    steps = [(f"{capital(places_words(row.places))}.", INK)] if row.places else []
    each = [("; ".join(dict.fromkeys(map(_step_words, row.steps))), SOFT)]
    return _row(row.name, [*there, *likely, *notes], [*steps, *each], kind=row.kind)


def _step_words(step: ToolStep) -> str:
    """`23 cylinder head: 4 bolts M10x30`, by the place in the plan."""
    return f"{step.called}: {step.what}" if step.what else step.called


def _out_words(one: ToolOut) -> str:
    many = f"{one.count} " if one.count > 1 else ""
    who = f" by {one.out_by}" if one.out_by else ""
    return f"{many}out now, laid out {one.out_at:%Y-%m-%d %H:%M}{who}"


def _step(step: ToolStep) -> Block:
    return _row(step.what or step.called, [], [(f"Step {step.place}, {step.called}", SOFT)])


def _extra(one: ToolOut) -> Block:
    return _row(one.name, [(_out_words(one), INK)], [("No step of this sheet asks for it.", SOFT)])


def _row(
    name: str,
    below: Sequence[tuple[str, RGB]],
    beside: Sequence[tuple[str, RGB]],
    *,
    kind: ToolKind = ToolKind.OTHER,
) -> Block:
    first = PAD + SIZE * 0.86
    left = list(_column([(name, INK)], NAME, first, FOR - _AIR, font=MEDIUM))
    left += _column(below, NAME, first + len(left) * _LEAD, FOR - _AIR, size=9.0)
    right = list(_column(beside, FOR, first, WIDTH, size=9.0))
    height = 2 * PAD + SIZE + (max(len(left), len(right), 1) - 1) * _LEAD
    boxes = (OUT, BACK) if kind.is_counted else (OUT,)
    return Block(height, (*left, *right), boxes, rule=True)


def _column(
    texts: Sequence[tuple[str, RGB]],
    x: float,
    y: float,
    right: float,
    *,
    font: str = REGULAR,
    size: float = SIZE,
) -> Iterator[Words]:
    for text, colour in texts:
        for line in _lines(whole(tidy(text)), font, size, right - x):
            yield Words(x, y, line, font, size, colour)
            y += _LEAD


def _lines(text: str, font: str, size: float, room: float) -> list[str]:
    """What has no room says where to find it."""
    lines, was_cut = cut(text, font, size, room, _MOST)
    return cut(text, font, size, room, _MOST, tail=_REST)[0] if was_cut else lines


def _blank() -> Block:
    return Block(_BLANK, (), (OUT, BACK), rule=True)
