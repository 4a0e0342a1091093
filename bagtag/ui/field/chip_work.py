"""What the chips do for the line: they say what was read, and take corrections of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QPoint, Signal

from bagtag.domain import asking, contradictions, kind_choice
from bagtag.domain.model import Fate
from bagtag.ui.field import chip_menu, chip_shown
from bagtag.ui.field.corrections import Corrections, Told, kind_of

if TYPE_CHECKING:
    from bagtag.domain.kinds import PartKind
    from bagtag.services.tape import TapeReader
    from bagtag.ui.field.chip_menu import ChipMenu, Item
    from bagtag.ui.field.chips import ChipRow
    from bagtag.ui.field.tape_line import TapeLine

CORRECT = "Alt+Down: correct"


class ChipWork(QObject):
    """Stands between the line, its chips and the reader."""

    corrected = Signal()
    """The line is to be read anew."""

    def __init__(self, line: TapeLine, chips: ChipRow, parent: QObject) -> None:
        super().__init__(parent)
        self.line, self.chips = line, chips
        self.corrections = Corrections()
        self.kind: PartKind | None = None
        self.menu: ChipMenu | None = None
        self._reader: TapeReader | None = None
        self._own = ""
        self._by_kind = False
        self._open = 0
        self._last = Told()
        line.chips_wanted.connect(chips.walk_in)
        chips.left.connect(self._to_line)
        chips.typed.connect(self._typed)
        chips.opened.connect(self.open_menu)

    # Reading

    def follow(self, line: str) -> None:
        """The line is another now."""
        if self.corrections.told.kept or self.corrections.told.taken_for:
            self._last = self.corrections.told
        self.corrections.follow(line)

    def will_come_back(self, line: str) -> None:
        """A line that was refused comes back: so does what was corrected in it."""
        if self._last.line == line:
            self.corrections.told = self._last

    def read(self, typed: str, reader: TapeReader) -> Any:
        """The `Tape` of a line, with what was corrected."""
        tape = reader.read(typed, self.corrections.kept)
        own = kind_of(tape, reader)
        self._reader, self._own = reader, own.name if own else ""
        tape = self.corrections.applied(tape, reader)
        self.kind = kind_of(tape, reader)
        self._by_kind = reader.fate_is_by_kind(tape)
        return tape

    def show(self, tape: Any, like: str) -> None:
        """Show a line as read; `like` says what in the log is like it."""
        assert self._reader is not None
        facts = tape.entry.which_way
        against = contradictions.within(facts, self._reader.datum, tape.entry.side)
        questions = len(asking.open_questions(self.kind, facts))
        ask = f"Tab: {questions} question{'s' * (questions != 1)}"
        tails = (ask if questions else "Tab: more on the card", like, CORRECT)
        shown = chip_shown.of_tape(tape, self.kind, fate_by_kind=self._by_kind)
        self.chips.show_chips(
            shown,
            tuple(filter(None, tails)),
            against[0].sentence if against else "",
            _at_cursor(shown, self.line.cursorPosition()),
        )

    # Correcting

    def open_menu(self, place: int) -> None:
        """Open the menu under a chip, where there is something to put right about it."""
        chip = self.chips.chips[place]
        shown = self._items(chip) if self._reader is not None else []
        if not shown:
            return
        self._open = place
        self.menu = chip_menu.ChipMenu(shown, chip.spoken, self.chips)
        self.menu.picked.connect(self._picked)
        box = self.chips.box_of(place)
        self.menu.open_at(self.chips.mapToGlobal(QPoint(round(box.left()), round(box.bottom()))))

    def _items(self, chip: chip_shown.Shown) -> list[Item]:
        assert self._reader is not None
        others: tuple[PartKind, ...] = ()
        if chip.what == chip_shown.NAME:
            others = kind_choice.could_be(self._reader.kinds, chip.text)
        stretch = chip.start, chip.end
        return chip_menu.items(
            chip,
            is_kept=chip.has_words and self.corrections.is_kept(stretch),
            kind=self.kind,
            others=others,
            own=self._own,
        )

    def _picked(self, item: Item) -> None:
        chip = self.chips.chips[self._open]
        if item.act == chip_menu.CHANGE:
            self.line.setFocus()
            self.line.setSelection(chip.start, chip.end - chip.start)
            return
        if item.act == chip_menu.KEEP:
            self.corrections.keep((chip.start, chip.end))
        elif item.act == chip_menu.READ:
            self.corrections.read_again((chip.start, chip.end))
        elif item.act == chip_menu.KIND:
            self.corrections.choose_kind("" if item.value == self._own else item.value, self._own)
        else:
            fate = Fate(item.value) if item.value else None
            self.corrections.choose_fate(fate, self._own)
        self.corrected.emit()

    def _to_line(self) -> None:
        self.line.setFocus()

    def _typed(self, text: str) -> None:
        self.line.setFocus()
        self.line.insert(text)


def _at_cursor(shown: tuple[chip_shown.Shown, ...], cursor: int) -> int:
    """The chip that is being typed: the last that begins before the cursor."""
    before = [place for place, chip in enumerate(shown) if 0 <= chip.start < max(cursor, 1)]
    return before[-1] if before else 0
