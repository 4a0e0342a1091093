"""How a template larger than the paper is laid out on sheets: which part of it each one shows."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, hypot, inf

from bagtag.domain.errors import BadInput
from bagtag.paper.template_notes import LEAD, notes, room_beside
from bagtag.paper.template_text import Template, TemplateHole

MARGIN = 8.0
"""White all round, in mm: most printers reach no farther out than 4 to 6."""
HEAD = 17.0
FOOT = 21.0
LEGEND_ROW = 4.6
OVERLAP = 15.0
MOST_SHEETS = 36
AROUND_HOLE, AROUND_OUTLINE = 14.0, 3.0
MARK = 4.0
"""How far a mark that sheets are laid together by reaches from its middle, in mm."""

PAPERS = {"A4": (210.0, 297.0), "A3": (297.0, 420.0), "Letter": (215.9, 279.4)}
"""Width and height in mm: ISO 216; Letter is 8.5 by 11 in."""

Extent = tuple[float, float, float, float]
"""Left, top, right, bottom in mm."""


@dataclass(frozen=True, slots=True)
class AlignMark:
    """A mark that is on every sheet that shows its place, by a letter."""

    name: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: row and column count from 0; `x`, `y` is the place of the template that lies in
    the top left corner of its window."""

    row: int
    column: int
    x: float
    y: float

    @property
    def name(self) -> str:
        """`A1`: rows by letter, columns by number."""
        return f"{_letters(self.row)}{self.column + 1}"


@dataclass(frozen=True, slots=True)
class Layout:
    """The paper as it lies, in mm, and the window on it that shows the template."""

    page: tuple[float, float]
    window: tuple[float, float]
    columns: int
    rows: int
    sheets: tuple[Sheet, ...]
    marks: tuple[AlignMark, ...] = ()

    def on_page(self, sheet: Sheet, x: float, y: float) -> tuple[float, float]:
        """Where a place of the template lies on a sheet: mm from its left and top edge."""
        return MARGIN + x - sheet.x, MARGIN + HEAD + y - sheet.y

    def shows(self, sheet: Sheet, x: float, y: float, reach: float = 0.0) -> bool:
        """Whether a place with all that reaches so far round it is in a sheet's window."""
        wide, high = self.window
        inside_x = reach <= x - sheet.x <= wide - reach
        return inside_x and reach <= y - sheet.y <= high - reach


def foot_height(template: Template, width: float) -> float:
    """What legend, rulers and notes take of a page so wide, in mm."""
    legend = LEGEND_ROW * ceil(len(template.lines) / legend_columns(width))
    said = notes(template, room_beside(width - 2 * MARGIN), is_several=True)
    return legend + max(FOOT, 3.0 + LEAD * len(said))


def legend_columns(width: float) -> int:
    return 2 if width < 250 else 3


def layout_of(template: Template, paper: str) -> Layout:
    """Upright or lying, whichever takes fewer sheets; BadInput for a paper that is not known and
    for more sheets than one can lay together."""
    if paper not in PAPERS:
        raise BadInput(f"There is no paper {paper}. Choose {', '.join(PAPERS)}.", field="page")
    extent = extent_of(template)
    upright = PAPERS[paper]
    found = min((_lay(template, extent, page) for page in (upright, upright[::-1])), key=_count)
    if _count(found) > MOST_SHEETS:
        raise BadInput(_too_large(extent, _count(found), paper), field="scale")
    return found


def _count(layout: Layout) -> int:
    return layout.columns * layout.rows


def _too_large(extent: Extent, count: int, paper: str) -> str:
    wide, high = extent[2] - extent[0], extent[3] - extent[1]
    return (
        f"At this scale the holes take {wide:.0f} by {high:.0f} mm, {count} sheets of {paper}. "
        "Check the distance that the scale was taken from."
    )


