"""What a step says, from its name down to its note."""

from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Origin
from bagtag.domain.phrases import listed
from bagtag.paper.checklist_text import ChecklistPiece, ChecklistStep
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR
from bagtag.paper.ink import SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.step_figures import set_figures
from bagtag.paper.step_hardware import set_hardware
from bagtag.paper.step_setter import Setter

DEEPER = 5 * MM
_ORIGINS = {
    Origin.OFF: "",
    Origin.SHOP: "taken off by the shop",
    Origin.NEW: "new part, was never on the machine",
}


def set_words(setter: Setter, step: ChecklistStep, sentence: str) -> None:
    """The whole column; `sentence` is the which-way facts in words. The note comes last, so that
    it goes first where a step is too long for a page."""
    setter.add(_counted(step.name, step.quantity), BOLD, 12)
    _whereabouts(setter, step)
    _before_it(setter, step)
    if sentence:
        setter.add(sentence, MEDIUM, 11, before=2)
    _pieces(setter, step)
    set_hardware(setter, step)
    set_figures(setter, step)
    _remarks(setter, step)


def _counted(name: str, quantity: int) -> str:
    return f"{name}\u00a0×\u00a0{quantity}" if quantity > 1 else name


def _whereabouts(setter: Setter, step: ChecklistStep) -> None:
    said = (
        f"removal {step.removal}" if step.removal else "",
        step.area,
        f"bench build: {step.within}" if step.within else "",
        _ORIGINS[step.origin],
    )
    setter.add(" · ".join(part for part in said if part), REGULAR, 8.5, SOFT)


def _before_it(setter: Setter, step: ChecklistStep) -> None:
    """What must be known before a hand is put to it. The manual's word is on every page."""
    if step.waits:
        setter.add(f"Waits: {'; '.join(step.waits)}", MEDIUM, before=2)
    if step.along:
        setter.add(f"Goes in as one step with {listed(step.along)}.", MEDIUM, before=2)
    if step.done is None:
        for caution in step.cautions:
            if caution != OVERRIDE:
                setter.caution(caution, MEDIUM)


def _pieces(setter: Setter, step: ChecklistStep) -> None:
    if step.pieces:
        setter.add("Built up on the bench from:", before=2)
    for piece in step.pieces:
        _piece(setter, piece)


def _piece(setter: Setter, piece: ChecklistPiece) -> None:
    """Deep nesting stops to the right of the middle, so that the name keeps its room."""
    indent = min(piece.depth * DEEPER, setter.room / 2)
    name = _counted(piece.name, piece.quantity)
    setter.tick(name, number=str(piece.number), done=piece.done, indent=indent)


def _remarks(setter: Setter, step: ChecklistStep) -> None:
    for head, said in (
        ("Goes on: ", step.goes_on),
        ("Home when: ", step.home),
        ("Signed all the same: ", step.done.reason if step.done else ""),
        ("Note: ", step.note),
    ):
        if said:
            setter.add(head + said, before=2)
