"""The middle of the entry card: everything about a removal but its name and quantity."""

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QSettings, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.kinds import PartKind, is_always_renewed
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Fact
from bagtag.ui.desk import Desk
from bagtag.ui.entry.entry_asks import EntryAsks
from bagtag.ui.entry.entry_bench import Bench
from bagtag.ui.entry.entry_draft import Draft
from bagtag.ui.entry.entry_more import EntryMore
from bagtag.ui.entry.hardware_form import HardwareForm
from bagtag.ui.entry.which_way_form import WhichWayForm
from bagtag.ui.forms.basics import Field, Note, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.words import WordField
from bagtag.ui.photos.photo_strip import PhotoStrip

CONDITIONS = ("good", "worn", "scored", "bent", "cracked", "pitted", "seized")
GOES_ON = ("engine oil", "grease", "sealant", "dry", "gear oil", "assembly lubricant", "anti-seize")
FATES = [
    Option(Fate.REFIT, "Refit", "goes back", "1"),
    Option(Fate.RENEW, "Renew", "a new one", "2"),
    Option(Fate.DECIDE, "Decide", "measure it", "3"),
    Option(Fate.SCRAP, "Scrap", "stays out", "4"),
]


class EntryFields(QWidget):
    """One column, in the order a mechanic looks at a part."""

    changed = Signal()

    def __init__(self, desk: Desk, parent: QWidget, settings: QSettings | None) -> None:
        super().__init__(parent)
        self.setProperty("bare", True)
        self.asks = EntryAsks(self)
        self.which_way = WhichWayForm(desk, self)
        self.area_field = WordField("Area", (), self, "Down takes the next one")
        self.container_field = WordField("Container", (), self, "bag 12, tray 3: found or made")
        self.area, self.container = self.area_field.line, self.container_field.line
        self.hardware = HardwareForm(self)
        self.more = EntryMore(self)
        self.fate = Choices("Fate", FATES, self, columns=4)
        self.fate.set_value(Fate.REFIT)
        self.fate_is_chosen = False
        self.fate_why = label("", self, scale="small", tone="muted")
        self.fate_why.hide()
        self.condition = WordField("Condition", CONDITIONS, self, "as it came off")
        self.goes_on = WordField("Goes on at fitting", GOES_ON, self)
        self.note = Note(self, "Note")
        self.photos = PhotoStrip(desk, self, settings=settings)
        self.fields = {
            "area_id": self.area_field,
            "container": self.container_field,
            "condition": self.condition,
            "goes_on": self.goes_on,
            "fate": Field("Fate", self.fate, self),
            "note": Field("Note", self.note, self),
            "size": self.more.fields["size"],
        }
        self.wrong_way = label("", self, tone="accent")
        self.wrong_way.hide()
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(2, 2, 14, 8)
        column.setSpacing(16)
        column.addWidget(self.asks)
        column.addWidget(label("Which way", self, scale="head"))
        column.addWidget(self.which_way)
        column.addWidget(self.wrong_way)
        column.addLayout(_beside(self.area_field, self.container_field))
        column.addWidget(self.hardware)
        column.addWidget(self.more)
        column.addLayout(self._fate_and_why())
        column.addLayout(_beside(self.condition, self.goes_on))
        column.addWidget(self.fields["note"])
        column.addWidget(label("Photos", self, scale="head"))
        column.addWidget(self.photos)
        column.addStretch(1)

    def _fate_and_why(self) -> QVBoxLayout:
        column = QVBoxLayout()
        tight(column)
        column.addWidget(self.fields["fate"])
        column.addWidget(self.fate_why)
        return column

    def _connect(self) -> None:
        self.fate.chosen.connect(self._fate_chosen)
        self.which_way.changed.connect(self._part_changed)
        self.more.changed.connect(self._part_changed)
        self.asks.facts_changed.connect(self._put_facts)
        self.asks.kind_changed.connect(self._kind_changed)
        for signal in (
            self.asks.changed, self.more.changed, self.which_way.changed, self.area.textChanged,
            self.container.textChanged,
            self.hardware.changed, self.fate.chosen, self.condition.edited, self.goes_on.edited,
            self.note.textChanged,
        ):  # fmt: skip
            signal.connect(self._tell)

    def set_bench(self, bench: Bench) -> None:
        self.which_way.set_datum(bench.datum)
        self.more.set_datum(bench.datum)
        self.asks.set_kinds(bench.kinds, bench.datum)
        self.hardware.set_reader(bench.reader)
        self.area_field.suggest(list(bench.names.areas))
        self.container_field.suggest(list(bench.names.containers.values()))

    def fill(self, draft: Draft, but: Sequence[str] = ()) -> None:
        """Show a draft; fields in `but` stay as they are."""
        setters: dict[str, Callable[[Any], object]] = {
            "area": self.area.setText,
            "container": self.container.setText,
            "which_way": self.which_way.set_facts,
            "held_by": self.hardware.set_lines,
            "condition": self.condition.set_text,
            "fate": self.fate.set_value,
            "goes_on": self.goes_on.set_text,
            "note": self.note.setPlainText,
            "kind": self.asks.set_chosen_kind,
            "side": self.more.set_side,
            "size": self.more.set_size,
            "hazards": self.more.set_hazards,
            "unanswered": self.asks.set_unanswered,
        }
        for name, put in setters.items():
            if name not in but:
                put(getattr(draft, name))
        self._part_changed()

    def draft(self, name: str, quantity: str) -> Draft:
        return Draft(
            name=name,
            quantity=quantity,
            area=self.area.text().strip(),
            container=self.container.text().strip(),
            which_way=self.which_way.facts,
            held_by=self.hardware.lines,
            condition=self.condition.text,
            fate=self.fate.value or Fate.REFIT,
            goes_on=self.goes_on.text,
            note=self.note.toPlainText(),
            kind=self.asks.chosen_kind,
            side=self.more.side_value(),
            size=self.more.size_line.text().strip(),
            hazards=self.more.hazards.values,
            unanswered=self.asks.unanswered,
        )

    def begin(self, *, correcting: bool, fate_is_chosen: bool) -> None:
        """Another part is taken up; a fate that a person chose stays whatever its kind says."""
        self.fate_is_chosen = fate_is_chosen
        self.which_way.set_told((), ())
        self.which_way.set_against(())
        self.asks.begin(correcting=correcting)
        self._show_fate_why()

    def say(self, field: str, sentence: str) -> bool:
        """Say what is wrong beside its field and go there; False when it is not one of these."""
        if field == "which_way":
            self.wrong_way.setText(sentence)
            self.wrong_way.show()
            self.which_way.setFocus()
        elif field == "held_by":
            self.hardware.tape_field.say(sentence)
            self.hardware.setFocus()
        elif field in self.fields:
            self.more.open(field == "size" or not self.more.fold.isHidden())
            self.fields[field].say(sentence)
            self.fields[field].editor.setFocus()
        else:
            return False
        return True

    def say_nothing(self) -> None:
        self.wrong_way.hide()
        for field in self.fields.values():
            field.say("")
        self.hardware.tape_field.say("")

    def is_whole(self) -> bool:
        """Nothing is half filled in; else it is said where."""
        if self.which_way.half_done:
            self.say(
                "which_way", "This fact is not whole yet. Fill in the rest, or leave it (Esc)."
            )
            self.which_way.go_on()
            return False
        self.which_way.finish()
        return self.hardware.is_whole()

    def _part_changed(self) -> None:
        """The facts or the side are others now: what is asked, and which side outward is."""
        self.which_way.set_side(self.more.side_value())
        self.asks.set_part(self.which_way.facts, self.which_way.part_side)

    def _put_facts(self, facts: tuple[Fact, ...]) -> None:
        """An answer stands among the facts as if it had been filled in there."""
        self.which_way.set_facts(facts)
        self._part_changed()

    def _kind_changed(self, kind: PartKind | None) -> None:
        self.more.set_kind(kind)
        if not self.fate_is_chosen:
            self.fate.set_value(Fate.RENEW if is_always_renewed(kind) else Fate.REFIT)
        self._show_fate_why()

    def _fate_chosen(self) -> None:
        self.fate_is_chosen = True
        self._show_fate_why()

    def _show_fate_why(self) -> None:
        kind = self.asks.kind
        by_kind = not self.fate_is_chosen and is_always_renewed(kind)
        name = kind.name if kind else ""
        self.fate_why.setText(f"Renewed, as is always done with this kind of part: {name}.")
        self.fate_why.setVisible(by_kind)

    def _tell(self) -> None:
        self.changed.emit()


def _beside(left: QWidget, right: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    tight(row, 16)
    row.addWidget(left, 1, Qt.AlignmentFlag.AlignTop)
    row.addWidget(right, 1, Qt.AlignmentFlag.AlignTop)
    return row
