"""What surrounds a template's window: the head, the lines to measure, the legend, the sheets."""

from typing import TYPE_CHECKING

from bagtag.paper import ink
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, tidy, width
from bagtag.paper.ink import HAIR, INK, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.template_marks import shape
from bagtag.paper.template_notes import BESIDE, LEAD, MAP, SIZE, notes, room_beside
from bagtag.paper.template_sheets import (
    HEAD,
    LEGEND_ROW,
    MARGIN,
    Layout,
    Sheet,
    legend_columns,
)
from bagtag.paper.template_text import Template
from bagtag.paper.typeset import cut

if TYPE_CHECKING:
    from bagtag.paper.quick_canvas import QuickCanvas

RULER = 100
"""The line to measure, in mm; the one below it is RULER_INCHES long."""
RULER_INCHES = 4
_TEXT = 8.0
PRINT = "Print at 100 %: do not fit to the page."


class Frame:
    """Draws head and foot of one sheet; y is measured in mm from the top, x from the left."""

    def __init__(self, canvas: "QuickCanvas", template: Template, layout: Layout) -> None:
        self.canvas, self._template, self._layout = canvas, template, layout

    def draw(self, sheet: Sheet) -> None:
        self._head(sheet)
        bottom = MARGIN + HEAD + self._layout.window[1]
        self._rule(MARGIN + HEAD)
        self._rule(bottom)
        end = self._legend(bottom)
        self._rulers(end)
        self._notes(end)
        self._map(sheet, end)

    def _head(self, sheet: Sheet) -> None:
        template, right = self._template, self._layout.page[0] - MARGIN
        number = self._layout.sheets.index(sheet) + 1
        several = len(self._layout.sheets) > 1
        name = f"{sheet.name}, sheet {number} of {len(self._layout.sheets)}" if several else ""
        self._text(right - self._wide(name, BOLD, 13), MARGIN + 4.5, name, BOLD, 13)
        room = right - MARGIN - self._wide(name, BOLD, 13) - 6
        self._cut(MARGIN, MARGIN + 4.5, f"1:1 · {template.part}", BOLD, 13, room)
        job = f"{template.title} · {template.printed:%Y-%m-%d}"
        self._cut(MARGIN, MARGIN + 9, job, REGULAR, _TEXT, right - MARGIN, SOFT)
        wide = self._wide(PRINT, BOLD, 10)
        self._text(right - wide, MARGIN + 14.2, PRINT, BOLD, 10)
        self._cut(MARGIN, MARGIN + 14.2, self._seen(), MEDIUM, 10, right - wide - 6 - MARGIN)

    def _seen(self) -> str:
        seen = self._template.seen_from
        return f"Seen from {seen}." if seen else "Side not said: mark on the sheet which one it is."

    def _legend(self, top: float) -> float:
        """Every line of hardware with its shape and holes; where that ends."""
        lines, wide = self._template.lines, self._layout.page[0] - 2 * MARGIN
        count = legend_columns(self._layout.page[0])
        for place, (mark, words) in enumerate(lines):
            x = MARGIN + place % count * wide / count
            y = top + LEGEND_ROW * (place // count + 1)
            if mark:
                shape(self.canvas, mark, x * MM, self._y(y - 3.2), 3.4)
            said = f"{mark}  {words}" if mark else words
            self._cut(x + 4.6, y, said, REGULAR, _TEXT, wide / count - 6.6)
        return top + LEGEND_ROW * -(-len(lines) // count)

    def _rulers(self, top: float) -> None:
        """100 mm and 4 in, to see whether the print is true."""
        self._ruler(top + 8.5, [(n, 2.4 if n % 50 == 0 else 1.4) for n in range(0, RULER + 1, 10)])
        self._text(MARGIN + RULER + 1.2, top + 8.5, "mm", REGULAR, 7)
        inches = [(n * 25.4 / 4, 2.4 if n % 4 == 0 else 1.4) for n in range(RULER_INCHES * 4 + 1)]
        self._ruler(top + 17, inches)
        self._text(MARGIN + RULER + 2.8, top + 17, "in", REGULAR, 7)
        for n in range(0, RULER + 1, 50):
            self._text(MARGIN + n, top + 5.2, str(n), REGULAR, 7, middle=True)
        for n in range(RULER_INCHES + 1):
            self._text(MARGIN + n * 25.4, top + 13.7, str(n), REGULAR, 7, middle=True)

    def _ruler(self, y: float, ticks: list[tuple[float, float]]) -> None:
        self.canvas.setStrokeColorRGB(*INK)
        self.canvas.setLineWidth(0.2 * MM)
        base = self._y(y)
        self.canvas.setLineCap(0)
        self.canvas.line(MARGIN * MM, base, (MARGIN + ticks[-1][0]) * MM, base)
        for x, high in ticks:
            self.canvas.line((MARGIN + x) * MM, base, (MARGIN + x) * MM, base + high * MM)

    def _notes(self, top: float) -> None:
        room = room_beside(self._layout.page[0] - 2 * MARGIN)
        several = self._is_several()
        said = notes(self._template, room if several else room + MAP[0], is_several=several)
        for row, (line, font) in enumerate(said, start=1):
            self._text(MARGIN + BESIDE, top + 1.0 + LEAD * row, line, font, SIZE)

    def _is_several(self) -> bool:
        return len(self._layout.sheets) > 1

    def _map(self, sheet: Sheet, top: float) -> None:
        """All sheets as they lie, this one black."""
        if not self._is_several():
            return
        rows, columns = self._layout.rows, self._layout.columns
        wide, high = self._layout.window
        unit = min(MAP[0] / (columns * wide), MAP[1] / (rows * high))
        left = self._layout.page[0] - MARGIN - columns * wide * unit
        for one in self._layout.sheets:
            x, y = left + one.column * wide * unit, top + 2 + one.row * high * unit
            self._cell(one, x, y, (wide * unit, high * unit), is_here=one == sheet)

    def _cell(
        self, one: Sheet, x: float, y: float, size: tuple[float, float], *, is_here: bool
    ) -> None:
        wide, high = size
        self.canvas.setStrokeColorRGB(*INK)
        self.canvas.setFillColorRGB(*(INK if is_here else ink.WHITE))
        self.canvas.setLineWidth(0.2 * MM)
        self.canvas.rect(x * MM, self._y(y + high), wide * MM, high * MM, stroke=1, fill=1)
        size_pt = min(8.0, high * MM * 0.7, wide * MM * 0.4)
        colour = ink.WHITE if is_here else INK
        base = y + high / 2 + size_pt * 0.36 / MM
        self._text(x + wide / 2, base, one.name, MEDIUM, size_pt, colour, middle=True)

    def _rule(self, y: float) -> None:
        wide = self._layout.page[0] - 2 * MARGIN
        ink.rule(self.canvas, MARGIN * MM, self._y(y), wide * MM, colour=HAIR)

    def _y(self, y: float) -> float:
        return (self._layout.page[1] - y) * MM

    def _wide(self, text: str, font: str, size: float) -> float:
        return width(text, font, size) / MM

    def _cut(  # noqa: PLR0917  (where, what, how, how wide)
        self, x: float, y: float, text: str, font: str, size: float, room: float,
        colour: ink.RGB = INK,
    ) -> None:  # fmt: skip
        for line in cut(tidy(text), font, size, room * MM, 1)[0]:
            self._text(x, y, line, font, size, colour)

    def _text(  # noqa: PLR0917  (where, what, how)
        self, x: float, y: float, text: str, font: str, size: float,
        colour: ink.RGB = INK, *, middle: bool = False,
    ) -> None:  # fmt: skip
        shift = self._wide(text, font, size) / 2 if middle else 0.0
        ink.text(
            self.canvas, (x - shift) * MM, self._y(y), text, font=font, size=size, colour=colour
        )
