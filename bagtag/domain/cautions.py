"""The usual cautions that the words of an entry call for.

Common practice of the trade, no source. Words are all there is to go by, so a part with no such
word in its entry gets no caution, which does not make it safe.
"""

import re
from dataclasses import dataclass

from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Removal


@dataclass(frozen=True, slots=True)
class _Caution:
    words: re.Pattern[str]
    sentence: str


def _when(words: str, sentence: str) -> _Caution:
    return _Caution(re.compile(rf"\b(?:{words})\b", re.IGNORECASE), sentence)


_CAUTIONS = (
    _when(
        r"springs?(?! (?:washers?|pins?))|circlips?|snap rings?|detents?|recoil starter",
        "Under tension it flies: hold it back, and wear eye protection.",
    ),
    _when(
        r"heavy|flywheels?|crankshafts?|cylinder head|crankcase|(?:engine|gearbox|lower|upper) case"
        r"|casting",
        "Heavy: lift it with help or a hoist, and keep fingers out of the joint.",
    ),
    _when(r"sharp|blades?|tines?|burrs?", "Sharp: wear gloves."),
    _when(
        r"hot|exhaust|silencer|manifold",
        "Hot parts burn long after they look cold: let them cool, or use heat-proof gloves.",
    ),
    _when(
        r"fuel|petrol|diesel|carburettor|tank|float bowl",
        "Fuel and its vapour catch fire: no flame, no spark, fresh air.",
    ),
    _when(
        r"injectors?|injection|high[- ]pressure",
        "A jet under pressure goes through skin: let the pressure off, keep hands away.",
    ),
)


def cautions(removal: Removal) -> tuple[str, ...]:
    """One sentence each; the manual's word comes first wherever a torque is given."""
    text = " ".join((removal.name, removal.condition, removal.note))
    found = [caution.sentence for caution in _CAUTIONS if caution.words.search(text)]
    override = [OVERRIDE] if any(line.torque for line in removal.held_by) else []
    return (*override, *found)
