"""How long a checklist of 1,000 steps takes: python -m tests.bench.bench_checklist [STEPS [ROUNDS]]

Steps of every kind, each with a photo of its own, most with a which-way picture of their own, with
hardware, figures and codes. Interleaved in every round:

* the checklist, from steps to bytes;
* the same marks on a bare canvas: reportlab's own canvas without ASCII85, drawing every line of
  text, box, rule, which-way picture, code and photo of the very same pages where they belong. It is
  handed the finished marks: no measuring, no wrapping, no sentences, no pagination, no which-way
  pictures worked out, no symbols encoded. What it leaves out is done before the clock starts;
* the same marks on our own canvas, which formats figures faster: a stricter floor;
* reportlab's LongTable as it comes, ASCII85 and all: number, words as a Paragraph and photo in a
  row of a table. It draws no which-way picture, no code, no box and no line to write on;
* the same without ASCII85, printed and not gated.
"""

import random
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from html import escape
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from bagtag.domain import codes
from bagtag.domain.datum import Datum, Side
from bagtag.domain.fitting import Asked, TaskKind
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate
from bagtag.domain.shapes import Picture
from bagtag.domain.which_way import Clocking, Faces, Fact, Hand, Outness, Place, Seat, SeatKind
from bagtag.paper import ink, qr
from bagtag.paper.checklist import ChecklistHeader, ChecklistStep, checklist_pdf
from bagtag.paper.checklist_flow import Section, paginate
from bagtag.paper.checklist_page import (
    FOOT,
    LEFT,
    PAGE,
    TOP,
    Opening,
    opening,
    paint_frame,
    paint_opening,
)
from bagtag.paper.fonts import register
from bagtag.paper.pdf import open_canvas
from bagtag.paper.picture import paint
from bagtag.paper.step_card import CODE_AT, MODULE, PAD, PHOTO, WHICH_WAY, WIDTH, Card, measure
from bagtag.paper.step_told import Told
from tests.bench.bench_common import interleave, milliseconds, say, table

