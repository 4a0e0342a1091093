"""What every form of several fields does: it says what is wrong where it is wrong."""

from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.basics import Field, say_at


class FieldsForm(QWidget):
    """A subclass puts its fields into `fields`, by name."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.fields: dict[str, Field] = {}

    def first_wrong(self) -> QWidget | None:
        """The first that something is said below."""
        return next((f.editor for f in self.fields.values() if f.wrong.text()), None)

    def say(self, field: str, sentence: str) -> bool:
        """Say it below its field and put the keys there; False where there is no such field."""
        return say_at(self.fields, field, sentence)

    def say_nothing(self) -> None:
        for field in self.fields.values():
            field.say("")
