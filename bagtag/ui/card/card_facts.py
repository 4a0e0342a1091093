"""What one must know to fit the part: hardware, what goes on, what it waits for, its fate."""

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout, QWidget

from bagtag.domain.before_in import SheetSaid
from bagtag.domain.cautions import TORQUE_CAUTIONS, cautions
from bagtag.domain.days import dated, day_words
from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.domain.kinds import goes_on
from bagtag.domain.model import Fate, Origin, Replacement
from bagtag.domain.phrases import capital
from bagtag.domain.standing import Standing
from bagtag.ui.card.sign_words import asks_words, signed_words
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.forms.values import Values

if TYPE_CHECKING:
    from bagtag.services.views import BenchCard

REPLACEMENT = {
    Replacement.WANTED: "renew: a new part is wanted",
    Replacement.ORDERED: "renew: the new part is on order",
    Replacement.HERE: "renew: the new part is here",
}

ORIGIN = {
    Origin.OFF: "",
    Origin.SHOP: "an outside shop took it off",
    Origin.NEW: "a new part, never on the machine",
}


class CardFacts(Values):
    def show_card(self, card: "BenchCard") -> None:
        removal = card.removal
        lines = removal.held_by
        if card.torque_later:  # a torque that is read is a torque that is given
            lines = tuple(replace(line, torque=None) for line in lines)
        held = "\n".join(map(hardware, lines))
        done = card.standing in (Standing.IN, Standing.SCRAPPED)
        self.show_values(
            [
                ("Held by", held, "ink"),
                ("Size", removal.size, "ink"),
                ("Goes on at fitting", goes_on(removal.goes_on, card.kind), "ink"),
                ("Home when", card.kind.home if card.kind else "", "ink"),
                ("Goes wrong", card.kind.goes_wrong if card.kind else "", "ink"),
                ("Stays with", together(card), "ink"),
                ("Waits for", "" if done else waits(card), "accent" if card.hindrances else "ink"),
                ("Fate", fate(card), "accent" if unsettled(card) else "ink"),
                ("Measured", measured(card), "ink"),
                ("Taken off", card.off, "ink"),
                ("Opens", ", ".join(card.opens), "ink"),
                ("Goes in with", ", ".join(card.along), "ink"),
                ("Built into", card.within, "ink"),
                ("Came into the log", ORIGIN[removal.origin], "ink"),
                ("Asked at sign-off", "" if done else asks_words(removal.asks), "ink"),
                ("Signed off", signed_words(card.sign_off, removal.held_by), "ink"),
                ("Condition", removal.condition, "ink"),
                ("Note", removal.note, "ink"),
            ]
        )


def together(card: "BenchCard") -> str:
    """What its kind must be kept together with, and why."""
    if card.kind is None or not card.kind.together:
        return ""
    why = card.kind.together_why
    return ", ".join(card.kind.together) + (f". {why}" if why else "")


def hardware(line: HeldBy) -> str:
    """One line of hardware; a torque is never torn from its unit at the end of a line."""
    torque = str(line.torque) if line.torque else ""
    return str(line).replace(torque, torque.replace(" ", "\u00a0")) if torque else str(line)


def waits(card: "BenchCard") -> str:
    """What must happen first, a line each."""
    if not card.hindrances:
        return "nothing, it can go in now"
    said = [hindrance.sentence for hindrance in card.hindrances]
    return "\n".join([*said, from_words(card)] if card.is_held_up else said)


def from_words(card: "BenchCard") -> str:
    """The earliest day it can go in."""
    if card.from_day is None:
        return "nobody knows a day for it yet"
    return f"it can go in from {day_words(card.from_day, date.today())}"


def fate(card: "BenchCard") -> str:
    """What is to become of it, where that is more than going back."""
    match card.removal.fate:
        case Fate.RENEW:
            return REPLACEMENT[card.removal.replacement] + _due(card)
        case Fate.DECIDE:
            return "decide: inspect or measure it first"
        case Fate.SCRAP:
            return "scrap: it does not go back"
        case _:
            return ""


def _due(card: "BenchCard") -> str:
    """When the new part is to come, and whence."""
    new = card.new_part
    if new is None or card.removal.replacement is not Replacement.ORDERED:
        return ""
    due = f", due {day_words(new.due, date.today())}" if new.due else ""
    return f"{due}, from {new.supplier}" if new.supplier else due


def unsettled(card: "BenchCard") -> bool:
    """Whether the fate needs something done before the part can go in."""
    renewal = card.removal.fate is Fate.RENEW
    wanting = renewal and card.removal.replacement is not Replacement.HERE
    return wanting or card.removal.fate in (Fate.DECIDE, Fate.SCRAP)


def measured(card: "BenchCard") -> str:
    """What its sheets say, a line each, and what was decided."""
    return "\n".join(map(_of_sheet, card.sheets))


def _of_sheet(sheet: SheetSaid) -> str:
    done = sheet.decision
    if done is None:
        return sheet.said
    on = dated(done.at.astimezone().date(), date.today())
    return f"{sheet.said}. {capital(done.called)}, {done.who}, {on}"


def before_words(card: "BenchCard") -> tuple[str, ...]:
    """What is to be known before it goes in; nothing once it is in."""
    return () if card.standing is Standing.IN else card.before_in


def run_in_words(card: "BenchCard") -> tuple[str, ...]:
    """When the final torque comes, and how much it is: so that nobody tightens early."""
    if not card.torque_later:
        return ()
    lines = [line for line in card.removal.held_by if line.torque]
    torques = [f"{line.size()} {line.kind}: {_whole(line)}".strip() for line in lines]
    said = f": {', '.join(torques)}" if torques else ""
    return (f"Final torque after {card.torque_later}{said}.",)


def _whole(line: HeldBy) -> str:
    return str(line.torque).replace(" ", "\u00a0")


def torque_cautions(parent: QWidget) -> QLabel:
    """What else every page with a torque says, below the manual's word."""
    rest = " ".join(one for one in TORQUE_CAUTIONS if one != OVERRIDE)
    return label(rest, parent, scale="small", tone="muted")


class CardCautions(QFrame):
    """The cautions that the part's own words call for; out of sight when there are none."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "tape")
        self.setAccessibleName("Cautions")
        self._column = QVBoxLayout(self)
        tight(self._column, 2)
        self._column.setContentsMargins(14, 8, 14, 8)
        self.hide()

    def show_card(self, card: "BenchCard") -> None:
        said = cautions(card.removal, card.kind)
        clear_layout(self._column)
        for sentence in said:
            self._column.addWidget(label(sentence, self))
        self.setVisible(bool(said))
        self.setAccessibleDescription(" ".join(said))
