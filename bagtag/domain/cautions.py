"""The usual cautions for a part: by its kind and what its entry says can hurt, else by its words.

Common practice of the trade, no source. A part without a kind whose entry has no such word gets
no caution, which does not make it safe.
"""

import re
from collections.abc import Iterable, Mapping

from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.domain.kinds import PartKind
from bagtag.domain.model import Hazard, Removal
from bagtag.domain.tightening import Pass

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

TORQUE_CAUTIONS = (
    OVERRIDE,
    "Holding a torque against its thread only catches slips: a figure that passes may be wrong.",
    "Bolts tightened to yield, or that the manual calls new each time, are not used again.",
    "Brakes, steering, lifting and other joints that lives hang on belong to a qualified person.",
)
"""What every page with a torque says; the manual's word first (common practice, no source)."""

MANUAL = "The maker's manual overrides every limit and every figure given here."
"""What every page with a limit or a size to work to says (common practice, no source)."""

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
_ADJECTIVES = {Hazard.HEAVY: "heavy", Hazard.HOT: "hot", Hazard.SHARP: "sharp|burrs?"}
"""In a remark a casting, an exhaust or a blade is mostly another part: "a rag over the crankcase".
There only the word itself counts."""


def _said(words: Mapping[Hazard, str]) -> dict[Hazard, re.Pattern[str]]:
    return {hazard: re.compile(rf"\b(?:{w})\b", re.IGNORECASE) for hazard, w in words.items()}


_SAID = _said(_WORDS)
_REMARKED = _said(_WORDS | _ADJECTIVES)


def has_torque(held_by: Iterable[HeldBy], passes: Iterable[Pass] = ()) -> bool:
    """Whether a part is tightened by a figure, of its hardware or of its passes."""
    return any(line.torque for line in held_by) or any(one.torque for one in passes)


def cautions(removal: Removal, kind: PartKind | None = None) -> tuple[str, ...]:
    """One sentence each; the manual's word comes first wherever a torque is given.

    Where the part's kind is known its name is not searched for words; what a person wrote of its
    condition and in the note always is.
    """
    hazards = _hazards(removal, kind)
    override = [OVERRIDE] if has_torque(removal.held_by, removal.passes) else []
    return (*override, *(SENTENCES[hazard] for hazard in Hazard if hazard in hazards))


def _hazards(removal: Removal, kind: PartKind | None) -> set[Hazard]:
    remarks = f"{removal.condition} {removal.note}"
    found = {hazard for hazard, words in _REMARKED.items() if words.search(remarks)}
    if kind is None:
        found |= {hazard for hazard, words in _SAID.items() if words.search(removal.name)}
    return found | set(removal.hazards) | set(kind.hazards if kind else ())
