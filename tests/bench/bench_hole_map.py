"""A hole map of 200 holes on a photo of 12 megapixels, panned and zoomed: milliseconds a frame.

    python -m tests.bench.bench_hole_map

The window draws without a screen (offscreen), 1,180 by 760 pixels. A frame is one step of panning
or of the wheel, from the event to the painted widget. Beside it stands the same frame drawn the
plain way: the whole photo scaled down from its full size, and every hole drawn anew. The ratios
are against a sixtieth of a second; rounds are taken in turn, and each figure is over all frames.
"""

import os
import time
from itertools import cycle
from statistics import median, quantiles

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QObject, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication

from bagtag.domain.hole_order import order
from bagtag.domain.holes import Hole, HoleMap
from bagtag.ui import fonts, theme
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_ground import levels
from bagtag.ui.holes.hole_sheet import HoleSheet
from tests.bench.bench_common import say, table

WIDE, HIGH, HOLES, FRAMES, ROUNDS = 4000, 3000, 200, 60, 5
FRAME = 1000 / 60
"""Milliseconds at 60 frames a second."""


def photo() -> QImage:
    """A picture with something everywhere, as a photo has."""
    image = QImage(WIDE, HIGH, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    for n in range(WIDE * HIGH // 4000):
        x, y = n * 7919 % WIDE, n * 104729 % HIGH
        painter.fillRect(x, y, 90, 70, QColor.fromHsv(n * 37 % 360, 90, 60 + n % 160))
    painter.end()
    return image


def hole_map() -> HoleMap:
    """200 holes in ten rows, of three lines of hardware."""
    holes = tuple(
        Hole(n + 1, 200 + n % 20 * 190, 180 + n // 20 * 290, "ABC"[n % 3]) for n in range(HOLES)
    )
    return HoleMap(holes, photo="a" * 64, width=WIDE, height=HIGH)


class CountedSheet(HoleSheet):
    """Counts what is really painted: a frame that was left out must not pass for a quick one."""

    painted = 0

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        self.painted += 1


def sheet(image: QImage, owner: QObject) -> CountedSheet:
    draft = Draft(owner)
    made = CountedSheet(draft, None)  # type: ignore[arg-type]  # it stands alone here
    made.resize(1180, 760)
    draft.begin(hole_map(), ())
    made.set_photo(levels(image))
    made.show_turns(order(draft.map))
    made.show()
    made.fit()
    QApplication.processEvents()
    return made


def panned(made: CountedSheet) -> list[float]:
    made.fit()
    made.zoom(3.0)
    ways = cycle([(9, 4), (-7, 6), (-5, -8), (6, -3)])
    return _frames(made, lambda: made.pan(QPointF(*next(ways))))


def zoomed(made: CountedSheet) -> list[float]:
    made.fit()
    factors = cycle([1.1] * 15 + [1 / 1.1] * 15)
    return _frames(made, lambda: made.zoom(next(factors), QPointF(500, 300)))


def whole(made: CountedSheet) -> list[float]:
    """All of the photo and all holes in sight, pushed about as far as it goes."""
    made.fit()
    made.zoom(1.15)
    ways = cycle([(3, 2), (-3, -2)])
    return _frames(made, lambda: made.pan(QPointF(*next(ways))))


def _frames(made: CountedSheet, step) -> list[float]:
    taken, before = [], made.painted
    for _ in range(FRAMES):
        start = time.perf_counter()
        step()
        made.repaint()
        taken.append((time.perf_counter() - start) * 1000)
    assert made.painted == before + FRAMES
    return taken


def plain(made: HoleSheet, image: QImage, canvas: QImage) -> list[float]:
    """The same picture without anything kept from frame to frame."""
    made.fit()
    taken = []
    for _ in range(FRAMES // 4):
        start = time.perf_counter()
        painter = QPainter(canvas)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        view = made.view
        place = QRectF(view.on_screen(0, 0), view.on_screen(WIDE, HIGH))
        painter.drawImage(place, image, QRectF(image.rect()))
        _plain_holes(painter, made)
        painter.end()
        taken.append((time.perf_counter() - start) * 1000)
    return taken


def _plain_holes(painter: QPainter, made: HoleSheet) -> None:
    painter.setFont(fonts.font(13, bold=True))
    for hole in made.draft.map.holes:
        spot = made.view.on_screen(hole.x, hole.y)
        for ink, width in ((Qt.GlobalColor.white, 5), (Qt.GlobalColor.black, 2)):
            painter.setPen(QPen(ink, width))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(spot, 12, 12)
        plate = QRectF(spot.x() + 8, spot.y() - 26, 34, 18)
        painter.setBrush(Qt.GlobalColor.white)
        painter.drawRoundedRect(plate, 4, 4)
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, f"{hole.number} {hole.mark}")


def one_round(made: CountedSheet, image: QImage, canvas: QImage) -> dict[str, list[float]]:
    return {
        "panned": panned(made),
        "zoomed": zoomed(made),
        "whole": whole(made),
        "plain": plain(made, image, canvas),
    }


def main() -> None:
    app = QApplication(["bagtag"])
    theme.Theme(app)
    fonts.load()
    image = photo()
    made = sheet(image, app)
    canvas = QImage(made.size(), QImage.Format.Format_ARGB32_Premultiplied)
    taken: dict[str, list[float]] = {"panned": [], "zoomed": [], "whole": [], "plain": []}
    for turn in range(ROUNDS + 1):
        for name, frames in one_round(made, image, canvas).items():
            taken[name] += frames if turn else []
    rows = []
    for name, frames in taken.items():
        p95 = quantiles(frames, n=20)[-1]
        say(f"{name:8} median {median(frames):6.2f} ms, 95th percentile {p95:6.2f} ms")
        if name != "plain":
            against = f"{name}: median against a sixtieth of a second"
            rows.append((against, median(frames) / FRAME, "at most", 1.0))
            rows.append((f"{name}: 95th percentile against it", p95 / FRAME, "at most", 1.0))
    slower = median(taken["plain"]) / median(taken["whole"])
    rows.append(("drawn the plain way, against the whole map", slower, "at least", 2.0))
    say(table(rows))


if __name__ == "__main__":
    main()
