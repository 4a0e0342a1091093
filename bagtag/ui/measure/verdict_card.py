"""What a sheet says as it stands: the verdict large, each figure with its margin, what follows."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.measuring.result import Result, Results
from bagtag.domain.phrases import capital, listed, whole
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.measure.verdict_sign import VerdictSign, words

NAMED = 3
"""So many places still to be read are named; more are counted."""


class VerdictCard(QFrame):
    """`said` is all that is told, sentence by sentence."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "card")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # a caliper's next figure does nothing here
        self.said: tuple[str, ...] = ()
        self._shown: Results | None = None
        self.sign = VerdictSign(44, self)
        self.head = label("", self, scale="big")
        self.figures = QVBoxLayout()
        tight(self.figures, 6)
        top = QHBoxLayout()
        tight(top, 12)
        top.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignVCenter)
        top.addWidget(self.head, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 14)
        column.setSpacing(10)
        column.addLayout(top)
        column.addLayout(self.figures)

    def show_results(self, results: Results) -> None:
        if results == self._shown:
            return
        self._shown = results
        verdict = results.verdict if results.is_measured else None
        self.sign.show_verdict(verdict)
        self.head.setText(words(verdict) if verdict else _to_read(results))
        self._fill(results)
        self.setAccessibleName(self.head.text())
        self.setAccessibleDescription(" ".join(self.said))

    def _fill(self, results: Results) -> None:
        clear_layout(self.figures)
        missing = _named(results.missing)
        figures = [_sentence(one) for one in results.figures]
        advice = [capital(whole(one)) for one in results.advice]
        for one, sentence in zip(results.figures, figures, strict=True):
            self.figures.addWidget(self._figure(one, sentence))
        for sentence in (*advice, *missing):
            self.figures.addWidget(self._line(sentence, bold=sentence in advice))
        self.said = (*figures, *advice, *missing)

    def _figure(self, one: Result, sentence: str) -> QWidget:
        row = QWidget(self)
        line = QHBoxLayout(row)
        tight(line, 10)
        sign = VerdictSign(22, row)
        sign.show_verdict(one.verdict)
        line.addWidget(sign, 0, Qt.AlignmentFlag.AlignTop)
        line.addWidget(label(sentence, row), 1)
        return row

    def _line(self, sentence: str, *, bold: bool) -> QWidget:
        made = label(sentence, self, tone="ink" if bold else "muted")
        if bold:
            made.setStyleSheet("font-weight: bold;")
        return made


def _sentence(one: Result) -> str:
    return f"{capital(whole(one.said)).rstrip('.')}."


def _to_read(results: Results) -> str:
    """What stands in the place of the verdict while it is not measured."""
    left = len(results.missing)
    return f"{left} still to read" if left else "Nothing to say yet"


def _named(missing: Sequence[str]) -> tuple[str, ...]:
    if not missing:
        return ()
    names = [one.replace(", ", " ") for one in missing]
    if len(names) > NAMED + 1:
        return (f"Still to read: {', '.join(names[:NAMED])} and {len(names) - NAMED} more.",)
    return (f"Still to read: {listed(names)}.",)
