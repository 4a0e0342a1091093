"""The parts of a send-out, one below the other, and what is done with each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.fitting import part
from bagtag.domain.model import Origin
from bagtag.domain.sending import Batch, Item
from bagtag.ui.away.batch_dialogs import open_shop_took, open_wanted
from bagtag.ui.away.batch_item import BatchItem
from bagtag.ui.away.looks import Looks
from bagtag.ui.forms.basics import tight

if TYPE_CHECKING:
    from PySide6.QtWidgets import QDialog

    from bagtag.ui.desk import Desk


class BatchParts(QWidget):
    def __init__(self, desk: Desk, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk, self._looks = desk, looks
        self.batch: Batch | None = None
        self.items: list[BatchItem] = []
        self.dialog: QDialog | None = None
        self._parts = QVBoxLayout(self)
        tight(self._parts, 8)

    def show_batch(self, batch: Batch) -> None:
        """A piece of tape for each part; what the shop took off it is said on the same piece. One
        that says the same stays, with what is open in it."""
        had = self._with_keys()
        self.batch, items = batch, batch.items
        before = {one.item.away.id: one for one in self.items}
        for one in self.items:
            self._parts.removeWidget(one)
        self.items = []
        for item in items:
            if item.by_shop_of is None:
                taken = [one for one in items if one.by_shop_of == item.removal.id]
                there = before.get(item.away.id)
                keeps = there is not None and there.says(item, taken)
                self.items.append(there if keeps and there else self._item(item, taken))
                self._parts.addWidget(self.items[-1])
        for one in before.values():
            if one not in self.items:
                one.hide()
                one.deleteLater()
        if had is not None and self.items:
            self._give_keys(*had)

    def _with_keys(self) -> tuple[int, int, int] | None:
        """The place of the part that has the keys, its time away, and which of its acts."""
        keys = self.window().focusWidget()
        found = (
            (place, item.item.away.id, item.presses.index(keys))
            for place, item in enumerate(self.items)
            if keys in item.presses
        )
        return next(found, None)

    def _give_keys(self, place: int, away_id: int, press: int) -> None:
        """A part that is shown anew keeps them where they were; of one that is gone, the next has
        them on its first act, where Enter once more takes nothing else off the list."""
        here = self.items[min(place, len(self.items) - 1)]
        is_same = here.item.away.id == away_id and press < len(here.presses)
        here.presses[press if is_same else 0].setFocus()

    def _item(self, item: Item, taken: Sequence[Item]) -> BatchItem:
        made = BatchItem(item, taken, self._looks, self.desk, self)
        if self.batch is not None and self.batch.send_out is not None:
            made.offer_all()
        else:
            made.offer_loose()
        made.shown.connect(self.desk.show_removal)
        made.changing.connect(self._change_item)
        made.dropping.connect(self._drop)
        made.stripping.connect(self._strip)
        made.opened_photos.connect(self._shut_other_photos)
        return made

    # What is done

    def _shut_other_photos(self) -> None:
        """A watched folder's pictures go to one part, not to all that are open."""
        for one in self.items:
            if one is not self.sender():
                one.shut_photos()

    def _change_item(self, away_id: int) -> None:
        assert self.batch is not None
        item = next(one for one in self.batch.items if one.away.id == away_id)
        self.dialog = open_wanted(self.desk, self, self.batch, item)

    def _drop(self, away_id: int) -> None:
        """It was packed by mistake: undo brings it back."""
        self.desk.act(services.send_outs.drop_item, away_id)

    def _strip(self, removal_id: int) -> None:
        """The shop took something off it that nobody wrote down."""
        assert self.batch is not None
        item = next(one for one in self.batch.items if one.removal.id == removal_id)
        if self.batch.send_out is not None:
            self.dialog = open_shop_took(self.desk, self, self.batch.send_out.id, item)
        else:
            from bagtag.ui.order.add_part import open_part

            self.dialog = open_part(self.desk, self, Origin.SHOP, part(removal_id))
