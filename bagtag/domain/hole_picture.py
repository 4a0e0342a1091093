"""The picture of a hole map: holes by shape and number, the first turns as arrows, a legend."""

from collections.abc import Callable, Mapping, Sequence

from bagtag.domain import hole_legend
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_beside import Spots, alike, anywhere, arrows
from bagtag.domain.hole_counts import marked
from bagtag.domain.hole_glyphs import glyph, number, number_size, reach
from bagtag.domain.hole_layout import Plan, planned
from bagtag.domain.hole_meet import Segment, outside
from bagtag.domain.holes import HoleMap, Point
from bagtag.domain.shapes import Arrow, Circle, Ink, Item, Line, Picture, Text

NUMBER, TURN = "number", "turn"

_STROKE, _THIN = 0.0085, 0.005
_BESIDE = 0.68
"""The font size beside a hole, as a share of the one in it."""

_NEAT, _SMALLER = (1.0, 0.86, 0.74), (1.0, 0.86, 0.74, 0.6)
"""Shares by which holes are drawn smaller until the numbers beside them find room: first all on one
side of their holes, then wherever there is room."""

_TOLD = {
    NUMBER: "Number in the hole, turn beside it",
    TURN: "Turn in the hole, number beside it",
}


def draw(
    hole_map: HoleMap,
    held_by: Sequence[HeldBy] = (),
    *,
    order: Sequence[int] | None = None,
    label: str = NUMBER,
    aspect: float | None = None,
    arrow_count: int = 3,
    has_legend: bool = True,
    lettering_size: float = 0.055,
) -> Picture:
    """The picture of a map, as wide as it likes or `aspect` times as wide as high; empty without
    holes.

    `order` is hole numbers in turn. With the label "number" the number of a hole stands in it, and
    its turn, where there is an order, small beside it; with "turn" the other way round. Where the
    small numbers find no room they are left out, all of them. Lines are told apart by shape; the
    legend, below or at the right, says which. `lettering_size` is the legend's, as a share of the
    picture's height.
    """
    if not hole_map.holes:
        return Picture((), aspect or 1.0)
    rows = hole_legend.rows(hole_map, marked(held_by)) if has_legend else []
    turns = _turns(hole_map, order or ())
    label = label if turns else NUMBER
    told = [*rows, hole_legend.Row(None, _TOLD[label])] if has_legend else []
    for legend, has_beside in ((told, True), (rows, False)) if turns else ((rows, False),):
        plan = planned(hole_map, legend, aspect, lettering_size, has_beside=has_beside)
        holes = _Joint(hole_map, plan, turns, label).drawn(arrow_count, has_beside=has_beside)
        if holes is not None:
            break
    items = [*(holes or []), *hole_legend.drawn(legend, plan.legend, plan.size)]
    return Picture(tuple(items), plan.aspect)


def _turns(hole_map: HoleMap, order: Sequence[int]) -> dict[int, str]:
    """The turn of each hole by its number; none where a single hole has one."""
    known = [number for number in order if hole_map.hole(number) is not None]
    return {number: str(turn) for turn, number in enumerate(known, 1)} if len(known) > 1 else {}


class _Joint:
    """Holes and outline where the plan puts them."""

    def __init__(self, hole_map: HoleMap, plan: Plan, turns: Mapping[int, str], label: str) -> None:
        self._holes = sorted(hole_map.holes, key=lambda hole: hole.number)
        self._plan, self._label = plan, label
        self._middles = [plan.at((hole.x, hole.y)) for hole in self._holes]
        self._outline = _closed([plan.at(point) for point in hole_map.outline])
        self._is_bare = not any(hole.mark for hole in hole_map.holes)
        places = {hole.number: place for place, hole in enumerate(self._holes)}
        self._way = [places[number] for number in turns]
        self._numbers = [str(hole.number) for hole in self._holes]
        self._turns = [turns.get(hole.number, "") for hole in self._holes]

    def drawn(self, arrow_count: int, *, has_beside: bool) -> list[Item] | None:
        """Outline, arrows, holes and what stands beside them; None where that finds no room."""
        if not has_beside:
            spots = self._spots(1.0)
            return [*self._ground(spots), *self._arrows(spots, arrow_count), *self._signs(spots)]
        tries = [(alike, share) for share in _NEAT] + [(anywhere, share) for share in _SMALLER]
        for put, share in tries:
            spots = self._spots(share)
            lines = self._arrows(spots, arrow_count)
            texts = self._beside(put, spots, lines)
            if texts is not None:
                return [*self._ground(spots), *lines, *self._signs(spots), *texts]
        return None

    def _spots(self, share: float) -> Spots:
        radius = self._plan.radius * share
        reaches = [1.0 if self._is_bare else reach(hole.mark) for hole in self._holes]
        grown = [radius * far + _STROKE / 2 for far in reaches]
        return Spots(self._middles, grown, radius, self._plan.box)

    def _ground(self, spots: Spots) -> list[Item]:
        """The outline, open where a hole stands on it."""
        strokes = self._outline
        gap = spots.radius * 0.2
        for middle, far in zip(spots.middles, spots.reaches, strict=True):
            strokes = [piece for line in strokes for piece in outside(line, middle, far + gap)]
        return [Line(*start, *end, _THIN, Ink.FAINT) for start, end in strokes]

    def _arrows(self, spots: Spots, arrow_count: int) -> list[Arrow]:
        weight = min(_THIN, spots.radius * 0.14)
        return arrows(spots, self._way[: arrow_count + 1], weight, Ink.ACCENT)

    def _beside(
        self, put: Callable[..., list[Text] | None], spots: Spots, lines: Sequence[Arrow]
    ) -> list[Text] | None:
        is_turn = self._label == NUMBER
        texts = self._turns if is_turn else self._numbers
        size = self._size(spots.radius) * _BESIDE
        style = Text(0, 0, "", size, bold=is_turn, ink=Ink.ACCENT if is_turn else Ink.INK)
        barred: list[Segment] = [((line.x1, line.y1), (line.x2, line.y2)) for line in lines]
        return put(spots, texts, [*barred, *self._outline], style)

    def _inside(self) -> list[str]:
        """What stands in the holes: a dash for one that has no turn."""
        return self._numbers if self._label == NUMBER else [turn or "–" for turn in self._turns]

    def _size(self, radius: float) -> float:
        marks = {hole.mark for hole in self._holes}
        return number_size(self._inside(), marks, radius)

    def _signs(self, spots: Spots) -> list[Item]:
        size, weight = self._size(spots.radius), min(_STROKE, spots.radius * 0.12)
        items: list[Item] = []
        for middle, hole, text in zip(self._middles, self._holes, self._inside(), strict=True):
            plain = [Circle(*middle, spots.radius, weight)]
            items += plain if self._is_bare else glyph(hole.mark, middle, spots.radius, weight)
            items.append(number(text, hole.mark, middle, spots.radius, size))
        return items


def _closed(points: Sequence[Point]) -> list[Segment]:
    """A closed line through the points."""
    return list(zip(points, [*points[1:], *points[:1]], strict=True))
