"""A quiet block of tape on a card: one line in bold, and below it what there is to say."""

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from bagtag.domain.phrases import capital
from bagtag.ui import fonts, theme
from bagtag.ui.forms.basics import label, tight


class Block(QFrame):
    """Out of sight while it has nothing to say."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "tape")
        self.head = label("", self)
        self.head.setFont(fonts.font(theme.BODY, bold=True))
        self.said = label("", self)
        column = QVBoxLayout(self)
        tight(column, 2)
        column.setContentsMargins(14, 8, 14, 8)
        column.addWidget(self.head)
        column.addWidget(self.said)
        self.hide()

    def say(self, head: str, sentences: Sequence[str]) -> None:
        """One sentence a line; without any the block is hidden."""
        self.head.setText(head)
        self.said.setText("\n".join(f"{capital(sentence)}" for sentence in sentences))
        self.head.setVisible(bool(head))
        self.setVisible(bool(sentences))
        self.setAccessibleName(head)
        self.setAccessibleDescription(" ".join(sentences))

    @property
    def text(self) -> str:
        return self.said.text()
