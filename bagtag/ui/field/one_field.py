"""The one field: what one would write on tape, a typed code, or a word to find.

It says as one types what it understood and what Enter will do. What cannot be taken stays typed.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QPoint, QRect, Signal
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from bagtag.ui import theme
from bagtag.ui.desk import Desk
from bagtag.ui.field.tape_line import LineFrame

if TYPE_CHECKING:
    from bagtag.services.find import Hit
    from bagtag.services.tags import Found
    from bagtag.services.tape import TapeReader
    from bagtag.ui.field.chip_work import ChipWork
    from bagtag.ui.field.chips import ChipRow
    from bagtag.ui.field.found_list import FoundList
    from bagtag.ui.message_bar import MessageBar
    from bagtag.ui.scanning.scan_ways import ScanWays

ON_STRIP = "write it as on tape, scan a tag, or type a word to find"
ELSEWHERE = "scan a tag, or type a code or a word to find"
HITS = 7
HINTS = {
    "removal": "open its card",
    "container": "show {name}",
    "task": "open its card",
    "send-out": "show {name}",
    "blank": "hang it",
}
"""What Enter does with a code, by where it leads."""


class OneField(QWidget):
    """Above everything else in the window, on every stage."""

    tape_entered = Signal(object)
    """A `Tape` to be logged as the next removal."""
    tape_to_card = Signal(object)
    """A `Tape` to be put on the card, to add what tape is too narrow for."""
    code_entered = Signal(str)
    hit_chosen = Signal(object)
    chips: ChipRow
    below: QStackedWidget
    ways: ScanWays
    left = Signal()
    """Escape in an empty field."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.stage = ""
        self.next_number = ""
        self.reader: TapeReader | None = None
        self.code = ""
        self.tape: Any = None
        self._hits: tuple[Hit, ...] | None = None
        self._enter_waits = False
        self._list: FoundList | None = None
        self._message: MessageBar | None = None
        self.frame = LineFrame(ELSEWHERE, self)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, theme.TOUCH + 2)
        self._column.setSpacing(2)
        self._column.addWidget(self.frame)

    def finish(self) -> None:
        """Add what has nothing to show before the store is open, and read what was typed since."""
        from bagtag.ui.field.chips import ChipRow
        from bagtag.ui.scanning.scan_ways import ScanWays

        self.chips = ChipRow(self)
        self.below = QStackedWidget(self)
        self.below.addWidget(self.chips)
        self.below.setFixedHeight(theme.TOUCH)
        self.ways = ScanWays(self.desk, self)
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.below, 1)
        row.addWidget(self.ways)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addLayout(row)
        self._connect()
        self._read()

    @cached_property
    def work(self) -> ChipWork:
        """What the chips do, made when there is first a reader of lines."""
        from bagtag.ui.field.chip_work import ChipWork

        made = ChipWork(self.frame.line, self.chips, self)
        made.corrected.connect(self._read)
        return made

    def share_row(self, message: MessageBar) -> None:
        """Chips and messages stand in one row; the newest of the two is shown."""
        self._message = message
        self.below.addWidget(message)
        message.spoke.connect(self._show_message)

    def _show_message(self) -> None:
        """Good news waits while something is typed; trouble does not, and has the whole row."""
        message = self._message
        if message is None:
            return
        trouble = message.is_trouble and bool(message.text)
        shown = trouble or (bool(message.text) and not self.text.strip())
        self.below.setCurrentWidget(message if shown else self.chips)
        self.ways.setVisible(not trouble)

    def _show_chips(self) -> None:
        self.below.setCurrentWidget(self.chips)
        self._share_room()

    def _share_room(self) -> None:
        """While a line of tape is typed, its chips have the whole row."""
        if self.ways.isHidden() is (self.tape is None):
            self.ways.setVisible(self.tape is None)

    def _connect(self) -> None:
        line = self.frame.line
        line.textChanged.connect(self._read)
        line.returnPressed.connect(self.enter)
        line.escaped.connect(self._escape)
        line.stepped.connect(self._step)
        line.tabbed.connect(self._to_card)
        line.focus_moved.connect(self._focus_moved)

    # What the window tells it

    @property
    def text(self) -> str:
        return self.frame.line.text()

    @property
    def logs(self) -> bool:
        """Whether Enter writes into the log here."""
        return self.stage == "Strip" and self.reader is not None

    @property
    def hits(self) -> Sequence[Hit]:
        return self._hits or ()

    def set_stage(self, stage: str) -> None:
        self.stage = stage
        self._read()

    def set_next_number(self, number: str) -> None:
        self.next_number = number
        if self.tape is not None:
            self._say_tape()

    def set_reader(self, reader: TapeReader | None) -> None:
        self.reader = reader
        self._read()

    def take_back(self, text: str, sentence: str) -> None:
        """Put back a line that could not be taken, before what was typed since, and say why; what
        was corrected in it is corrected again."""
        since = self.text.strip()
        self.work.will_come_back(text)
        self.frame.line.setText(f"{text}, {since}" if since else text)
        self.chips.show_sentence(sentence)

    def clear(self) -> None:
        self.frame.line.clear()

    # What is typed

    def _read(self) -> None:
        typed = self.text
        self.code, self.tape, self._hits, self._enter_waits = "", None, None, False
        if self.reader is not None:
            self.work.follow(typed)
        self._put_list_away()
        self.frame.line.tab_fills = False
        if not typed.strip():
            self.chips.show_chips(())
            self._show_chips()
            self._show_message()
            self.frame.set_hint(ON_STRIP if self.logs else ELSEWHERE)
        elif self.desk.is_open:
            self._show_chips()
            self._read_line(typed)

    def _read_line(self, typed: str) -> None:
        from bagtag.ui.scanning import code_reading

        self.code = code_reading.as_code(typed)
        wrong = code_reading.what_is_wrong(typed)
        if self.code:
            self.frame.set_hint("Enter: open its card")
            self._show_tag()
            self.desk.ask(
                code_reading.look_up, self.code, then=self._code_found, failed=self._code_unknown
            )
        elif wrong and not (self.logs and code_reading.may_be_words(typed)):
            self.chips.show_sentence(wrong)
            self.frame.set_hint("")
        else:
            self._read_words(typed)
            if wrong:
                self.chips.show_sentence(wrong)

    def _read_words(self, typed: str) -> None:
        from bagtag.ui.scanning import code_reading

        if self.logs:
            assert self.reader is not None
            self.tape = self.work.read(typed, self.reader)
            self.frame.line.tab_fills = True
            self._say_tape()
        else:
            self.frame.set_hint("")
            self.chips.show_chips(())
        self.desk.ask(code_reading.find, typed, then=self._found)

    def _say_tape(self) -> None:
        count = len(self.hits)
        like = f"{count} like it" if count < HITS else "several like it"
        self.work.show(self.tape, f"Down: {like}" if count else "")
        self._share_room()
        number = self.next_number
        self.frame.set_hint(f"Enter: logged as {number}" if number else "Enter: log it")

    def _show_tag(self, *names: str) -> None:
        """The code as a chip, and what it hangs on where that is known."""
        from bagtag.ui.field.chip_shown import Shown

        texts = (f"tag {self.code[:3]}-{self.code[3:]}", *names)
        self.chips.show_chips([Shown(text) for text in texts])

    # What is answered

    def _code_found(self, answer: tuple[Found, str]) -> None:
        found, name = answer
        if found.tag.code != self.code:
            return
        self._show_tag(name)
        self.frame.set_hint(f"Enter: {HINTS[found.leads].format(name=name)}")

    def _code_unknown(self, error: Exception) -> None:
        from bagtag.domain.errors import Trouble

        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
        elif self.code:
            self.chips.show_sentence(error.sentence)
            self.frame.set_hint("")

    def _found(self, answer: tuple[str, list[Hit]]) -> None:
        typed, hits = answer
        if typed != self.text:
            return
        self._hits = tuple(hits[:HITS])
        if self.logs:
            if not self.chips.sentence:
                self._say_tape()
            return
        self._show_list(choose=True)
        if not hits:
            self.chips.show_sentence("Nothing in the log has these words. Try fewer or others.")
        if self._enter_waits:
            self.enter()

    # Keys

    def enter(self) -> None:
        """Do what the hint says."""
        chosen = self._list.chosen if self._list is not None else None
        if self.code:
            self.code_entered.emit(self.code)
        elif chosen is not None:
            self.hit_chosen.emit(chosen)
        elif self.tape is not None:
            self.tape_entered.emit(self.tape)
        else:
            self._enter_waits = self._hits is None

    def _to_card(self) -> None:
        self.tape_to_card.emit(self.tape)

    def _escape(self) -> None:
        if self._list is not None and self._list.isVisible() and self.logs:
            self._put_list_away()
        elif self.text:
            self.clear()
        else:
            self.left.emit()

    def _step(self, by: int) -> None:
        if self._list is None or not self._list.isVisible():
            if by > 0:
                self._show_list(choose=True)
            return
        self._list.step(by)
        self._say_choice()

    def _show_list(self, *, choose: bool) -> None:
        if not self.hits:
            return
        if self._list is None:
            from bagtag.ui.field.found_list import FoundList

            self._list = FoundList(self.window())
            self._list.taken.connect(self.hit_chosen)
        corner = self.mapTo(self.window(), QPoint(0, 0))
        under = QRect(corner, self.frame.size())
        self._list.show_hits(self.hits, self.desk.job_id, under, choose)
        self._say_choice()

    def _say_choice(self) -> None:
        chosen = self._list.chosen if self._list is not None else None
        if chosen is not None:
            self.frame.set_hint(f"Enter: open {chosen.number} {chosen.name}"[:60])

    def _put_list_away(self) -> None:
        if self._list is not None:
            self._list.put_away()
            if self.tape is not None:
                self._say_tape()

    def _focus_moved(self) -> None:
        if not self.frame.line.hasFocus():
            self._put_list_away()
