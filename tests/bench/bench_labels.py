"""How long labels take: against their own text alone, and against QR symbols as pictures.

    python -m tests.bench.bench_labels [LABELS [ROUNDS]]

Three ways to print the same labels on an A4 sheet of 3 x 8, interleaved in every round; the
medians' ratios are what counts. Codes and names are all different. The floor draws the labels'
words and nothing else; the peer draws words, which-way picture and a QR picture. Both are spared
the layout, and use reportlab's canvas as it is, without ASCII85. The default of 2,000 labels a
round stands for 10,000: the time is in the labels, and it is proportional to their number.
"""

import random
import statistics
import sys
import time
from collections.abc import Callable
from io import BytesIO

from bagtag.domain import codes
from bagtag.domain.datum import Datum, Side
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Clocking, Faces, Fact, Hand, Outness, Place
from bagtag.paper import stock as label_stock
from bagtag.paper.fonts import register
from bagtag.paper.label_text import Laid
from bagtag.paper.labels import LabelText, label_pdf, layout
from bagtag.paper.pdf import MM
from bagtag.paper.picture import paint
from bagtag.paper.stock import Cell, Stock, cells

DPI = 300
DATUM = Datum(
    "standing behind the handlebars, looking forward",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"},
)
NAMES = ("Shift fork", "Retainer plate", "Main bearing", "Oil pipe", "Drain plug", "Piston ring")
AREAS = ("gearbox", "engine > lower case", "cylinder head", "crankcase")


def main() -> None:
    from reportlab import rl_config

    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    register()
    rl_config.useA85 = 0
    stock = label_stock.find("a4-3x8")
    labels = make_labels(count)
    laid = [layout(label, stock, DPI) for label in labels]
    ways: dict[str, Callable[[], object]] = {
        "label PDF": lambda: label_pdf(BytesIO(), labels, stock, dpi=DPI),
        "its text alone": lambda: draw(laid, stock, pictures=False),
        "qrcode, PIL, drawImage": lambda: draw(laid, stock, pictures=True),
    }
    times: dict[str, list[float]] = {name: [] for name in ways}
    for _ in range(rounds):
        for name, way in ways.items():
            times[name].append(_cpu(way))
    report({name: statistics.median(t) / count * 1e3 for name, t in times.items()}, count, rounds)


def make_labels(count: int) -> list[LabelText]:
    choice = random.Random(7)
    return [
        LabelText(
            code=codes.draw(choice.choice),
            number=str(number),
            name=f"{choice.choice(NAMES)} {number}",
            quantity=choice.choice((1, 1, 1, 4)),
            job="Walking tractor, gearbox noisy in second",
            area=choice.choice(AREAS),
            facts=_facts(choice),
            datum=DATUM,
            fate=choice.choice((Fate.REFIT, Fate.REFIT, Fate.RENEW, Fate.DECIDE)),
        )
        for number in range(1, count + 1)
    ]


def _facts(choice: random.Random) -> tuple[Fact, ...]:
    some: list[tuple[Fact, ...]] = [
        (),
        (Faces("OUT", Outness.OUTWARD),),
        (Hand(choice.choice("LR"), stamped=True), Place(choice.randint(1, 3), 3, Side.LEFT)),
        (Faces("sealed side", choice.choice(list(Side))),),
        (Clocking("gap", float(choice.randint(1, 12)), seen_from=Side.TOP),),
    ]
    return choice.choice(some)


def draw(laid: list[Laid], stock: Stock, *, pictures: bool) -> None:
    """The same words in the same places, and if asked the pictures beside them."""
    from reportlab.pdfgen.canvas import Canvas

    width, height = stock.page_width * MM, stock.page_height * MM
    canvas = Canvas(BytesIO(), pagesize=(width, height), pageCompression=1)
    page = 0
    for cell, label in zip(cells(stock, len(laid)), laid, strict=True):
        if cell.page != page:
            canvas.showPage()
            page = cell.page
        _draw_words(canvas, label, cell, height)
        if pictures:
            _draw_which_way(canvas, label, cell, height)
            _draw_symbol(canvas, label, cell, height)
    canvas.save()


def _draw_words(canvas, label: Laid, cell: Cell, height: float) -> None:
    for word in label.words:
        canvas.setFont(word.font, word.size * MM)
        canvas.drawString((cell.x + word.x) * MM, height - (cell.y + word.y) * MM, word.text)


def _draw_which_way(canvas, label: Laid, cell: Cell, height: float) -> None:
    for drawn in label.pictures:
        x, y = (cell.x + drawn.x) * MM, height - (cell.y + drawn.y + drawn.height) * MM
        paint(canvas, drawn.picture, x, y, drawn.width * MM, drawn.height * MM)


def _draw_symbol(canvas, label: Laid, cell: Cell, height: float) -> None:
    """As one would without a thought: the library picks the mask and paints, reportlab embeds."""
    import qrcode
    from reportlab.lib.utils import ImageReader

    symbol = qrcode.QRCode(version=1, error_correction=qrcode.constants.ERROR_CORRECT_H)
    symbol.add_data(label.code)
    picture = ImageReader(symbol.make_image().get_image())
    size = 29 * label.module * 72 / label.dpi
    canvas.drawImage(picture, cell.x * MM, height - cell.y * MM - size, size, size)


def _cpu(way: Callable[[], object]) -> float:
    start = time.process_time()
    way()
    return time.process_time() - start


def report(cost: dict[str, float], count: int, rounds: int) -> None:
    ours, text = cost["label PDF"], cost["its text alone"]
    peer = cost["qrcode, PIL, drawImage"]
    lines = [
        f"{count} labels a round, median of {rounds}, CPU ms a label",
        *(f"  {name:<24}{ms:8.3f}" for name, ms in cost.items()),
        f"  {'':<40}{'target':>8}{'result':>8}",
        f"  {'label PDF over its text alone':<40}{'<= 8':>8}{ours / text:>8.1f}",
        f"  {'qrcode, PIL, drawImage over label PDF':<40}{'>= 8':>8}{peer / ours:>8.1f}",
    ]
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
