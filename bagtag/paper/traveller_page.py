"""The traveller: the sheet that goes with a batch to its shop and comes back with it."""

from bagtag.domain.cautions import MANUAL
from bagtag.domain.codes import show
from bagtag.domain.phrases import capital
from bagtag.domain.send_out import SendOut
from bagtag.paper import block_set
from bagtag.paper.block_marks import Frame, Rule, Symbol
from bagtag.paper.block_pages import Block, print_blocks
from bagtag.paper.block_set import SMALL, Said, Setting
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.checklist_text import ChecklistHeader
from bagtag.paper.fonts import BOLD, MEDIUM, width
from bagtag.paper.ink import ACCENT, INK, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.qr import SIZE
from bagtag.paper.traveller_part import blocks
from bagtag.paper.traveller_text import CAUTIONS, Traveller, counted, packed_by, price_words
from bagtag.paper.whole_file import Target

_MODULE = 22 * MM / SIZE
_CODE = WIDTH - 22 * MM
_ROOM = _CODE - 10 * MM
_NONE = "Nothing is packed in this send-out yet."


def traveller_pdf(target: Target, sheet: Traveller) -> int:
    """Print it into a PDF file or an open binary stream; returns how many pages.

    BadInput when the file cannot be written.
    """
    out = sheet.send_out
    header = ChecklistHeader(f"{_on_each_page(out)} · {sheet.job}", sheet.printed, sheet.owner)
    parts = [block for part in sheet.parts for block in blocks(part, out)]
    pages = list(block_set.pages([_opening(sheet)], [*parts, _handing(sheet)]))
    title = f"Traveller: {out.called}"
    return print_blocks(target, title, header, pages, has_torque=False, foot=MANUAL)


def _on_each_page(out: SendOut) -> str:
    """What a page says that came apart from the others: `Send-out 2, THH-VP8`."""
    code = f", {show(out.code)}" if out.code else ""
    return f"Send-out {out.number}{code}"


def _opening(sheet: Traveller) -> Block:
    made = Setting()
    _code(made, sheet.send_out.code)
    out = sheet.send_out
    made.say(
        0,
        _ROOM,
        Said(f"Send-out {out.number}", BOLD, 24),
        Said(f"to {out.shop}", MEDIUM, 15, most=2),
        Said(out.contact, size=10, colour=SOFT, most=2),
    )
    made.y = max(made.y + 5 * MM, 31 * MM if out.code else 0)
    _facts(made, sheet)
    _work(made, sheet)
    _cautions(made)
    return made.block()


def _code(made: Setting, code: str) -> None:
    """The batch's code to scan, and in letters under it."""
    if not code:
        return
    made.marks.append(Symbol(_CODE, 1 * MM, code, _MODULE))
    size = 12.0
    x = _CODE + (22 * MM - width(show(code), BOLD, size)) / 2
    made.put(x, 28 * MM, Said(show(code), BOLD, size))


def _facts(made: Setting, sheet: Traveller) -> None:
    """Job, owner, the days and the count, in cells beside each other."""
    out = sheet.send_out
    cells = (
        ("job", sheet.job, 3.4),
        ("owner", sheet.owner or "not named", 2.4),
        ("goes out", f"{out.out_on:%Y-%m-%d}", 1.5),
        ("promised back", f"{out.promised:%Y-%m-%d}" if out.promised else "no day named", 1.9),
    )
    each = WIDTH / sum(share for *_, share in cells)
    x, top, foot = 0.0, made.y, made.y
    for name, value, share in cells:
        made.y = top + 2 * MM
        made.say(x, each * share - 4 * MM, Said(name, size=SMALL, colour=SOFT))
        made.say(x, each * share - 4 * MM, Said(value, MEDIUM, 11, most=6))
        x, foot = x + each * share, max(foot, made.y)
    made.marks += [Rule(0, top, WIDTH, INK, 0.9), Rule(0, foot + 2.5 * MM, WIDTH)]
    made.y = foot + 2.5 * MM


def _work(made: Setting, sheet: Traveller) -> None:
    out = sheet.send_out
    made.say(
        0,
        WIDTH,
        Said(capital(out.work), MEDIUM, 11.5, space=3 * MM),
        Said(out.note, size=10, colour=SOFT, space=1 * MM),
        Said(price_words(out), size=10, space=2 * MM),
        Said(packed_by(out), size=10, colour=SOFT, space=1 * MM),
        Said(counted(sheet) if sheet.parts else _NONE, BOLD, 13, space=3 * MM),
    )


def _cautions(made: Setting) -> None:
    """Beside a bar, so that they are seen."""
    made.y += 3 * MM
    top = made.y
    for caution in CAUTIONS:
        made.say(5 * MM, WIDTH - 5 * MM, Said(caution, size=9, space=1))
    made.marks.append(Frame(0, top + 1, 1.2 * MM, made.y - top, ACCENT, filled=True))
    made.y += 5 * MM


def _handing(sheet: Traveller) -> Block:
    """Who handed it over, who took it, and who counted it back."""
    made = Setting(2 * MM)
    made.say(0, WIDTH, Said("Handed over and handed back", BOLD, 12))
    back = sheet.packed + sheet.by_shop
    for name in (
        "handed over to the shop by",
        "taken and counted by the shop",
        "handed back by the shop, with all that was taken off",
        f"taken back and counted by ({back} to come back)",
    ):
        made.sign((name, 3.4), ("pieces", 0.8), ("date", 1.2), ("signature", 2.4))
    return made.block(rule=True)
