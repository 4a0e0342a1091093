"""What kind of part it is, and what the trade knows of that kind; another kind can be chosen."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.kinds import NO_KIND, Kinds, PartKind, Renewal
from bagtag.domain.phrases import capital
from bagtag.ui.entry.kind_picker import KindPicker
from bagtag.ui.forms.basics import button, label, tight


class KindLine(QWidget):
    """Quiet: the kind's name, its knowledge below it, and a press to say another."""

    chosen = Signal(str)
    """The name of the kind that a person chose, or `NO_KIND`."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.title = label("", self, tone="muted")
        self.knowledge = label("", self, scale="small", tone="muted")
        self.other = button("Another kind…", self, role="quiet")
        self.picker = KindPicker(self)
        self.picker.picked.connect(self._picked)
        self.picker.left.connect(self._left)
        self.other.clicked.connect(self._open)
        row = QHBoxLayout()
        tight(row, 8)
        row.addWidget(self.title, 1)
        row.addWidget(self.other)
        column = QVBoxLayout(self)
        tight(column, 0)
        for part in (self.picker, self.knowledge):
            column.addWidget(part)
        column.insertLayout(0, row)
        self.picker.hide()
        self.hide()

    def set_kinds(self, kinds: Kinds) -> None:
        self.picker.set_kinds(kinds)

    def show_kind(self, kind: PartKind | None, name: str, chosen: str) -> None:
        """The kind of a part of this name; without a name nothing is said."""
        self.title.setText(_title(kind, chosen))
        self.knowledge.setText(knowledge(kind) if kind else "")
        self.knowledge.setVisible(kind is not None)
        self.other.setText("Another kind…" if kind or chosen else "Choose a kind…")
        self.other.setAccessibleName(self.other.text().rstrip("…"))
        self.setVisible(bool(name.strip()))

    def _open(self) -> None:
        self.picker.begin()

    def _picked(self, name: str) -> None:
        self.picker.hide()
        self.chosen.emit(name)

    def _left(self) -> None:
        self.picker.hide()
        self.other.setFocus()


def _title(kind: PartKind | None, chosen: str) -> str:
    if kind is None:
        return "No kind of part" if chosen == NO_KIND else "No kind is known by this name"
    return capital(kind.name)


def knowledge(kind: PartKind) -> str:
    """Whether it is renewed and why, what goes wrong, what it stays with: a line each."""
    renewed = {
        Renewal.ALWAYS: "Always renewed",
        Renewal.CONDITION: "Renewed on condition",
        Renewal.NEVER: "Goes back as a rule",
    }[kind.renew]
    lines = [f"{renewed}: {_small(kind.why)}" if kind.why else f"{renewed}.", kind.goes_wrong]
    if kind.together:
        lines.append(f"Stays with: {', '.join(kind.together)}. {kind.together_why}".strip())
    return "\n".join(line for line in lines if line)


def _small(sentence: str) -> str:
    """A sentence after a colon: "The lip" begins small, "OUT" stays as it is."""
    second = sentence[1:2]
    return sentence if second.isupper() else sentence[:1].lower() + sentence[1:]
