"""What every editor of a which-way fact shares."""

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.datum import Datum, Side
from bagtag.domain.picture import draw
from bagtag.domain.which_way import Faces, Fact
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import tight
from bagtag.ui.forms.choices import Choices, Option


class FactEditor(QWidget):
    """Large choices for one kind of fact; `fact` is what they say, None while it is too little."""

    edited = Signal()

    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(parent)
        self.datum, self.desk = datum, desk
        self.column = QVBoxLayout(self)
        tight(self.column, 10)

    def fact(self) -> Fact | None:
        """The fact as it stands, None for none yet: each sort of fact knows."""
        raise NotImplementedError

    def load(self, fact: Any) -> None:
        """Show a fact of its sort."""
        raise NotImplementedError

    def begin(self) -> None:
        """Put the focus where one starts."""
        raise NotImplementedError

    def next_gap(self) -> QWidget | None:
        """What is still to be filled in; None when the fact is whole."""
        return None

    def _tell(self) -> None:
        self.edited.emit()


def side_options(
    datum: Datum, *, none: str = "", keys: str = "123456", pictures: bool = True
) -> list[Option]:
    """The six sides by the machine's own names; `none` names the choice of not saying."""
    options = [
        _side_option(side, datum, key, pictures) for side, key in zip(Side, keys, strict=True)
    ]
    return [*options, Option("", none, key="0")] if none else options


def _side_option(side: Side, datum: Datum, key: str, pictures: bool) -> Option:
    name = datum.call(side)
    detail = "" if name == side.value else side.value
    return Option(side, name, detail, key, draw((Faces("", side),), datum) if pictures else None)


def side_choices(name: str, datum: Datum, parent: QWidget) -> Choices:
    """A side to look or count from, or none."""
    options = side_options(datum, none="not said", pictures=False)
    return Choices(name, options, parent, columns=4)


def side_of(choices: Choices) -> Side | None:
    return choices.value or None
