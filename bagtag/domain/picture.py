"""The which-way picture: what the facts look like, as a display list for paper and screen.

Left and right lie on the page as they lie seen from the datum's viewpoint, top is up and bottom
down. Front comes out of the page and rear goes into it, or the other way round where the viewpoint
says that one looks forward, drawn as a vector is in engineering: a circle with a dot for out of the
page, a circle with a cross for into it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations, pairwise
from typing import Any

from bagtag.domain.datum import Datum, Side
from bagtag.domain.panel_parts import COMPACT, WIDE, Caption, Style, written
from bagtag.domain.panels_alike import same_way, without
from bagtag.domain.panels_facing import faces, hand
from bagtag.domain.panels_fit import clocking, match_mark, seat
from bagtag.domain.panels_place import place
from bagtag.domain.panels_row import Along, along
from bagtag.domain.sentence import spoken
from bagtag.domain.shapes import (
    Anchor,
    Arrow,
    Box,
    Cell,
    Circle,
    Ink,
    Item,
    Line,
    Picture,
    Text,
)
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    Outness,
    Place,
    SameWay,
    Seat,
    Without,
)

__all__ = ["Anchor", "Arrow", "Box", "Circle", "Ink", "Item", "Line", "Picture", "Text", "draw"]

COMPACT_ASPECT = 44 / 30
WIDE_ASPECT = 600 / 220
_SIDEWAYS = {Side.LEFT, Side.RIGHT}


@dataclass(frozen=True, slots=True)
class Panel:
    """One drawing of a picture; `aspect` is the width it wishes for in units of its height, `tall`
    its row's height against other rows."""

    draw: Callable[[Cell, Style], list[Item]]
    aspect: float
    is_hand: bool = False
    tall: float = 1.0


def draw(
    facts: Sequence[Fact], datum: Datum, *, wide: bool = False, aspect: float | None = None
) -> Picture:
    """The picture of these facts, `aspect` times as wide as it is high; no items for no facts.

    `wide` is the card's version with the names of the sides; else the small one for a label or a
    row, with fewer words and thicker lines. Default aspects: 600 to 220 and 44 to 30.
    """
    shape = aspect or (WIDE_ASPECT if wide else COMPACT_ASPECT)
    style = WIDE if wide else COMPACT
    items = [item for _, drawn in compose(facts, datum, style, shape) for item in drawn]
    return Picture(tuple(items), shape)


def compose(
    facts: Sequence[Fact], datum: Datum, style: Style, aspect: float
) -> list[tuple[Cell, list[Item]]]:
    """Every panel with the cell it keeps to."""
    pad = 0.06 if style.wide else 0.03
    most = 6 if style.wide else 4
    shown = _with_told(facts, most)
    panels = _at_most(_panels(shown if style.wide else _seen(shown), datum, style), most)
    cells = _cells(panels, Cell(0, 0, aspect, 1).inset(pad), 0.14 if style.wide else 0.09)
    drawn = [
        (cell, panel.draw(cell, style.fitted(cell)))
        for panel, cell in zip(panels, cells, strict=True)
    ]
    return [*drawn, *_rules(cells, style)]


def _with_told(facts: Sequence[Fact], most: int) -> list[Fact]:
    """The facts in the order they are said, and how the part sits by another one's as its own.
    Where room runs short, it is more to see how it sits than as which other part."""
    said = spoken(facts)
    through = [told for fact in said if isinstance(fact, SameWay) for told in fact.facts]
    if not through:
        return said
    bare = [replace(fact, facts=()) if isinstance(fact, SameWay) else fact for fact in said]
    shown = spoken([*bare, *through])
    crowded = len(shown) >= most
    return [fact for fact in shown if not (crowded and isinstance(fact, SameWay))]


def _seen(facts: list[Fact]) -> list[Fact]:
    """What a small picture has room for: that something is not there says the sentence, where
    there are two facts to see."""
    there = [fact for fact in facts if not (isinstance(fact, Without) and fact.feature)]
    return there if len(there) > 1 else facts


def _panels(facts: Sequence[Fact], datum: Datum, style: Style) -> list[Panel]:
    scene, rest = _scene(facts) if style.wide else (None, list(facts))
    panels = [_panel(fact, datum, style) for fact in rest]
    if scene is None:
        return panels
    places = 3 if scene.place is None else min(scene.place.of or 4, 7)
    row = Panel(
        lambda cell, how: along(scene, datum, cell, how),
        1.1 + 0.42 * (places + len(scene.marks)),
        tall=1.7,
    )
    return [row, *panels]


def _scene(facts: Sequence[Fact]) -> tuple[Along | None, list[Fact]]:
    """What one left-right line can show together, and the facts that stay for other panels."""
    row = next((f for f in facts if isinstance(f, Place) and _on_line(f)), None)
    marks: dict[Side, Faces] = {}
    for fact in facts:
        if isinstance(fact, Faces) and isinstance(fact.toward, Side) and fact.toward in _SIDEWAYS:
            marks.setdefault(fact.toward, fact)
    if row is None and not marks:
        return None, list(facts)
    own = next((f for f in facts if isinstance(f, Hand)), None)
    shown = {row, own, *marks.values()}
    scene = Along(row, {side: fact.feature for side, fact in marks.items()}, own)
    return scene, [fact for fact in facts if fact not in shown]


