"""A field for a word that others have used before: typed, clicked, or taken with Down."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.flow import Words

MOST = 12


class WordField(Field):
    """What is typed is taken as it is; the words only help.

    They stand below the field, `always` or while it has the focus; then only those that go with
    what is typed. Nothing pops up, so Enter always means the form's Enter.
    """

    edited = Signal()

    def __init__(
        self,
        caption: str,
        words: Sequence[str],
        parent: QWidget,
        hint: str = "",
        *,
        always: bool = False,
    ) -> None:
        self.line = Line(parent, caption, hint=hint)
        super().__init__(caption, self.line, parent)
        self._always = always
        self.words = Words((), self)
        self.words.chosen.connect(self._take)
        column = self.layout()
        assert isinstance(column, QVBoxLayout)
        column.addWidget(self.words)
        self.line.textChanged.connect(self._changed)
        self.line.entered.connect(self._show_words)
        self.line.left.connect(self._show_words)
        self.setFocusProxy(self.line)
        self.suggest(words)

    @property
    def text(self) -> str:
        return self.line.text().strip()

    def set_text(self, text: str) -> None:
        self.line.setText(text)

    def suggest(self, words: Sequence[str]) -> None:
        """Offer these words; what is typed stays."""
        self.line.suggest(words)
        self._show_words()

    def _take(self, word: str) -> None:
        self.line.setText(word)
        self.line.setFocus()

    def _changed(self) -> None:
        self._show_words()
        self.edited.emit()

    def _show_words(self) -> None:
        wanted = self._always or self.line.hasFocus()
        offered = self.line.words if self._always else self.line.matches()
        self.words.set_words(offered[:MOST] if wanted else ())
        self.words.setVisible(bool(offered) and wanted)
