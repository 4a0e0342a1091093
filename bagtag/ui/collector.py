"""Collecting Python's garbage on the main thread alone.

Python's cycle collector runs in whichever thread happens to allocate, and a widget that dies in a
cycle would then be destroyed by a worker, which Qt forbids. So the collector is switched off and
asked from a timer of the main thread, by Python's own thresholds.
"""

import gc

from PySide6.QtCore import QObject, QTimer

EVERY_MS = 500


def collect_due() -> None:
    """Collect the oldest generation whose threshold is passed, if any is."""
    for generation in (2, 1, 0):
        if gc.get_count()[generation] > gc.get_threshold()[generation]:
            gc.collect(generation)
            return


class Collector(QObject):
    """Switches Python's own collector off until it is stopped."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        self._clock = QTimer(self)
        self._clock.setInterval(EVERY_MS)
        self._clock.timeout.connect(self._look)
        self._clock.start()

    def stop(self) -> None:
        self._clock.stop()
        gc.enable()

    @staticmethod
    def _look() -> None:
        collect_due()
