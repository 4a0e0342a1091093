"""One step of the checklist, measured first and painted where there is room for it.

From left to right: tick box and number; which way, or what kind of task; the words; the photo; the
code. Below them who signs.
"""

from dataclasses import dataclass, field

from bagtag.domain.codes import show
from bagtag.domain.model import Fate
from bagtag.paper import qr, step_sign
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import BOLD, CAP, width
from bagtag.paper.ink import ACCENT, INK, RGB, WHITE
from bagtag.paper.joint_block import JointBlock, block, is_block
from bagtag.paper.pdf import MM
from bagtag.paper.step_marks import Box, Marks, Tick, Words, moved
from bagtag.paper.step_setter import Rooms, Setter
from bagtag.paper.step_task import is_hold, pill_of
from bagtag.paper.step_told import Told
from bagtag.paper.step_words import set_words

WIDTH = 182 * MM
PAD = 3.2 * MM
TICK = 8 * MM
NUMBER = 15.0
WHICH_WAY = (15 * MM, 40 * MM, 20 * MM)
WORDS_AT, GUTTER = 59 * MM, 4 * MM
PHOTO = (141 * MM, 26 * MM, 20 * MM)
CODE_AT = 170.7 * MM
MODULE = 5 * 72 / 300
CODE_FOOT = qr.SIZE * MODULE + 5.5 * MM
LEAST = 20 * MM
PILL = 5.4 * MM
WORDS_SHARE = 0.25
"""How much of the room is for a step's words, however many passes it has."""
_APART = 1.4 * MM


@dataclass(slots=True)
class Card:
    """A step with its marks set: `height` in points; `complaints` are what could not be shown."""

    step: ChecklistStep
    height: float
    marks: Marks
    complaints: list[str] = field(default_factory=list)


def measure(step: ChecklistStep, tallest: float, told: Told | None = None) -> Card:
    """Set a step. A card never gets higher than `tallest`: then the words are cut."""
    told = told or Told()
    room = WIDTH - WHICH_WAY[0]
    sign = step_sign.height(step, room) + (PAD if is_hold(step) else 0)
    right = _right_foot(step)
    beside = (PHOTO[0] if step.thumbnail else CODE_AT if step.code else WIDTH + GUTTER) - GUTTER
    setter = Setter(PAD, WORDS_AT, 0.0, Rooms(beside - WORDS_AT, WIDTH - WORDS_AT, right))
    left = _left(setter.marks, step)
    joint = _joint(step, tallest - PAD - sign, max(left, right))
    setter.end_at(tallest - PAD - sign - joint.height)
    set_words(setter, step, told.sentence(step))
    _code(setter.marks, step)
    above = max(setter.y + PAD, right, left if joint.height else 0.0)
    marks = moved(joint.marks, above, onto=setter.marks)
    height = _signed(marks, step, left, above + joint.height)
    was_cut = setter.was_cut or joint.was_cut
    return Card(step, height, marks, ["its words were cut."] if was_cut else [])


def _joint(step: ChecklistStep, room: float, beside: float) -> JointBlock:
    """Holes and passes below everything else, as high as that leaves room for."""
    if not is_block(step):
        return JointBlock(Marks(), 0.0, False)
    return block(step, room - max(beside, room * WORDS_SHARE))


def _left(marks: Marks, step: ChecklistStep) -> float:
    """Tick box, number, and the pills below the picture; where that ends."""
    marks.ticks.append(Tick(0, PAD, TICK, step.done is not None))
    marks.words.append(Words(0, PAD + TICK + 6.5 * MM, str(step.number), BOLD, NUMBER))
    y = PAD + (WHICH_WAY[2] + _APART if step.facts else 0)
    for text, ink, fill in _pills(step):
        _pill(marks, text, y, ink, fill)
        y += PILL + _APART
    return y


def _pills(step: ChecklistStep) -> list[tuple[str, RGB, RGB | None]]:
    """Words in a frame: what task it is, and what becomes of a part."""
    pills: list[tuple[str, RGB, RGB | None]] = []
    if step.task is not None:
        hold = is_hold(step)
        pills.append((pill_of(step.task), WHITE if hold else INK, INK if hold else None))
    if step.fate is not Fate.REFIT:
        pills.append((step.fate.value.upper(), WHITE, ACCENT))
    return pills


def _pill(marks: Marks, text: str, y: float, ink: RGB, fill: RGB | None) -> None:
    x, size = WHICH_WAY[0], 11.0
    marks.boxes.append(Box(x, y, width(text, BOLD, size) + 4 * MM, PILL, fill))
    marks.words.append(Words(x + 2 * MM, y + (PILL + size * CAP) / 2, text, BOLD, size, ink))


def _code(marks: Marks, step: ChecklistStep) -> None:
    """The code in letters under its symbol, smaller where it is a wide one."""
    if step.code:
        code, most = show(step.code), WIDTH - PHOTO[0] - PHOTO[1] - 0.6 * MM
        size = min(8.5, most / width(code, BOLD, 1))
        wide = width(code, BOLD, size)
        x = min(CODE_AT + (qr.SIZE * MODULE - wide) / 2, WIDTH - wide)
        marks.words.append(Words(x, PAD + qr.SIZE * MODULE + 4.6 * MM, code, BOLD, size))


def _right_foot(step: ChecklistStep) -> float:
    """Where photo and code end, whichever is lower; the step's top where there is neither."""
    photo = PAD + PHOTO[2] + _APART if step.thumbnail else 0.0
    return max(photo, PAD + CODE_FOOT if step.code else 0.0)


def _signed(marks: Marks, step: ChecklistStep, beside: float, above: float) -> float:
    """Who signs, below `above`; the height of it all. A hold point's block lies under pills and
    picture too, a row only right of them."""
    left = WHICH_WAY[0]
    if is_hold(step):
        top = max(beside + _APART, above)
        step_sign.hold_block(marks, step, left, WIDTH, top)
        return top + step_sign.height(step, WIDTH - left) + PAD
    height = max(above + step_sign.ROW, beside + PAD - _APART, LEAST + PAD)
    step_sign.sign_row(marks, step, WORDS_AT, WIDTH, height)
    return height