def extent_of(template: Template) -> Extent:
    """What has to be shown, with room for what is written beside the holes."""
    reach = [(h.x, h.y, AROUND_HOLE + (h.diameter or 0) / 2) for h in template.holes]
    reach += [(x, y, AROUND_OUTLINE) for x, y in template.outline]
    return (
        min(x - r for x, _, r in reach),
        min(y - r for _, y, r in reach),
        max(x + r for x, _, r in reach),
        max(y + r for _, y, r in reach),
    )


def _lay(template: Template, extent: Extent, page: tuple[float, float]) -> Layout:
    wide = page[0] - 2 * MARGIN
    high = page[1] - 2 * MARGIN - HEAD - foot_height(template, page[0])
    left, columns = _along(extent[0], extent[2], wide)
    top, rows = _along(extent[1], extent[3], high)
    if columns * rows > MOST_SHEETS:
        return Layout(page, (wide, high), columns, rows, ())
    sheets = tuple(
        Sheet(row, column, left + column * (wide - OVERLAP), top + row * (high - OVERLAP))
        for row in range(rows)
        for column in range(columns)
    )
    laid = Layout(page, (wide, high), columns, rows, sheets)
    marks = tuple(_marks(laid, template.holes))
    return Layout(page, (wide, high), columns, rows, sheets, marks)


def _along(first: float, last: float, window: float) -> tuple[float, int]:
    """Where the first window begins, and how many there are; what is spare lies at both ends."""
    length = last - first
    count = 1 if length <= window else ceil((length - OVERLAP) / (window - OVERLAP))
    spare = count * (window - OVERLAP) + OVERLAP - length
    return first - spare / 2, count


def seams(layout: Layout, sheet: Sheet) -> tuple[float | None, float | None]:
    """The middle of the overlap at a sheet's right edge and at its bottom, in the template's mm."""
    wide, high = layout.window
    right = sheet.x + wide - OVERLAP / 2 if sheet.column < layout.columns - 1 else None
    below = sheet.y + high - OVERLAP / 2 if sheet.row < layout.rows - 1 else None
    return right, below


def seam_boxes(layout: Layout) -> list[tuple[float, float, float, float]]:
    """Thin boxes along every seam, that words keep clear of."""
    found = []
    wide, high = layout.window
    for sheet in layout.sheets:
        right, below = seams(layout, sheet)
        if right is not None:
            found.append((right - 0.5, sheet.y, right + 0.5, sheet.y + high))
        if below is not None:
            found.append((sheet.x, below - 0.5, sheet.x + wide, below + 0.5))
    return found


def _marks(layout: Layout, holes: Sequence[TemplateHole]) -> Iterator[AlignMark]:
    """Two marks on every seam, in its two halves, where they are clear of the holes."""
    places = []
    for sheet in layout.sheets:
        right, below = seams(layout, sheet)
        for low, high in ((0.1, 0.4), (0.6, 0.9)):
            if right is not None:
                spots = [
                    (right, sheet.y + layout.window[1] * share) for share in _shares(low, high)
                ]
                places.append(_clearest(spots, holes))
            if below is not None:
                spots = [
                    (sheet.x + layout.window[0] * share, below) for share in _shares(low, high)
                ]
                places.append(_clearest(spots, holes))
    for number, (x, y) in enumerate(places):
        yield AlignMark(_letters(number).lower(), x, y)


def _shares(low: float, high: float) -> list[float]:
    return [low + (high - low) * step / 12 for step in range(13)]


def _clearest(
    spots: Sequence[tuple[float, float]], holes: Sequence[TemplateHole]
) -> tuple[float, float]:
    """The spot farthest from every hole, but no farther out of the way than it needs to be."""

    def room(spot: tuple[float, float]) -> float:
        near = (hypot(h.x - spot[0], h.y - spot[1]) - (h.diameter or 0) / 2 for h in holes)
        return min(min(near, default=inf), 2 * AROUND_HOLE)

    return max(spots, key=room)


def _letters(number: int) -> str:
    """A to Z, then AA."""
    first, last = divmod(number, 26)
    return (chr(64 + first) if first else "") + chr(65 + last)
