"""What few parts need, folded away until it is filled in: side, size, what can hurt."""

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import PartKind
from bagtag.domain.model import Hazard
from bagtag.ui.entry.fact_editor import side_choices, side_of, side_options
from bagtag.ui.entry.toggles import Toggles
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.choices import Option
from bagtag.ui.forms.fold import Fold

_SIZE_HINT = "for example: 35 x 52 x 7"


class EntryMore(Fold):
    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__("side, size, what can hurt", parent)
        self.side = side_choices("Side of the machine it sat on", Datum(), self.fold)
        self.size_line = Line(self.fold, "Size", hint=_SIZE_HINT)
        options = [Option(hazard, hazard.value) for hazard in Hazard]
        self.hazards = Toggles("What can hurt", options, self.fold)
        self.fields = {
            "side": Field("Side of the machine it sat on", self.side, self.fold),
            "size": Field("Size", self.size_line, self.fold),
            "hazards": Field("What can hurt", self.hazards, self.fold),
        }
        self._lay_out()
        for signal in (self.side.chosen, self.size_line.textChanged, self.hazards.changed):
            signal.connect(self._tell)
        self.set_side(None)

    def _lay_out(self) -> None:
        inner = QVBoxLayout(self.fold)
        tight(inner, 12)
        for field in self.fields.values():
            inner.addWidget(field)

    def set_datum(self, datum: Datum) -> None:
        self.side.set_options(side_options(datum, none="not said", pictures=False))

    def set_kind(self, kind: PartKind | None) -> None:
        """The kind says what the figures of its size are."""
        hint = f"{kind.size}, in mm" if kind is not None and kind.size else _SIZE_HINT
        self.size_line.setPlaceholderText(hint)

    def side_value(self) -> Side | None:
        return side_of(self.side)

    def set_side(self, side: Side | None) -> None:
        self.side.set_value(side or "")
        self._open_if(side is not None)

    def set_size(self, size: str) -> None:
        self.size_line.setText(size)
        self._open_if(bool(size))

    def set_hazards(self, hazards: Iterable[Hazard]) -> None:
        self.hazards.set_values(tuple(hazards))
        self._open_if(bool(self.hazards.values))

    @property
    def is_filled(self) -> bool:
        return bool(self.side_value() or self.size_line.text().strip() or self.hazards.values)

    def _open_if(self, filled: bool) -> None:
        """It opens by itself when something is filled in, and shuts when all is empty again."""
        if filled or not self.is_filled:
            self.open(filled)

    def begin(self) -> None:
        self.side.setFocus()

    def _tell(self) -> None:
        self.changed.emit()
