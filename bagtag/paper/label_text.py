"""What a label says, and where each piece of it lies: plain rows, no PDF."""

from dataclasses import dataclass, field
from typing import NamedTuple

from bagtag.domain.datum import Datum
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Fate, TagRole
from bagtag.domain.shapes import Picture
from bagtag.domain.which_way import Fact


@dataclass(frozen=True, slots=True)
class LabelText:
    """What one label says. `code` is bare; everything else may be empty.

    `number` is the running number, `job` the job's title, `area` the place in the machine,
    `twin_code` the other label of a pair, `lines` what else there is to say, first things first.
    `holes` says where each line of hardware goes ("A, holes 1–6"), empty without a hole map.
    """

    code: str
    role: TagRole = TagRole.PART
    number: str = ""
    name: str = ""
    quantity: int = 1
    job: str = ""
    area: str = ""
    facts: tuple[Fact, ...] = ()
    datum: Datum = field(default_factory=Datum)
    fate: Fate = Fate.REFIT
    held_by: tuple[HeldBy, ...] = ()
    twin_code: str = ""
    lines: tuple[str, ...] = ()
    holes: tuple[str, ...] = ()


class Words(NamedTuple):
    """A line of text: its left end and its baseline, in mm from the label's top left corner."""

    x: float
    y: float
    text: str
    font: str
    size: float
    white: bool = False


class Bar(NamedTuple):
    """A black rectangle, in mm from the label's top left corner."""

    x: float
    y: float
    width: float
    height: float


class Placed(NamedTuple):
    """A which-way picture in its box, in mm from the label's top left corner."""

    picture: Picture
    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Laid:
    """A label, laid out. `qr_x`, `qr_y` (the symbol's top left corner, without its quiet zone)
    and `module` are whole printer dots at `dpi`; `left_out` are sentences on what did not fit."""

    code: str
    dpi: int
    qr_x: int
    qr_y: int
    module: int
    words: tuple[Words, ...]
    bars: tuple[Bar, ...]
    pictures: tuple[Placed, ...]
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """What was printed: pages, labels (copies counted), and what each label had to leave out."""

    pages: int
    labels: int
    warnings: tuple[str, ...]
