"""The datum: how a job's sides are named, so that "clutch side" means one thing throughout."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Side(StrEnum):
    """The six sides of a machine, seen from the datum's viewpoint."""

    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    REAR = "rear"
    TOP = "top"
    BOTTOM = "bottom"

    @property
    def opposite(self) -> "Side":
        return _OPPOSITES[self]


_OPPOSITES = {
    Side.LEFT: Side.RIGHT,
    Side.RIGHT: Side.LEFT,
    Side.FRONT: Side.REAR,
    Side.REAR: Side.FRONT,
    Side.TOP: Side.BOTTOM,
    Side.BOTTOM: Side.TOP,
}


@dataclass(frozen=True, slots=True)
class Datum:
    """Where the machine is looked at from, and its own names for its sides.

    `viewpoint` is a sentence ("standing behind the handlebars, looking forward"); `names` gives
    the machine's own word for a side ("flywheel side" for left). A side without one keeps its own.
    """

    viewpoint: str = ""
    names: Mapping[Side, str] = field(default_factory=dict)

    def call(self, side: Side) -> str:
        """The machine's own name of a side, else its plain name: "flywheel side", "top"."""
        return self.names.get(side) or side.value

    @property
    def looks_forward(self) -> bool:
        """Whether one looks the machine's own way ("behind the handlebars, looking forward"), so
        that its front is the far side; else one faces its front, which is then the near one."""
        return bool(_FORWARD.search(self.viewpoint)) and not _AT_THE_FRONT.search(self.viewpoint)

    def find(self, text: str) -> Side | None:
        """The side that `text` names, by the machine's own name or the plain one."""
        wanted = _fold(text)
        for side in Side:
            if wanted in {_fold(self.call(side)), side.value}:
                return side
        return None

    def mirrored(self) -> "Datum":
        """The same machine with left and right exchanged."""
        names = dict(self.names)
        left, right = names.pop(Side.LEFT, ""), names.pop(Side.RIGHT, "")
        return Datum(self.viewpoint, names | {Side.LEFT: right, Side.RIGHT: left})


_FORWARD = re.compile(
    r"\b(forwards?|ahead|behind|from the (rear|back)|at the (rear|back)|towards? the front)\b", re.I
)
_AT_THE_FRONT = re.compile(
    r"\b((at|facing|from|in) (the )?front|(looking|facing) (back|aft|rear)(wards?)?)\b", re.I
)


def _fold(text: str) -> str:
    return text.casefold().strip().removeprefix("the ").removesuffix(" side").strip()
