"""The tags of the part on the card: its own, and twins for it and its place."""

from collections.abc import Sequence

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.model import Tag
from bagtag.ui.desk import Desk
from bagtag.ui.sheets.label_dialog import open_labels


class CardTags(QObject):
    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self.desk = desk

    def print_tag(self, removal_id: int) -> None:
        self._open(removal_ids=(removal_id,))

    def print_twins(self, removal_id: int, tags: Sequence[Tag]) -> None:
        """Make two matching tags and open them for printing; twins made before are used again."""
        pair = next((tag.pair for tag in reversed(tags) if tag.pair), "")
        if pair:
            self._open(codes=tuple(tag.code for tag in tags if tag.pair == pair))
        else:
            self.desk.act(services.tags.make_twins, removal_id, then=self._made)

    def _made(self, made: tuple[Change, tuple[str, str]]) -> None:
        self._open(codes=made[1])

    def _open(self, *, removal_ids: tuple[int, ...] = (), codes: tuple[str, ...] = ()) -> None:
        over = self.parent()
        assert isinstance(over, QWidget)
        order = services.labels.LabelOrder(self.desk.job_id, removal_ids, codes=codes)
        open_labels(self.desk, order, over)
