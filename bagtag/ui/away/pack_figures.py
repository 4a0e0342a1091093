"""The figures a shop is to work to: what is done to which size, with its limits."""

from PySide6.QtWidgets import QWidget

from bagtag.ui.order.add_asks import AskRow, AskRows

NAMES = ("bore", "hone", "grind", "skim", "flatness", "plating thickness", "taper", "out of round")


class FiguresWanted(AskRows):
    """Figures wanted of a part, in the same rows as those asked for at sign-off; `after` is the
    control that Tab comes from."""

    def __init__(self, parent: QWidget, after: QWidget) -> None:
        super().__init__(parent, after)
        self.setAccessibleName("Figures wanted")
        self.more.setAccessibleName("Add a figure wanted")

    def _make(self) -> AskRow:
        row = super()._make()
        row.name.suggest(NAMES)
        row.name.setPlaceholderText("bore")
        row.unit.setText("mm")
        return row

    def _arrange(self) -> None:
        super()._arrange()
        self.more.setText("Another figure" if self.rows else "Add a figure to work to")
