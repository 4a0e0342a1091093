"""In which order the holes are tightened: computed, or by hand."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from bagtag.domain.hole_order import order
from bagtag.domain.holes import HoleMap, OrderKind
from bagtag.domain.phrases import spanned
from bagtag.ui.forms.basics import Field, button
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_page import MapPage
from bagtag.ui.holes.hole_said import Said
from bagtag.ui.holes.hole_sheet import HoleSheet

KINDS = (
    Option(OrderKind.STAR, "Crosswise"),
    Option(OrderKind.CENTRE, "From centre"),
    Option(OrderKind.ROUND, "All round"),
    Option(OrderKind.GIVEN, "By hand"),
)
WAYS = (Option(False, "Tighten"), Option(True, "Loosen"))
MOST = 32
"""So many turns are listed beside the map; more would push the choices out of sight."""
BY_HAND = (
    "Click the holes in their turn, as the manual numbers them. The last one again: back. "
    "By keys: Shift+Tab to the map, Page Down to a hole, Enter."
)
COMPUTED = "The manual's own order goes before this one: choose By hand and click it in."


class OrderPage(MapPage):
    """The turns stand at the holes; the first ones are joined by arrows."""

    title = "Order"
    hint = COMPUTED

    def __init__(self, draft: Draft, sheet: HoleSheet, parent: QWidget) -> None:
        super().__init__(draft, sheet, parent)
        self.kind = Choices("How the order is found", KINDS, self)
        self.way = Choices("Which way the order is shown", WAYS, self)
        self.way.set_value(False)
        self.group = Choices("Which holes", (), self)
        self.of_group = Field("Which holes", self.group, self)
        self._groups: list[str] = []
        self.anew = button("Begin anew", self, name="Begin the order by hand anew")
        for widget in (Field("How it is found", self.kind, self), self.anew, self.of_group,
                       Field("Show it to", self.way, self)):  # fmt: skip
            self.column.addWidget(widget)
        self.column.addStretch(1)
        self.kind.chosen.connect(self._kind_chosen)
        self.way.chosen.connect(draft.pointed)
        self.group.chosen.connect(draft.pointed)
        self.anew.clicked.connect(self._begin_anew)

    def refresh(self) -> None:
        hole_map = self.draft.map
        by_hand = hole_map.order is OrderKind.GIVEN
        self.kind.set_value(hole_map.order)
        self.anew.setVisible(by_hand)
        self.told.setText(BY_HAND if by_hand else COMPUTED)
        self._show_groups(hole_map)
        turns = order(hole_map, group=self._group(), is_reversed=bool(self.way.value))
        shown = turns
        if by_hand and not self.way.value:  # the rest comes after; it is not clicked in yet
            shown = tuple(number for number in turns if number in hole_map.given)
        if self.isVisible():
            self.sheet.show_turns(shown)

    def begin(self) -> None:
        self.kind.setFocus()

    def said(self) -> Said:
        """The order itself: it is what one reads from an arm away."""
        kind, hole_map = self.draft.map.order.value, self.draft.map
        begun = "Loosen" if self.way.value else "Tighten"
        turns = order(hole_map, group=self._group(), is_reversed=bool(self.way.value))
        if not turns:
            return Said("No holes yet")
        if hole_map.order is OrderKind.GIVEN and not self.way.value:
            return self._said_by_hand(f"{begun} {kind}", turns)
        return Said(f"{begun} {kind}", listed(turns))

    def _said_by_hand(self, begun: str, turns: Sequence[int]) -> Said:
        """What was clicked in so far, and what was not: it comes after, and may be forgotten."""
        given = [number for number in turns if number in self.draft.map.given]
        rest = [number for number in turns if number not in given]
        if not given:
            return Said(begun, "No hole has its turn yet")
        return Said(begun, listed(given), f"After these: {spanned(rest)}." if rest else "")

    def take_spot(self, x: float, y: float) -> None:
        """A place without a hole has no turn."""

    def take_hole(self, number: int, adding: bool) -> None:
        given = self.draft.map.given
        if self.draft.map.order is not OrderKind.GIVEN:
            self.draft.point_at(number, adding=adding)
        elif given and given[-1] == number:
            self.draft.set_given(given[:-1])
        elif number not in given:
            self.draft.set_given((*given, number))

    def _kind_chosen(self) -> None:
        self.draft.set_order(self.kind.value)

    def _begin_anew(self) -> None:
        self.draft.set_given(())

    def _show_groups(self, hole_map: HoleMap) -> None:
        groups = sorted({hole.group for hole in hole_map.holes if hole.group})
        self.of_group.setVisible(bool(groups))
        if groups != self._groups:
            self._groups = groups
            self.group.set_options([Option("", "All"), *(Option(one, one) for one in groups)])
        if self.group.value is None:
            self.group.set_value("")

    def _group(self) -> str:
        return self.group.value or ""


def listed(turns: Sequence[int]) -> str:
    """The first ones of a long order; all of them stand on the map and on the checklist."""
    said = ", ".join(map(str, turns[:MOST]))
    more = len(turns) - MOST
    return f"{said} and {more} more, as on the map" if more > 0 else said
