"""What the cards of parts and of tasks share: keys of their acts, and how large a name may be."""

from PySide6.QtGui import QFontMetricsF

from bagtag.ui import fonts, theme

HOLES, TORQUE, PASSES = "Ctrl+H", "Ctrl+R", "Ctrl+G"
"""Open the hole map, the torque and the passes of the part on the card; the page hears them."""


def is_long(name: str, wide: float) -> bool:
    """Whether a name would take more than two of the largest lines of this width, in pixels."""
    metrics = QFontMetricsF(fonts.font(theme.BIG, bold=True))
    return metrics.horizontalAdvance(name) > 1.8 * max(wide, 1.0)
