"""What a template says beside its lines to measure: how to check it, what to be wary of."""

from bagtag.paper.fonts import BOLD, REGULAR, tidy
from bagtag.paper.pdf import MM
from bagtag.paper.template_text import NO_SIDE, Template
from bagtag.paper.typeset import wrap

BESIDE = 108.0
"""Where they begin, in mm from the left margin: right of the lines to measure."""
MAP = (30.0, 17.0)
"""Room for the small map of the sheets, in mm."""
SIZE, LEAD = 7.0, 2.9
_MEASURE = "Measure both lines with a rule before use."
_TOGETHER = "Cut one of two sheets along its dashed line, lay it on the other: half rings on rings."


def notes(template: Template, room: float, *, is_several: bool) -> list[tuple[str, str]]:
    """Lines and their fonts in a column `room` mm wide. The head says itself that nobody told
    the side."""
    texts = [(_MEASURE, BOLD), (template.check, REGULAR)]
    texts += [(_TOGETHER, REGULAR)] if is_several else []
    texts += [(warning, REGULAR) for warning in template.warnings if warning != NO_SIDE]
    return [
        (line, font) for text, font in texts for line in wrap(tidy(text), font, SIZE, room * MM)
    ]


def room_beside(width: float) -> float:
    """How wide the notes may be where `width` mm lie between the margins, the map beside them."""
    return width - BESIDE - MAP[0] - 4
