"""The rows of a measuring page: readings, figures against their limits, the decision."""

from collections.abc import Iterator

from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import Place, by_row
from bagtag.domain.measuring.result import Result
from bagtag.domain.measuring.sheet import Limits
from bagtag.domain.phrases import capital
from bagtag.paper.block_marks import Frame, Rule
from bagtag.paper.block_pages import Block
from bagtag.paper.block_set import SMALL, Said, Setting
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR
from bagtag.paper.ink import ACCENT, INK, SOFT
from bagtag.paper.measure_text import MeasurePage, figure, heads, span, unit_of
from bagtag.paper.pdf import MM

_NAMES = 46 * MM
_NUMBER, _CELL, _ROW = 7 * MM, 34 * MM, 8 * MM
_VALUE, _NEW, _WORN, _VERDICT = 44 * MM, 72 * MM, 108 * MM, 144 * MM
_TICK = 3.6 * MM
_SIGNED = (("date", 1.3), ("signature", 3.0))
_FATES = ("refit", "renew", "scrap", "send to be worked")


def readings(page: MeasurePage) -> Iterator[Block]:
    """A row for each row of places, a cell for each place: what was read, or room to write."""
    columns = heads(page.form.places)
    yield _columns(page, columns)
    for name, places in by_row(page.form.places).items():
        made = Setting(_ROW)
        made.put(0, _base(), Said(name, MEDIUM), _NAMES - 3 * MM)
        for place in places:
            _cell(made, page, place, _NAMES + columns.index(place.column) * _wide(columns))
        yield made.block(rule=True)


def _base() -> float:
    return _ROW / 2 + 3.6


def _wide(columns: list[str]) -> float:
    """How wide a column is: as many as there are share the page."""
    return min(_NUMBER + _CELL + 4 * MM, (WIDTH - _NAMES) / len(columns))


def _columns(page: MeasurePage, columns: list[str]) -> Block:
    made = Setting(9 * MM)
    made.put(0, 7 * MM, Said(f"readings, in {page.sheet.unit}", size=SMALL, colour=SOFT))
    wide = _wide(columns)
    for n, name in enumerate(columns):
        x = _NAMES + n * wide + _NUMBER
        made.put(x, 7 * MM, Said(name or "read", size=SMALL, colour=SOFT), wide - _NUMBER)
    return made.block(heading=True)


def _cell(made: Setting, page: MeasurePage, place: Place, x: float) -> None:
    """Its number in the drawing, and its frame; a place that need not be read is drawn lighter."""
    wide = min(_CELL, _wide(heads(page.form.places)) - _NUMBER - 2 * MM)
    at = x + _NUMBER
    made.put_right(at - 2 * MM, _base(), Said(str(place.number), BOLD, 9))
    ink, weight = (INK, 0.8) if place.needed else (SOFT, 0.5)
    made.marks.append(Frame(at, 1 * MM, wide, _ROW - 2 * MM, ink, weight))
    unit, read = unit_of(place, page), page.read.get(place.key)
    if read is not None:
        made.put(at + 2 * MM, _base(), Said(figure(read, unit), MEDIUM, 10.5), wide - 4 * MM)
    if place.unit and place.unit != page.sheet.unit:
        made.put_right(at + wide - 1.5 * MM, _base(), Said(unit, size=8, colour=SOFT))


def figures(page: MeasurePage) -> Iterator[Block]:
    """Every figure that can have a limit: what it is, what it may be, how it stands. Where limits
    are those of many places, as of all inlet valves, each place has its row and they have none."""
    known = {one.key: one for one in page.results.figures}
    slots = {slot.key for slot in page.form.figures}
    limits = {one.key: one for one in page.sheet.limits}
    yield _figure_heads()
    for slot in page.form.figures if slots & known.keys() or not known else ():
        found = known.get(slot.key)
        yield _figure(slot.name, found, found.limits if found else limits.get(slot.key))
    for one in page.results.figures:
        if one.key not in slots:
            yield _figure(one.name, one, one.limits)


def _figure_heads() -> Block:
    made = Setting(9 * MM)
    for x, name in (
        (0.0, "figure"),
        (_VALUE, "is"),
        (_NEW, "as new"),
        (_WORN, "worn, still good"),
        (_VERDICT, "verdict"),
    ):
        made.put(x, 7 * MM, Said(name, size=SMALL, colour=SOFT))
    return made.block(heading=True)


def _figure(name: str, found: Result | None, limits: Limits | None) -> Block:
    made, base = Setting(_ROW), _base()
    made.put(0, base, Said(capital(name), MEDIUM), _VALUE - 2 * MM)
    _limits(made, base, limits)
    if found is None:
        made.marks.append(Frame(_VALUE, 1 * MM, _NEW - _VALUE - 4 * MM, _ROW - 2 * MM, SOFT, 0.5))
        return made.block(rule=True)
    _found(made, base, found)
    return made.block(rule=True)


def _limits(made: Setting, base: float, limits: Limits | None) -> None:
    """What it may be as new and worn, or lines to write that on."""
    wide = _WORN - _NEW - 4 * MM
    for x, is_new in ((_NEW, True), (_WORN, False)):
        said = span(limits, new=is_new)
        made.put(x, base, Said(said), wide)
        if not said:
            made.marks.append(Rule(x, base + 1, wide, weight=0.4))


def _found(made: Setting, base: float, found: Result) -> None:
    """The figure, its verdict, and the whole of it as a sentence."""
    value = f"{show(found.value)} {found.unit}".strip()
    made.put(_VALUE, base, Said(value, BOLD, 10.5), _NEW - _VALUE - 2 * MM)
    ink, font = (ACCENT, BOLD) if found.verdict.is_doubted else (INK, REGULAR)
    verdict = Said(found.verdict.value, font, 10, ink)
    made.put(_VERDICT, base, verdict, WIDTH - _VERDICT)
    made.y -= 1.5 * MM
    made.say(0, WIDTH, Said(capital(found.said), size=8.5, colour=SOFT, most=3))
    made.y += 1.5 * MM


def decision(page: MeasurePage) -> Block:
    """What was decided, by whom and when; or boxes and lines for it. What is read of no part, as
    a clearance, is set and not decided: it is signed alone."""
    made = Setting(4 * MM)
    decided = page.sheet.decision
    if decided is None:
        _to_decide(made) if page.removal else made.sign(("measured by", 3.0), *_SIGNED)
        return made.block(rule=True, apart=True)
    who = f" by {decided.who}" if decided.who else ""
    fate = f"Decided: {decided.called}"
    made.say(0, WIDTH, Said(fate, BOLD, 14), Said(f"{decided.at:%Y-%m-%d %H:%M}{who}", size=10))
    for before, words in (
        ("Why: ", decided.why),
        ("Work for the shop: ", decided.work),
        ("The sheet said then: ", decided.said),
    ):
        made.say(0, WIDTH, Said(f"{before}{words}" if words else "", size=10, space=2))
    made.y += 3 * MM
    return made.block(rule=True, apart=True)


def _to_decide(made: Setting) -> None:
    made.say(0, WIDTH, Said("Decision", BOLD, 12))
    made.y += 3 * MM
    x = 0.0
    for fate in _FATES:
        made.marks.append(Frame(x, made.y, _TICK, _TICK, INK, 1.0))
        made.put(x + _TICK + 2.5 * MM, made.y + _TICK - 1, Said(fate, size=11))
        x += 38 * MM
    made.y += _TICK + 3 * MM
    made.sign(("why", 5.0))
    made.sign(("decided by", 3.0), *_SIGNED)
