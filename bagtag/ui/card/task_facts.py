"""What one must know to do a task: its torque, who signs, what it waits for, its pieces."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.passes import by_angle, passes
from bagtag.domain.standing import Standing
from bagtag.ui.card.card_facts import hardware
from bagtag.ui.card.sign_words import asks_words, signed_words
from bagtag.ui.card.step_list import StepLine, StepList
from bagtag.ui.card.task_signs import EMPTY_BOX, TICKED_BOX
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.forms.values import Values

if TYPE_CHECKING:
    from bagtag.services.task_views import Piece, TaskCard

ROW, MOST = 46, 12
"""How high a piece's row is, and how many are in sight before the list scrolls."""
BY_ANGLE = "To yield or by angle: by the maker's steps alone."


class TaskFacts(Values):
    def show_card(self, card: TaskCard) -> None:
        one, step = card.task, card.step
        done = step.standing is Standing.IN
        held = card.tightens.held_by if card.tightens else ()
        self.show_values(
            [
                ("Waits for", "" if done else waits(card), "accent" if step.hindrances else "ink"),
                ("Asked at sign-off", asks_words(one.asks), "ink"),
                ("Goes in with", ", ".join(card.along), "ink"),
                ("Built into", card.within, "ink"),
                ("Note", one.note, "ink"),
                ("Signed off", signed_words(step.sign_off, held), "ink"),
            ]
        )


def waits(card: TaskCard) -> str:
    """What must come first, a line each; the pieces of a bench build have a list of their own."""
    pieces = {piece.ref for piece in card.pieces}
    said = [h.sentence for h in card.step.hindrances if h.ref not in pieces]
    if said or not card.step.hindrances:
        return "\n".join(said) or "nothing, it can be done now"
    return ""


class TaskTorques(QWidget):
    """The torques of a final tightening in letters read from a metre, in passes where they are
    several fasteners."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._column = QVBoxLayout(self)
        tight(self._column, 2)
        self._large: list[QLabel] = []
        self._is_brief = False
        self.hide()

    def show_card(self, card: TaskCard) -> None:
        clear_layout(self._column)
        self._large = []
        part = card.tightens
        for line in part.held_by if part else ():
            said = f"{part.name} {part.note}" if part else ""
            self._column.addWidget(label(_what(line), self, tone="muted"))
            self._large.append(label(torque_words(line, said), self, scale="big"))
            self._column.addWidget(self._large[-1])
            if line.torque and by_angle(line, said=said):
                self._column.addWidget(label(BY_ANGLE, self))
        self.be_brief(self._is_brief)
        self.setVisible(bool(part and part.held_by))

    def be_brief(self, brief: bool) -> None:
        """Leave the torques out where they stand above already, pass by pass."""
        self._is_brief = brief
        for one in self._large:
            one.setVisible(not brief)


def _what(line: HeldBy) -> str:
    """A line of hardware but for its torque, which stands below it."""
    torque = f", {hardware(HeldBy(torque=line.torque)).split(', ')[-1]}" if line.torque else ""
    return hardware(line).replace(torque, "", 1) if torque else hardware(line)


def torque_words(line: HeldBy, said: str) -> str:
    """`13 N·m, 17 N·m, then 25 N·m`; `by the manual` where none was given."""
    found = [_whole(torque) for torque in passes(line, said=said)]
    if not found:
        return "by the maker's manual"
    return f"{', '.join(found[:-1])}, then {found[-1]}" if len(found) > 1 else found[0]


def _whole(torque: Torque) -> str:
    """A torque that is never torn from its unit at the end of a line."""
    return str(torque).replace(" ", "\u00a0")


class TaskPieces(QWidget):
    """The pieces of a bench build, those of a build within it set in; a tick at what is in."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.count = label("", self)
        self.list = StepList(desk, "The pieces of this bench build", self, high=ROW)
        self.list.shown.connect(desk.show_step)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addWidget(self.count)
        column.addWidget(self.list)
        self.hide()

    def show_card(self, card: TaskCard) -> None:
        done, of = card.pieces_in
        self.count.setText(f"{done} of {of} piece{'s' * (of != 1)} in")
        self.list.show_lines([_line(piece) for piece in card.pieces])
        self.list.setFixedHeight(min(len(card.pieces), MOST) * ROW + 4)
        self.setVisible(bool(card.pieces))


def _line(piece: Piece) -> StepLine:
    done = piece.standing is Standing.IN
    word = "in" if done else "can go in now" if piece.standing is Standing.NEXT else "waits"
    return StepLine(
        piece.ref,
        piece.called,
        "" if done else piece.waits,
        sign=TICKED_BOX if done else EMPTY_BOX,
        word=word,
        depth=piece.depth,
        is_quiet=done,
    )
