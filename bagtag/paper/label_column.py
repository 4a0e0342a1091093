"""Filling a label's text column: what matters most comes first, and nothing overflows.

The column is asked for one piece after the other, by importance. A piece that fits is taken, a
better version of it may replace it later, and what never fitted is named.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from bagtag.domain.codes import show
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Fate, TagRole
from bagtag.domain.sentence import sentence
from bagtag.paper.blocks import (
    Block,
    banner,
    code_row,
    lines_block,
    paragraph,
    picture_block,
    pill,
    pill_width,
    side_by_side,
    whole,
)
from bagtag.paper.fonts import BOLD, CAP, MEDIUM, REGULAR, tidy
from bagtag.paper.label_text import LabelText
from bagtag.paper.typeset import wrap
from bagtag.paper.which_way_block import Room, arrange

BENCH_CAP = 3.0
"""Capitals that are read at the bench: 600 mm away, at 1/200 of the distance."""

SMALL_CAP = 1.8
"""The smallest capitals on a label."""

TIGHT_CAP = 2.2
"""Bench text that fits no other way, and is then reported as small."""

ORDER = (
    *("banner", "code", "twin", "name", "picture", "sentence"),
    *("fate", "area", "job", "hardware", "lines"),
)
_BANNERS = {TagRole.TWIN_PART: "ON THE PART", TagRole.TWIN_PLACE: "ON ITS PLACE"}
_MISSING = {
    "name": "The name did not fit.",
    "twin": "The twin's code did not fit.",
    "picture": "The which-way picture did not fit.",
    "sentence": "The which-way sentence did not fit.",
    "fate": "What becomes of the part did not fit.",
    "area": "The area did not fit.",
    "job": "The job did not fit.",
    "hardware": "The hardware did not fit.",
    "lines": "The further lines did not fit.",
}


class Column:
    """One column of a label: its width and height in mm, and `unit`, the size of bench text."""

    def __init__(
        self, label: LabelText, width: float, height: float, unit: float, *, centred: bool = False
    ) -> None:
        self.label, self.width, self.height, self.unit = label, width, height, unit
        self.centred = centred
        self.badge = ""
        self.small = max(SMALL_CAP, unit * SMALL_CAP / BENCH_CAP)
        self.gap = 0.27 * unit
        self.blocks: dict[str, Block] = {}
        self.used = 0.0
        self.wanted: list[str] = []

    def take(self, key: str, versions: Iterable[Block]) -> bool:
        """Put in the first version that fits, in place of an earlier one."""
        if key not in self.wanted:
            self.wanted.append(key)
        old = self.blocks.get(key)
        base = self.used - (old.height if old else 0) + (0 if old or not self.blocks else self.gap)
        for block in versions:
            if base + block.height <= self.height + 1e-6:
                self.blocks[key] = block
                self.used = base + block.height
                return True
        return False

    def complaints(self) -> list[str]:
        """A sentence for each piece that was cut or is missing."""
        missing = [_MISSING[key] for key in self.wanted if key not in self.blocks]
        cut = [block.complaint for block in self.blocks.values() if block.complaint]
        return missing + cut

    def placed(self) -> Iterator[tuple[float, Block]]:
        """The blocks from top to bottom with their tops; spare height opens the gaps a little."""
        keys = [key for key in ORDER if key in self.blocks]
        spare = self.height - self.used
        stretch = min(spare / (len(keys) + 1), self.unit * 0.6)
        top = (spare - stretch * (len(keys) - 1)) / 2 if self.centred else 0.0
        for key in keys:
            yield top, self.blocks[key]
            top += self.blocks[key].height + self.gap + stretch


def fill(column: Column, small_print: Column) -> None:
    """Everything the label says but its code, by importance. `small_print` takes the area, the
    job and, but for a container, further lines; it may be the same column."""
    take_essentials(column)
    take_which_way(column)
    take_fate(column, apart=small_print is not column)
    column.take("name", whole_names(column, 2))
    reserve_picture(column)
    take_small_print(small_print)
    take_hardware(column)
    column.take("name", whole_names(column, 99, 8, 5, 3))
    take_lines(column if column.label.role is TagRole.CONTAINER else small_print)
    settle_which_way(column)
    grow_name(column, 2.0)


def take_code(column: Column, most_cap: float) -> None:
    """The code, with the running number beside it where both stay large enough."""
    label = column.label
    number = tidy(label.number)
    for tight in (False, True):
        both = code_row(label.code, number, column.width, most_cap, tight=tight)
        if both.words[0].size * CAP >= BENCH_CAP * 0.99:
            column.take("code", [both])
            return
    column.take("code", [code_row(label.code, "", column.width, most_cap)])
    column.label = replace(label, number="", name=f"{number} · {label.name}")


def take_essentials(column: Column) -> None:
    label = column.label
    if label.role in _BANNERS:
        take_twin(column)
    if label.name or label.quantity > 1:
        column.take("name", first_names(column))
    if label.role is TagRole.CONTAINER:
        grow_name(column, 2.0)


def take_twin(column: Column) -> None:
    """Which of the two this is, and the code of the other: in one bar, else below it."""
    label, unit, room = column.label, column.unit, column.width
    plain = banner(_BANNERS[label.role], room, unit)
    if not label.twin_code:
        column.take("banner", [plain])
        return
    other = f"twin {show(label.twin_code)}"
    both = banner(_BANNERS[label.role], room, unit, right=other)
    if both.words[0].size * CAP >= max(TIGHT_CAP, 0.73 * unit):
        column.take("banner", [both])
    else:
        column.take("banner", [plain])
        column.take("twin", [whole(other, BOLD, column.small, room)])


def take_which_way(column: Column) -> None:
    """The picture small, then the sentence whole or cut."""
    if column.label.facts:
        column.take("picture", [picture_block(column.width, 1.9 * column.unit)])
        take_sentence(column)


def take_sentence(column: Column, before: str = "") -> bool:
    text = tidy(before + sentence(column.label.facts, column.label.datum))
    cap, room, what = column.small, column.width, "The which-way sentence"
    versions = (
        paragraph(text, MEDIUM, cap, room, most=most, what=what) for most in (99, 4, 3, 2, 1)
    )
    return column.take("sentence", versions)


def reserve_picture(column: Column) -> None:
    """Room for a picture that is the biggest thing after the code, before the small print."""
    if "picture" in column.blocks:
        heights = (column.unit * share for share in (2.8, 2.5, 2.2))
        column.take("picture", (picture_block(column.width, height) for height in heights))


def settle_which_way(column: Column) -> None:
    """Share the height that is left between picture and sentence."""
    drawn = column.blocks.get("picture")
    if drawn is None:
        return
    said = column.blocks.pop("sentence", None)
    freed = said.height + column.gap if said else 0
    column.used -= freed
    height = drawn.height + column.height - column.used
    room = Room(column.width, height, column.unit, 1.4 * column.gap)
    column.take("picture", [arrange(column.label.facts, said, room)])
    if said is not None:
        column.wanted.remove("sentence")


def take_fate(column: Column, *, apart: bool) -> None:
    """What is not simply refitted says so in white on black: beside the name, else in a row of
    its own, else as the first word of the sentence."""
    label = column.label
    if label.fate is Fate.REFIT:
        return
    column.badge = label.fate.value.upper()
    if column.take("name", [b for b in _one_line_names(column) if not b.complaint]):
        return
    word, column.badge = column.badge, ""
    if not apart and label.area and column.take("fate", _fate_and_area(column, word)):
        column.label = replace(label, area="")
        return
    in_a_row = column.take("fate", (pill(word, cap) for cap in (column.unit, TIGHT_CAP)))
    if not in_a_row and take_sentence(column, f"{word}. "):
        column.wanted.remove("fate")


def take_small_print(column: Column) -> None:
    label, small, room = column.label, column.small, column.width
    for key, text in (("area", tidy(label.area)), ("job", tidy(label.job))):
        if text:
            what = f"The {key}"
            versions = (
                paragraph(text, REGULAR, small, room, most=most, what=what) for most in (3, 2, 1)
            )
            column.take(key, versions)


def take_hardware(column: Column) -> None:
    """Hardware with torque and the word on the maker's manual; without both if need be."""
    held_by = column.label.held_by
    if not held_by:
        return
    texts = [tidy(str(line)) for line in held_by]
    if not any(line.torque for line in held_by):
        column.take("hardware", [_texts(column, texts)])
        return
    bare = [tidy(str(replace(line, torque=None))) for line in held_by]
    versions = [_texts(column, [*texts, OVERRIDE]), _texts(column, bare, "The torque did not fit.")]
    column.take("hardware", versions)


