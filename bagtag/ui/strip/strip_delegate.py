"""One removal painted as a piece of tape."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtWidgets import QAbstractItemView

from bagtag.domain import codes
from bagtag.domain.model import Fate, Origin
from bagtag.domain.standing import Standing
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.strip.strip_model import StripModel
from bagtag.ui.strip.tape import GAP, PICTURE, ROW, TEXT, THUMB, Face, Tape
from bagtag.ui.strip.thumbs import Thumbs
from bagtag.ui.strip.way_pixmaps import WayPixmaps

if TYPE_CHECKING:
    from bagtag.services.views import StripRow

_STRONG = {Standing.NEXT, Standing.AWAY}
ADDED = {Origin.NEW: "new part", Origin.SHOP: "off at the shop"}
"""What is said of a line that did not come off at this bench."""


class StripDelegate(RowPainter):
    """Paints a row of the strip. `building` shows the build's words instead of where a part is."""

    def __init__(self, model: StripModel, thumbs: Thumbs, parent: QAbstractItemView) -> None:
        super().__init__(parent, ROW)
        self._model = model
        self._thumbs = thumbs
        self._pictures = WayPixmaps(PICTURE.adjusted(2, 2, -2, -2).size().toSize())
        self.building = False

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        chosen = self.is_here(place)
        painter.translate(rect.left(), rect.top() + GAP / 2)
        tape = Tape(painter, rect.width() - 2, has_keys=self.view.hasFocus())
        row = None if self._model.is_now(place) else self._model.row_at(place)
        if self._model.is_now(place):
            tape.ground(tape.colours.card, chosen=True)
            self._now(tape)
        elif row is None:
            tape.ground(tape.colours.tape, chosen=chosen)
        else:
            self._row(tape, row, chosen)

    def _now(self, tape: Tape) -> None:
        tape.number(self._model.next_number, tape.colours.ink)
        tape.text(TEXT, 32, "the next one to log", 16, False, tape.colours.muted, tape.width - 60)
        tape.right(32, "now", tape.colours.accent, bold=True)

    def _row(self, tape: Tape, row: StripRow, chosen: bool) -> None:
        standing = self._model.standing_of(row)
        face = Face(
            number=row.removal.number,
            name=pieces_of(row),
            under=second_line(row),
            code=codes.show(row.code) if row.code else "",
            word=self._state(row, standing),
            strong=self.building and standing in _STRONG,
            settled=standing in {Standing.IN, Standing.SCRAPPED},
        )
        self.paint_part(tape, face, row, chosen=chosen)

    def paint_part(self, tape: Tape, face: Face, row: StripRow, *, chosen: bool) -> None:
        """A part's piece of tape, with its which-way picture and its thumbnail."""
        thumb = self._thumbs.get(row.thumb, THUMB, tape.ratio) if row.thumb else None
        tape.face(face, thumb, chosen=chosen, has_thumb=bool(row.thumb))
        tape.picture(self._picture(tape, row))

    def _state(self, row: StripRow, standing: Standing) -> str:
        if self.building or standing not in {Standing.OFF, Standing.NEXT, Standing.WAITS}:
            return standing.value
        return row.container

    def _picture(self, tape: Tape, row: StripRow) -> QPixmap | None:
        datum = self._model.datum
        if not row.told or datum is None:
            return None
        return self._pictures.get(row.told, datum, tape.ratio)


def pieces_of(row: StripRow) -> str:
    """The name, and how many of it: "3 × steel plates"."""
    removal = row.removal
    return f"{removal.quantity} × {removal.name}" if removal.quantity > 1 else removal.name


def second_line(row: StripRow) -> str:
    """What is worth saying about a part in one short line."""
    removal = row.removal
    said = [ADDED.get(removal.origin, ""), row.short]
    if row.opens:
        said.append(f"opens {', '.join(row.opens)}")
    if removal.fate is not Fate.REFIT:
        said.append(removal.fate.value)
    if removal.held_by:
        said.append(", ".join(f"{line.count} × {line.size()}" for line in removal.held_by[:2]))
    if removal.goes_on:
        said.append(removal.goes_on)
    return ". ".join(part for part in said if part)
