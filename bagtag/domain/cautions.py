"""The usual cautions for a part: by its kind and what its entry says can hurt, else by its words.

Common practice of the trade, no source. A part without a kind whose entry has no such word gets
no caution, which does not make it safe.
"""

import re

from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.kinds import PartKind
from bagtag.domain.model import Hazard, Removal

SENTENCES = {
    Hazard.SPRING: "Under tension it flies: hold it back, and wear eye protection.",
    Hazard.HEAVY: "Heavy: lift it with help or a hoist, and keep fingers out of the joint.",
    Hazard.SHARP: "Sharp: wear gloves.",
    Hazard.FRAGILE: "Fragile: wrap it, and lay it where nothing knocks or presses on it.",
    Hazard.HOT: (
        "Hot parts burn long after they look cold: let them cool, or use heat-proof gloves."
    ),
    Hazard.FUEL: "Fuel and its vapour catch fire: no flame, no spark, fresh air.",
    Hazard.PRESSURE: (
        "A jet under pressure goes through skin: let the pressure off, keep hands away."
    ),
}

_WORDS = {
    Hazard.SPRING: (
        r"springs?(?! (?:washers?|pins?))|circlips?|snap rings?|detents?|recoil starter"
    ),
    Hazard.HEAVY: (
        r"heavy|flywheels?|crankshafts?|cylinder head|crankcase"
        r"|(?:engine|gearbox|lower|upper) case|casting"
    ),
    Hazard.SHARP: r"sharp|blades?|tines?|burrs?",
    Hazard.FRAGILE: r"fragile|brittle",
    Hazard.HOT: r"hot|exhaust|silencer|manifold",
    Hazard.FUEL: r"fuel|petrol|diesel|carburettor|tank|float bowl",
    Hazard.PRESSURE: r"injectors?|injection|high[- ]pressure",
}
_SAID = {hazard: re.compile(rf"\b(?:{words})\b", re.IGNORECASE) for hazard, words in _WORDS.items()}


def cautions(removal: Removal, kind: PartKind | None = None) -> tuple[str, ...]:
    """One sentence each; the manual's word comes first wherever a torque is given.

    Where the part's kind is known its name is not searched for words; what a person wrote of its
    condition and in the note always is.
    """
    hazards = _hazards(removal, kind)
    override = [OVERRIDE] if any(line.torque for line in removal.held_by) else []
    return (*override, *(SENTENCES[hazard] for hazard in Hazard if hazard in hazards))


def _hazards(removal: Removal, kind: PartKind | None) -> set[Hazard]:
    written = (removal.condition, removal.note)
    text = " ".join(written if kind else (removal.name, *written))
    found = {hazard for hazard, words in _SAID.items() if words.search(text)}
    return found | set(removal.hazards) | set(kind.hazards if kind else ())
