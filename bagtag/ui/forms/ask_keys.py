"""Keys that answer a question, told from a scanner that types.

A person who knows the form presses two keys in one go, so that a key need not come alone as for
`LoneKeys`; three in a burst are a scan, and a scan answers nothing.
"""

from PySide6.QtGui import QKeyEvent

from bagtag.ui.forms.lone_keys import HELD, GatheredKeys

MOST = 2
"""What a person presses within a burst; the shortest scan has more."""


class AskKeys(GatheredKeys):
    """Gathers letters, digits and Space, and tells each as a small letter, unless they are a
    scan."""

    def hear(self, event: QKeyEvent) -> bool:
        """Whether the key is dealt with here."""
        text = event.text()
        if not (text.isalnum() or text == " ") or event.modifiers() & HELD:
            return False
        if not event.isAutoRepeat():
            self._keys += text.casefold()
            self._timer.start()
        return True

    def end(self) -> bool:
        """Another key ends the burst: say what waits; True when it was a scan, whose end key is
        not the person's."""
        is_scan = self._is_scan()
        self._timer.stop()
        self._tell()
        return is_scan

    def _is_scan(self) -> bool:
        return len(self._keys) > MOST

    def _tell(self) -> None:
        said, self._keys = "" if self._is_scan() else self._keys, ""
        for key in said:
            self.pressed.emit(key)
