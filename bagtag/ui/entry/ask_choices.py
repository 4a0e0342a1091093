"""The answers to a question as large choices; the panel around them has the focus and the keys."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QWidget

from bagtag.domain.asking import Answer
from bagtag.domain.datum import Datum
from bagtag.domain.picture import draw
from bagtag.domain.sentence import ordinal
from bagtag.domain.shapes import Picture
from bagtag.domain.which_way import Clocking, Faces, Hand, Place, Seat, Without
from bagtag.ui.forms.choice import PICTURE
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.inks import sized

HIGH, DETAILED, LOW, BETWEEN = 58, 52, 46, 6
"""A choice's height in one or two rows, and in more with and without details; the room between
two. In pixels."""
ROWS = 3
_BESIDE = 48
"""A choice's key and the air around its words, in pixels."""


@dataclass(frozen=True, slots=True)
class Block:
    """Choices as they are laid out in so many columns."""

    options: tuple[Option, ...]
    columns: int

    @property
    def rows(self) -> int:
        return -(-len(self.options) // self.columns)

    @property
    def row_height(self) -> int:
        detailed = any(option.detail for option in self.options)
        return HIGH if self.rows < ROWS else DETAILED if detailed else LOW

    @property
    def height(self) -> int:
        return self.rows * (self.row_height + BETWEEN) - BETWEEN


class AskChoices(Choices):
    """The answers of one question. None has the focus; one is marked for Enter by the arrows."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Answers", [], parent)
        self._grid.setAlignment(Qt.AlignmentFlag.AlignTop)

    @property
    def count(self) -> int:
        return len(self._choices)

    @property
    def columns(self) -> int:
        return self._columns

    def show_block(self, block: Block) -> None:
        self._columns = block.columns
        self.set_options(block.options)
        self.set_value(None)
        for choice in self._choices:
            choice.setFixedHeight(block.row_height)

    def point(self, place: int) -> None:
        """Mark one as the one that Enter takes; it is not chosen by that."""
        self.set_value(self._choices[place].option.value)

    @property
    def pointed(self) -> int | None:
        marked = (n for n, choice in enumerate(self._choices) if choice.isChecked())
        return next(marked, None)

    def with_key(self, key: str) -> Answer | None:
        values = (choice.option.value for choice in self._choices)
        return next((answer for answer in values if answer.key == key), None)

    def _set_stops(self) -> None:
        for choice in self._choices:
            choice.setFocusPolicy(Qt.FocusPolicy.NoFocus)


def block_for(answers: Sequence[Answer], datum: Datum, width: int, widget: QWidget) -> Block:
    """The answers with their pictures where that takes no more than two rows; else without them,
    in three; else in a word each. `width` is in pixels."""
    full = [option_of(answer, datum) for answer in answers]
    plain = [replace(option, picture=None) for option in full]
    short = [replace(option, title=_short(option.value), detail=_told(option)) for option in plain]
    blocks = [_laid_out(options, width, widget) for options in (full, plain, short)]
    good = [block for most in (ROWS - 1, ROWS) for block in blocks[:2] if block.rows <= most]
    return (*good, blocks[-1])[0]


def _laid_out(options: Sequence[Option], width: int, widget: QWidget) -> Block:
    wide = max(_width(option, widget) for option in options)
    fitting = max((width + BETWEEN) // (wide + BETWEEN), 1)
    rows = -(-len(options) // fitting)
    return Block(tuple(options), -(-len(options) // rows))  # evenly: five are three and two


def _width(option: Option, widget: QWidget) -> int:
    title = QFontMetrics(sized(widget, 16, bold=True)).horizontalAdvance(option.title)
    detail = QFontMetrics(sized(widget, 13)).horizontalAdvance(option.detail)
    return max(title, detail) + _BESIDE + (PICTURE if option.picture else 0)


def option_of(answer: Answer, datum: Datum) -> Option:
    lettered = isinstance(answer.fact, Hand)
    picture = _picture(answer, datum)
    return Option(answer, answer.label, answer.detail, answer.key, picture, lettered)


def _told(option: Option) -> str:
    """A detail that cannot be left out: L stamped is not L by position."""
    return option.detail if isinstance(option.value.fact, Hand) else ""


def _short(answer: Answer) -> str:
    fact = answer.fact
    if isinstance(fact, Without):
        return "none"
    if isinstance(fact, Clocking) and fact.hour is not None:
        return f"at {fact.hour:g}"
    return ordinal(fact.index) if isinstance(fact, Place) else answer.label


def _picture(answer: Answer, datum: Datum) -> Picture | None:
    """The fact drawn without its own words, where a drawing says more than they do."""
    fact = answer.fact
    if isinstance(fact, Faces):
        return draw((Faces("", fact.toward),), datum)
    if isinstance(fact, Clocking) and fact.hour is not None:
        return draw((Clocking("", fact.hour),), datum)
    return draw((fact,), datum) if isinstance(fact, Hand | Seat) else None