def take_lines(column: Column) -> None:
    """As many of the further lines as there is room for."""
    texts = [tidy(text) for text in column.label.lines if text.strip()]
    if texts:
        column.take("lines", _shrinking(column, texts))


def first_names(column: Column) -> Iterator[Block]:
    """The name in one line at bench size, else whole and small, else cut."""
    (line,) = _one_line_names(column)
    if not line.complaint:
        yield line
    small = [_name(column, most, TIGHT_CAP) for most in (1, 2)]
    note = f"The name is set small, {TIGHT_CAP} mm high."
    yield from (block._replace(complaint=note) for block in small if not block.complaint)
    yield line


def whole_names(column: Column, *lines: int) -> Iterator[Block]:
    """A cut or small name at bench size, in so many lines or so many."""
    if "name" in column.blocks and column.blocks["name"].complaint:
        yield from (_name(column, most, column.unit) for most in lines)


def grow_name(column: Column, scale: float) -> None:
    """A name that is whole may be larger, as long as it takes no more lines."""
    old = column.blocks.get("name")
    spare = column.height - column.used
    if old is not None and not old.complaint and spare > 0.2 * column.unit:
        most = len({words.y for words in old.words if not words.white})
        caps = (column.unit * scale * share for share in (1.0, 0.8, 0.65))
        versions = (_name(column, most, cap) for cap in caps)
        column.take("name", (block for block in versions if not block.complaint))