def _on_line(fact: Place) -> bool:
    return fact.counted_from in _SIDEWAYS and fact.index >= 1


def _panel(fact: Fact, datum: Datum, style: Style) -> Panel:
    return _PANELS[type(fact)](fact, datum, style)


def _faces(fact: Faces, datum: Datum, style: Style) -> Panel:
    wall = isinstance(fact.toward, Outness)
    lettering = 0.0 if style.wide else 0.14 * len(fact.feature)
    return Panel(partial(faces, fact, datum), max(1.3 if wall else 1.2, 0.6 + lettering))


def _clocking(fact: Clocking, datum: Datum, style: Style) -> Panel:
    return Panel(partial(clocking, fact, datum), 1.8 if style.wide else 1.2)


def _without(fact: Without, _: Datum, style: Style) -> Panel:
    words = bool(fact.feature) and not style.wide
    return Panel(partial(without, fact), 1.9 if words else 1.2)


_PANELS: dict[type, Callable[[Any, Datum, Style], Panel]] = {
    Hand: lambda fact, _, __: Panel(partial(hand, fact), 0.72, is_hand=True),
    Faces: _faces,
    Place: lambda fact, datum, _: Panel(partial(place, fact, datum), 1.3),
    Clocking: _clocking,
    Seat: lambda fact, _, __: Panel(partial(seat, fact), 1.1),
    MatchMark: lambda fact, _, __: Panel(partial(match_mark, fact), 1.2),
    SameWay: lambda fact, _, __: Panel(partial(same_way, fact), 1.3),
    Without: _without,
}


def _at_most(panels: list[Panel], most: int) -> list[Panel]:
    """As many as can be read; the last then tells how many more the sentence has."""
    if len(panels) <= most:
        return panels
    more = f"+{len(panels) - most + 1}"
    return [*panels[: most - 1], Panel(partial(_more, more), 0.8)]


def _more(words: str, cell: Cell, style: Style) -> list[Item]:
    return written(cell, Caption((words,), style.mark, bold=True), style, Anchor.MIDDLE)


def _cells(panels: Sequence[Panel], room: Cell, gap: float) -> list[Cell]:
    """A cell for each panel: a hand stands at the left at full height, the others in rows."""
    if not panels:
        return []
    if panels[0].is_hand and len(panels) > 2:
        wide = min(room.h * 0.72, room.w * 0.38)
        own = Cell(room.x, room.y, wide, room.h)
        return [own, *_rows(panels[1:], room.trimmed(left=wide + gap), gap)]
    return _rows(panels, room, gap)


def _rows(panels: Sequence[Panel], room: Cell, gap: float) -> list[Cell]:
    ways = [cuts for n in range(3) for cuts in combinations(range(1, len(panels)), n)]
    best = max(ways, key=lambda cuts: _size(_split(panels, cuts), room, gap))
    cells, y = [], room.y
    for row, high in _heights(_split(panels, best), room, gap):
        cells += _row(row, Cell(room.x, y, room.w, high), gap)
        y += high + gap
    return cells


def _split(panels: Sequence[Panel], cuts: Sequence[int]) -> list[Sequence[Panel]]:
    ends = [0, *cuts, len(panels)]
    return [panels[a:b] for a, b in pairwise(ends)]


def _heights(
    rows: Sequence[Sequence[Panel]], room: Cell, gap: float
) -> list[tuple[Sequence[Panel], float]]:
    shares = [max(panel.tall for panel in row) for row in rows]
    unit = (room.h - gap * (len(rows) - 1)) / sum(shares)
    return [(row, share * unit) for row, share in zip(rows, shares, strict=True)]


def _size(rows: Sequence[Sequence[Panel]], room: Cell, gap: float) -> tuple[float, float]:
    """How large the panels come out: the height that the tightest row can use, then the width."""
    units = [(_unit(row, room, gap), high) for row, high in _heights(rows, room, gap)]
    return min(map(min, units)), min(unit for unit, _ in units)


def _unit(row: Sequence[Panel], room: Cell, gap: float) -> float:
    """The height at which the panels of a row fill its width."""
    return (room.w - gap * (len(row) - 1)) / sum(panel.aspect for panel in row)


def _row(row: Sequence[Panel], room: Cell, gap: float) -> list[Cell]:
    unit = _unit(row, room, gap)
    cells, x = [], room.x
    for panel in row:
        cells.append(Cell(x, room.y, panel.aspect * unit, room.h))
        x += panel.aspect * unit + gap
    return cells


def _rules(cells: Sequence[Cell], style: Style) -> list[tuple[Cell, list[Item]]]:
    """In the wide picture a thin line stands between neighbours."""
    if not style.wide:
        return []
    rules: list[tuple[Cell, list[Item]]] = []
    for left, right in pairwise(cells):
        if right.x <= left.right:
            continue
        high = min(left.h, right.h)
        y = max(left.y, right.y)
        gap = Cell(left.right, y, right.x - left.right, high)
        line = Line(gap.cx, y + 0.02, gap.cx, y + high - 0.02, style.thin / 2, Ink.FAINT)
        rules.append((gap, [line]))
    return rules