DATUM = Datum(
    "standing behind the handlebars, looking forward",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"},
)
HEADER = ChecklistHeader("Walking tractor, all of it", date(2026, 11, 25), "J. Example", DATUM)
_NAMES = ("Shift fork", "Retainer plate", "Main bearing", "Oil pipe", "Drain plug", "Piston ring")
_AREAS = ("engine > lower case > gearbox", "engine > cylinder head", "engine > crankcase", "frame")
_FEATURES = ("OUT", "sealed side", "chamfer", "sharp edge", "arrow", "dot", "lip", "collar")
_HELD = (
    (),
    (HeldBy(4, "screw", "M6", 12, drive="T30", torque=Torque(10), threadlocker="medium"),),
    (HeldBy(2, "bolt", "M8", 30, torque=Torque(25)), HeldBy(1, "nut", "M10", torque=Torque(40))),
)
_TASKS = (None,) * 8 + (TaskKind.CLEAN, TaskKind.END_FLOAT, TaskKind.HOLD_POINT)


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 9
    register()
    with TemporaryDirectory() as folder:
        steps = make_steps(count, Path(folder))
        pages = list(_finished(steps))
        alike = len({step.facts for step in steps if step.facts})
        say(f"{count} steps, {len(pages)} pages, {alike} different which-way pictures")
        _report(_canvases(steps, pages, rounds), _tables(steps, max(3, rounds // 3)))


def _canvases(
    steps: Sequence[ChecklistStep], pages: "Sequence[Finished]", rounds: int
) -> dict[str, float]:
    ways: dict[str, Any] = {
        "checklist": lambda: checklist_pdf(BytesIO(), HEADER, steps),
        "bare canvas": lambda: draw(_bare(), pages),
        "our canvas": lambda: draw(open_canvas(BytesIO(), "marks", PAGE), pages),
    }
    return milliseconds(interleave(rounds, **ways))


def _tables(steps: Sequence[ChecklistStep], rounds: int) -> dict[str, float]:
    """Apart from the canvases: a table leaves much to collect, and whoever comes next pays it."""
    ways: dict[str, Any] = {
        "checklist": lambda: checklist_pdf(BytesIO(), HEADER, steps),
        "LongTable": partial(long_table, steps, ascii85=1),
        "LongTable, no ASCII85": partial(long_table, steps, ascii85=0),
    }
    return milliseconds(interleave(rounds, **ways))


def make_steps(count: int, folder: Path) -> list[ChecklistStep]:
    choice = random.Random(7)
    return [_step(number, folder, choice) for number in range(1, count + 1)]


def _step(number: int, folder: Path, choice: random.Random) -> ChecklistStep:
    task = choice.choice(_TASKS)
    return ChecklistStep(
        number=number,
        name=f"{choice.choice(_NAMES)} {number}",
        removal="" if task else str(2000 - number),
        quantity=choice.choice((1, 1, 1, 4)),
        area=choice.choice(_AREAS),
        facts=() if task else _facts(choice),
        datum=DATUM,
        held_by=() if task else choice.choice(_HELD),
        goes_on=choice.choice(("engine oil", "")),
        fate=choice.choice((Fate.REFIT, Fate.REFIT, Fate.RENEW)),
        note=choice.choice(("", "", f"Was tight at its {choice.randint(2, 40)} mm seat: warm it.")),
        thumbnail=_photo(folder / f"{number}.jpg", choice),
        code=codes.draw(choice.choice),
        task=task,
        asks=(Asked("end float", "mm", 0.05, 0.2),) if task is TaskKind.END_FLOAT else (),
        not_by=("A. Birch",) if task is TaskKind.HOLD_POINT else (),
    )


def _facts(choice: random.Random) -> tuple[Fact, ...]:
    faces = Faces(choice.choice(_FEATURES), choice.choice((*Side, *Outness)))
    others: list[tuple[Fact, ...]] = [
        (),
        (Hand(choice.choice("LR"), stamped=True), Place(choice.randint(1, 5), 5, Side.LEFT)),
        (Seat(SeatKind.BELOW, choice.randint(1, 40) / 10),),
        (Clocking("gap", choice.randint(2, 24) / 2, seen_from=Side.TOP),),
    ]
    return (faces, *choice.choice(others))


def _photo(file: Path, choice: random.Random) -> Path:
    """A picture of its own of some 30 kB, as large as a thumbnail is."""
    from PIL import Image

    grain = Image.frombytes("RGB", (48, 36), choice.randbytes(48 * 36 * 3))
    grain.resize((512, 384), Image.Resampling.BICUBIC).save(file, quality=80)
    return file


@dataclass(frozen=True)
class Finished:
    """A page with nothing left to work out: cards and where their tops are, with the which-way
    picture and the code's strokes of each; `begun` is the opening of the first."""

    number: int
    count: int
    begun: Opening
    cards: list[tuple[float, Card, Picture | None, str]]


def _finished(steps: Sequence[ChecklistStep]) -> Iterator[Finished]:
    told = Told()
    cards = tuple(measure(step, TOP - FOOT, told) for step in steps)
    begun = opening(HEADER, steps)
    pages = list(paginate([Section(cards)], TOP - FOOT - begun.height))
    for number, page in enumerate(pages, start=1):
        top = TOP - (begun.height if number == 1 else 0)
        placed = []
        for card in page:
            assert isinstance(card, Card)
            facts, wide, high = card.step.facts, *WHICH_WAY[1:]
            drawn = told.picture(card.step, wide / high) if facts else None
            placed.append((top, card, drawn, _symbol(card.step.code, top)))
            top -= card.height
        yield Finished(number, len(pages), begun, placed)


def _symbol(code: str, top: float) -> str:
    """A code's strokes, at its place."""
    canvas = open_canvas(BytesIO(), "code", PAGE)
    with canvas.aside() as strokes:
        qr.draw(canvas, code, LEFT + CODE_AT, top - PAD, MODULE)
    return " ".join(strokes)


def _bare() -> Any:
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0
    return Canvas(BytesIO(), pagesize=PAGE, pageCompression=1)


def draw(canvas: Any, pages: Sequence[Finished]) -> None:
    """Every mark where it belongs."""
    for page in pages:
        torque = any(line.torque for _, card, *_ in page.cards for line in card.step.held_by)
        paint_frame(canvas, HEADER, page.number, page.count, has_torque=torque)
        if page.number == 1:
            paint_opening(canvas, page.begun)
        for top, card, drawn, symbol in page.cards:
            _draw_card(canvas, card, drawn, symbol, top)
        canvas.showPage()
    canvas.save()


def _draw_card(canvas: Any, card: Card, drawn: Picture | None, symbol: str, top: float) -> None:
    ink.rule(canvas, LEFT, top, WIDTH)
    _draw_boxes(canvas, card, top)
    for word in card.marks.words:
        canvas.setFillColorRGB(*word.colour)
        canvas.setFont(word.font, word.size)
        canvas.drawString(LEFT + word.x, top - word.y, word.text)
    at, wide, high = WHICH_WAY
    if drawn is not None:
        paint(canvas, drawn, LEFT + at, top - PAD - high, wide, high, black=False)
    at, wide, high = PHOTO
    photo, x, y = str(card.step.thumbnail), LEFT + at, top - PAD - high
    canvas.drawImage(photo, x, y, wide, high, preserveAspectRatio=True, anchor="n")
    canvas.setFillGray(0)
    canvas.addLiteral(symbol)


def _draw_boxes(canvas: Any, card: Card, top: float) -> None:
    for x, y, wide, high, fill, weight in card.marks.boxes:
        canvas.setFillColorRGB(*(fill or ink.WHITE))
        canvas.setLineWidth(weight)
        canvas.rect(LEFT + x, top - y - high, wide, high, stroke=not fill, fill=bool(fill))
    for x, y, side, _ in card.marks.ticks:
        ink.square(canvas, LEFT + x, top - y - side, side)
    for x, y, wide, weight in card.marks.rules:
        ink.rule(canvas, LEFT + x, top - y, wide, colour=ink.INK, weight=weight)


def long_table(steps: Sequence[ChecklistStep], *, ascii85: int) -> None:
    """Number, words and photo in a table that may be split between its rows."""
    from reportlab import rl_config
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.platypus import Image, LongTable, Paragraph, SimpleDocTemplate

    rl_config.useA85 = ascii85
    style = getSampleStyleSheet()["Normal"]
    _, wide, high = PHOTO
    rows = [
        [str(step.number), Paragraph(_as_markup(step), style), Image(str(photo), wide, high)]
        for step in steps
        if (photo := step.thumbnail) is not None
    ]
    table = LongTable(rows, colWidths=[WHICH_WAY[0], PHOTO[0] - WHICH_WAY[0], wide + 12])
    SimpleDocTemplate(BytesIO(), pagesize=PAGE).build([table])


def _as_markup(step: ChecklistStep) -> str:
    said = [f"removal {step.removal} · {step.area}", *map(str, step.held_by)]
    said += [step.goes_on, step.note, "fitted by ________ date ________"]
    return f"<b>{escape(step.name)}</b><br/>" + "<br/>".join(escape(s) for s in said if s)


def _report(drawn: dict[str, float], tables: dict[str, float]) -> None:
    for name, ms in (*drawn.items(), *tables.items()):
        say(f"{name:30} {ms:8.0f} ms")
    ours, again = drawn["checklist"], tables["checklist"]
    plain = ours / drawn["bare canvas"]
    say(
        table(
            (
                ("checklist over the same marks on a bare canvas", plain, "at most", 1.6),
                ("the same on our own canvas", ours / drawn["our canvas"], "at most", 1.6),
                (
                    "LongTable as it comes over checklist",
                    tables["LongTable"] / again,
                    "at least",
                    5,
                ),
            )
        )
    )
    bare = tables["LongTable, no ASCII85"] / again
    say(f"printed only: LongTable without ASCII85 over checklist {bare:.2f}")


if __name__ == "__main__":
    main()
