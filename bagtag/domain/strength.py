"""How strong a fastener is by the class or grade marked on it: its proof stress."""

import re
from dataclasses import dataclass

from bagtag.domain.threads import Thread

PSI = 0.45359237 * 9.80665 / 25.4**2
"""One pound-force per square inch in MPa."""

_CLASSES: dict[str, float] = {
    "4.6": 225,
    "4.8": 310,
    "5.6": 280,
    "5.8": 380,
    "6.8": 440,
    "8.8": 580,
    "9.8": 650,
    "10.9": 830,
    "12.9": 970,
}
"""Proof stress in MPa by property class (ISO 898-1:1999, Table 2; 6.8 and 8.8 as the published
proof loads up to M16 have them; 4.6 and 5.6 from memory)."""
_LARGE_8_8, _LARGE = 600.0, 16.0
"""8.8 above 16 mm (same, from memory)."""

_GRADES: dict[str, tuple[tuple[float, float], ...]] = {
    "1": ((1.5, 33_000),),
    "2": ((0.75, 55_000), (1.5, 33_000)),
    "5": ((1.0, 85_000), (1.5, 74_000)),
    "8": ((1.5, 120_000),),
}
"""Proof stress in psi by SAE J429 grade, each up to a diameter in inches (grade 1 from memory)."""

_NUTS = {"5": "5.8", "6": "6.8", "8": "8.8", "10": "10.9", "12": "12.9"}
"""The class of bolt that a metric nut of a class is made for (ISO 898-2, from memory)."""

_STAINLESS: dict[str, float] = {"50": 210, "70": 450, "80": 600}
"""0.2 % proof stress in MPa of A2 and A4 fasteners by class (ISO 3506; class 50 from memory)."""

WEAKEST, STRONGEST = 225.0, 970.0
"""Between these lies the proof stress of a bolt whose class nobody noted: classes 4.6 to 12.9."""

_STAINLESS_MARK = re.compile(r"\ba[1-5]\s*-?\s*(50|70|80)\b")
_WORD = re.compile(r"\b(?:grade|class|gr|cl|g)\.?\s*(?=\d)")
_FIGURES = re.compile(r"(?<![a-z\d.,])(\d{1,2})(?!\d)\s*(?:[.,]\s*(\d))?")


@dataclass(frozen=True, slots=True)
class Strength:
    """A class or grade as it is called, and its proof stress in MPa for one thread."""

    called: str
    proof: float

    def proof_load(self, thread: Thread) -> float:
        """The load in N that it bears without lasting stretch."""
        return self.proof * thread.stress_area


def strength(marked: str, thread: Thread) -> Strength | None:
    """What "8.8", "class 10.9", "grade 5", "gr 8" or "A2-70" means on this thread; None if nothing.

    A bare figure is a grade on an inch thread and a nut's class on a metric one.
    """
    text = " ".join(marked.casefold().split())
    if stainless := _STAINLESS_MARK.search(text):
        return Strength(f"A{text[stainless.start() + 1]}-{stainless[1]}", _STAINLESS[stainless[1]])
    figures = _FIGURES.search(_WORD.sub("", text))
    if figures is None:
        return None
    if figures[2]:
        return _of_class(f"{figures[1]}.{figures[2]}", thread)
    if thread.is_metric:
        return _of_class(_NUTS.get(figures[1], ""), thread)
    return _of_grade(figures[1], thread)


def _of_class(name: str, thread: Thread) -> Strength | None:
    proof = _CLASSES.get(name)
    if proof is None:
        return None
    is_large = name == "8.8" and thread.diameter > _LARGE
    return Strength(f"class {name}", _LARGE_8_8 if is_large else proof)


def _of_grade(name: str, thread: Thread) -> Strength | None:
    inches = thread.diameter / 25.4
    for largest, psi in _GRADES.get(name, ()):
        if inches <= largest + 1e-9:
            return Strength(f"grade {name}", psi * PSI)
    return None
