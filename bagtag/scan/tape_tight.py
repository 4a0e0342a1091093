"""How tight beyond the torque, on a tape line: angle, stretch, drag."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bagtag.domain.hardware import Stretch, Torque
from bagtag.scan.tape_text import END, Found, number, phrase, rx
from bagtag.scan.tape_torque import FIGURES, UNITS, torque_of


@dataclass(frozen=True, slots=True)
class Angle:
    """Degrees after the torque; `each` are its steps where it is turned in several."""

    degrees: float
    each: tuple[float, ...] = ()

    @property
    def steps(self) -> str:
        """`in steps of 45° + 45°`, or nothing."""
        said = " + ".join(f"{step:g}°" for step in self.each)
        return f"in steps of {said}" if said else ""


@dataclass(frozen=True, slots=True)
class Drag:
    """What it takes to turn a self-locking nut before it seats."""

    torque: Torque


# --- angle

_TURN = 360
_DEGREES = r"(?:\d{1,3}(?:[.,]\d)?_(?:°|º|deg(?:rees?)?(?!\w)))"
_PARTS = {"half": 180.0, "1/2": 180.0, "½": 180.0, "quarter": 90.0, "1/4": 90.0, "¼": 90.0}
_PART = rf"(?:(?:an? )?(?:{'|'.join(_PARTS)})(?: of)?(?:[- ]| an? )turn(?!\w))"
_EACH = rf"(?:{_DEGREES}|{_PART})"
_THEN = r"(?:and then|then|plus|and|\+|&)_(?:(?:another|an?|turn(?: it| them)?) )?(?:further )?"
_MORE = r"(?: (?:oiled|dry|greased|lubricated|new|one-time|threads)(?!\w))"
"""What may follow an angle on its piece: no part is called so, as "90 deg elbow" is."""
_ANGLE = rx(
    rf"(?:(?<!\w){_THEN}|(?<=\0)[)\]]?_(?={_EACH}(?:{END}|{_MORE})))"
    rf"(?P<each>{_EACH}(?:_{_THEN}{_EACH})*)(?: (?:further|more))?(?:(?={_MORE})|(?! [^\W0-9]))"
)
_ONE = rx(rf"(?P<degrees>{_DEGREES})|(?P<part>{_PART})")


def angle(text: str) -> Iterator[Found]:
    """`+ 90°`, `then 1/4 turn`, `+ 45° + 45°`; `90 deg` just after a torque. Over a turn it stays
    words: then it is loosening or a slip."""
    for match in _ANGLE.finditer(text):
        each = [_degrees(one) for one in _ONE.finditer(match["each"])]
        value = steps_of([Angle(degrees) for degrees in each]) if all(each) else None
        if value is not None:
            yield Found(match.start(), match.end(), "torque", value, needs_hardware=True)


def steps_of(turns: Sequence[Angle]) -> Angle | None:
    """Turns one after the other as one, with its steps in words; None for none or over a turn."""
    each = [step for turn in turns for step in (turn.each or (turn.degrees,))]
    if not each or sum(each) > _TURN:
        return None
    return Angle(sum(each), tuple(each) if len(each) > 1 else ())


def _degrees(match: re.Match[str]) -> float:
    if match["degrees"]:
        return number(re.sub("[^0-9.,]", "", match["degrees"]))
    return next(degrees for word, degrees in _PARTS.items() if word in match["part"].casefold())


# --- stretch

_FIGURE = r"(?:\d{0,2}[.,]\d{1,4}|\d{1,2})"
_SPAN = rf"(?P<low>{_FIGURE})(?:_(?:to|-|–|\.\.)_(?P<high>{_FIGURE}))?_(?P<unit>mm|inch|in|\")"
_STRETCH = (
    rx(phrase(rf"stretch(?:ed)?(?: (?:of|to|by))?_:?_{_SPAN}")),
    rx(phrase(rf"{_SPAN} (?:of )?stretch")),
)


def stretch(text: str) -> Iterator[Found]:
    """`stretch 0.13 to 0.15 mm`, `.006 in stretch`: what a bolt is longer by when it is tight."""
    for pattern in _STRETCH:
        for match in pattern.finditer(text):
            low, high = number(match["low"]), number(match["high"] or match["low"])
            if 0 < low <= high:
                value = Stretch(low, high, "mm" if match["unit"].casefold() == "mm" else "in")
                yield Found(match.start("p"), match.end("p"), "torque", value, needs_hardware=True)


# --- drag

_CALLED = r"(?:(?:friction )?drag|(?:prevailing|running|run-?down)(?: torque)?)(?: torque)?"
_DRAGGED = rf"(?P<value>{FIGURES})_(?:{UNITS})(?![\w·⋅])"
_DRAG = (
    rx(rf"(?<!\w)(?:(?:plus|and|\+)_)?{_CALLED}(?: (?:of|is))?_:?_{_DRAGGED}"),
    rx(rf"(?:(?<!\w)(?:plus|and) |\+_)?(?<![\w.,/-]){_DRAGGED}_(?:of )?{_CALLED}(?!\w)"),
)


def drag(text: str) -> Iterator[Found]:
    """`drag 2 N·m`, `1.5 Nm prevailing torque`: read before a torque is looked for."""
    for pattern in _DRAG:
        for match in pattern.finditer(text):
            if number(match["value"]) > 0:
                value = Drag(torque_of(match, number(match["value"])))
                yield Found(match.start(), match.end(), "torque", value, needs_hardware=True)