def _one_line_names(column: Column) -> list[Block]:
    return [_name(column, 1, column.unit)]


def _name(column: Column, most: int, cap: float) -> Block:
    """The name with its count, and the badge of its fate at the end of a single line."""
    label, badge, said = column.label, None, tidy(column.label.name)
    count = f"×\u00a0{label.quantity}" if label.quantity > 1 else ""
    tail = f"\u00a0{count}" if said and count else ""
    room = column.width
    if column.badge:
        badge = pill(column.badge, max(TIGHT_CAP, column.unit * 0.73))
        room -= badge.bars[0].width + column.unit * 0.5
    name = paragraph(said or count, MEDIUM, cap, room, most=most, what="The name", tail=tail)
    if badge is None:
        return name
    return side_by_side(name, badge, column.width - badge.bars[0].width)


def _fate_and_area(column: Column, word: str) -> Iterator[Block]:
    """The fate with the area at its right, where the area is whole in two lines."""
    unit = column.unit
    offset = pill_width(word, unit) + unit * 0.6
    room = column.width - offset
    if room > 8 * column.small:
        area = tidy(column.label.area)
        beside = paragraph(area, REGULAR, column.small, room, most=2, what="The area")
        if not beside.complaint:
            yield side_by_side(pill(word, unit), beside, offset)


def _texts(column: Column, texts: list[str], complaint: str = "") -> Block:
    size = column.small / CAP
    lines = [line for text in texts for line in wrap(text, REGULAR, size, column.width)]
    return lines_block(lines, REGULAR, column.small, complaint)


def _shrinking(column: Column, texts: list[str]) -> Iterator[Block]:
    for count in range(len(texts), 0, -1):
        lost = len(texts) - count
        plural = "s" if lost > 1 else ""
        yield _texts(
            column, texts[:count], f"{lost} further line{plural} did not fit." * bool(lost)
        )
