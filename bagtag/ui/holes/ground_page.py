"""What the holes lie on: a photo of the part, or an outline drawn in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QHBoxLayout, QWidget

from bagtag.domain.hole_places import rectangle, round_outline
from bagtag.domain.holes import HoleMap
from bagtag.ui.forms.basics import Field, Line, button, label, tight
from bagtag.ui.forms.choice import Choice
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import figure
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_page import MapPage
from bagtag.ui.holes.hole_said import Said
from bagtag.ui.holes.hole_sheet import HoleSheet

if TYPE_CHECKING:
    from bagtag.domain.model import Photo

BOX, DISC = "drawn box", "drawn disc"
EDGE = 10.0
"""The sheet goes so far beyond a drawn outline, in mm."""
NO_PHOTO = "This part has no photo. Draw an outline, or add a photo on the part's card."
GONE = "The photo under the holes is no longer with this part. Choose what they lie on now."


class GroundPage(MapPage):
    """Another ground leaves every hole where it was in the old one."""

    title = "Ground"

    def __init__(self, draft: Draft, sheet: HoleSheet, parent: QWidget) -> None:
        super().__init__(draft, sheet, parent)
        self.photos: tuple[Photo, ...] = ()
        self.kind = Choices("What the holes lie on", (), self, columns=1)
        self.width_of = Line(self, "Width in mm")
        self.height_of = Line(self, "Height in mm")
        self.take = button("Draw it\u2002Enter", self, name="Draw the outline")
        self.seen_from = Line(self, "Seen from", hint="the clutch side, above")
        self.gone = label(GONE, self, tone="accent")
        self.fields = {
            "size": Field("Width, mm", self.width_of, self),
            "height": Field("Height, mm", self.height_of, self),
            "seen_from": Field("From which side one looks at it", self.seen_from, self),
        }
        self._lay()
        self.kind.chosen.connect(self._chosen)
        self.take.clicked.connect(self.accept)
        self.seen_from.textEdited.connect(self._seen_typed)

    def _lay(self) -> None:
        sizes = QHBoxLayout()
        tight(sizes, 8)
        sizes.addWidget(self.fields["size"])
        sizes.addWidget(self.fields["height"])
        for widget in (self.gone, self.kind):
            self.column.addWidget(widget)
        self.column.addLayout(sizes)
        self.column.addWidget(self.take)
        self.column.addWidget(self.fields["seen_from"])
        self.column.addStretch(1)

    def show_photos(self, photos: Sequence[Photo]) -> None:
        self.photos = tuple({photo.hash: photo for photo in photos}.values())
        options = [
            Option(photo.hash, f"Photo {place}, {photo.role.value}", photo.name)
            for place, photo in enumerate(self.photos, 1)
        ]
        drawn = [Option(BOX, "A drawn rectangle"), Option(DISC, "A drawn circle")]
        self.kind.set_options([*options, *drawn])
        self.chain(self.kind.findChildren(Choice))
        self.told.setText("" if photos else NO_PHOTO)
        self.told.setVisible(not photos)
        self.refresh()

    def photo(self, digest: str) -> Photo | None:
        return next((photo for photo in self.photos if photo.hash == digest), None)

    def enter(self) -> None:
        hole_map = self.draft.map
        if not hole_map.photo:
            is_disc = len(hole_map.outline) > 4
            self.kind.set_value(DISC if is_disc else BOX)
            self._fill(hole_map.width - 2 * EDGE, hole_map.height - 2 * EDGE)
        else:
            self.kind.set_value(hole_map.photo)
            self._fill(200, 150)
        self.refresh()

    def begin(self) -> None:
        self.kind.setFocus()

    def said(self) -> Said:
        return Said("What the holes lie on")

    def refresh(self) -> None:
        hole_map, kind = self.draft.map, self.kind.value
        is_drawn = kind in (BOX, DISC)
        self.gone.setVisible(bool(hole_map.photo) and self.photo(hole_map.photo) is None)
        self.fields["size"].setVisible(is_drawn)
        self.fields["height"].setVisible(kind == BOX)
        self.fields["size"].caption.setText("Diameter, mm" if kind == DISC else "Width, mm")
        self.take.setVisible(is_drawn)
        if not self.seen_from.hasFocus():
            self.seen_from.setText(hole_map.seen_from)

    def _fill(self, width: float, height: float) -> None:
        self.width_of.setText(f"{width:g}")
        self.height_of.setText(f"{height:g}")

    def _chosen(self) -> None:
        """A photo is taken at once; an outline once its figures are given."""
        photo = self.photo(str(self.kind.value))
        if photo is not None:
            self.draft.set_ground(on_photo(photo))
        self.refresh()

    def accept(self) -> bool:
        if self.seen_from.hasFocus():
            self.sheet.setFocus()
            return True
        if self.kind.value not in (BOX, DISC):
            return False
        self.say_nothing()
        width = figure(self.width_of.text())
        height = width if self.kind.value == DISC else figure(self.height_of.text())
        for name, value in (("size", width), ("height", height)):
            if value is None:
                self.fields[name].say("A length in mm, above zero.")
                self.fields[name].editor.setFocus()
                return True
        assert width is not None
        assert height is not None
        self.draft.set_ground(drawn(width, height, is_round=self.kind.value == DISC))
        self.sheet.setFocus()  # so that undo is the map's
        return True

    def _seen_typed(self, text: str) -> None:
        self.draft.set_seen_from(text.strip())


def on_photo(photo: Photo) -> HoleMap:
    return HoleMap(photo=photo.hash, width=photo.width, height=photo.height)


def drawn(width: float, height: float, *, is_round: bool = False) -> HoleMap:
    """A map on an outline of this size in mm, with some air round it."""
    across, down = width + 2 * EDGE, height + 2 * EDGE
    if is_round:
        outline = round_outline((across / 2, down / 2), width / 2)
    else:
        outline = rectangle(EDGE, EDGE, width, height)
    return HoleMap(outline=outline, width=across, height=down)
