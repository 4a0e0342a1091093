"""The look: contrast that can be read in bad light, one font, four sizes."""

import pytest
from PySide6.QtGui import QColor, QFontInfo
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from bagtag.ui import theme
from bagtag.ui.theme import DARK, LIGHT, Theme, current, mark
from bagtag.ui.theme_sheet import SHEET


def luminance(colour: QColor) -> float:
    """Relative luminance by WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance."""
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in _rgb(colour)]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def _rgb(colour: QColor) -> tuple[float, float, float]:
    return colour.redF(), colour.greenF(), colour.blueF()


def contrast(one: QColor, other: QColor) -> float:
    """Contrast ratio by WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_measure_of_contrast_knows_black_on_white():
    assert contrast(QColor("black"), QColor("white")) == pytest.approx(21)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "tape", "card"])
def test_ink_is_read_at_7_to_1_and_the_rest_at_4_5(colours, ground):
    under = getattr(colours, ground)
    assert contrast(colours.ink, under) >= 7
    assert contrast(colours.muted, under) >= 4.5
    assert contrast(colours.accent, under) >= 4.5


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_what_stands_on_the_accent_is_read_at_7_to_1(colours):
    assert contrast(colours.on_accent, colours.accent) >= 7


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_every_colour_named_in_the_sheet_is_known(colours):
    assert "@" in SHEET
    assert "@" not in theme._sheet(colours)


@pytest.mark.parametrize(
    ("scale", "pixels"), [("small", 13), ("body", 16), ("head", 22), ("big", 36)]
)
def test_four_sizes_of_one_font(qtbot, scale, pixels):
    label = QLabel("shift fork R")
    qtbot.addWidget(label)
    label.setProperty("scale", scale)
    label.show()
    assert QFontInfo(label.font()).family() == "Roboto"
    assert QFontInfo(label.font()).pixelSize() == pixels


def test_it_turns_dark_and_light_again(qtbot):
    app = QApplication.instance()
    dress = app.findChild(Theme)
    label = QLabel("shift fork R")
    qtbot.addWidget(label)
    label.setProperty("tone", "ink")
    label.show()
    try:
        dress.wear(DARK)
        assert current() is DARK
        assert label.palette().windowText().color() == DARK.ink
    finally:
        dress.wear(LIGHT)
    assert current() is LIGHT
    assert label.palette().windowText().color() == LIGHT.ink


def test_a_button_is_high_enough_for_a_glove(qtbot):
    button = QPushButton("Fitted")
    qtbot.addWidget(button)
    button.show()
    assert button.sizeHint().height() >= theme.TOUCH


def test_a_widget_on_screen_takes_another_tone(qtbot):
    label = QLabel("away")
    qtbot.addWidget(label)
    label.show()
    mark(label, tone="accent")
    assert label.palette().windowText().color() == current().accent
