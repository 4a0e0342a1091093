"""What a label says, piece by piece, by importance."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import zip_longest

from bagtag.domain.cautions import has_torque
from bagtag.domain.codes import show
from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.domain.model import TagRole
from bagtag.domain.phrases import whole as whole_figures
from bagtag.paper.blocks import Block, banner, code_row, lines_block, paragraph, whole
from bagtag.paper.fonts import BOLD, CAP, REGULAR, tidy
from bagtag.paper.label_column import BENCH_CAP, TIGHT_CAP, Column, whole_only
from bagtag.paper.label_name import first_names, grow_name, take_fate, whole_names
from bagtag.paper.label_which_way import reserve_picture, settle_which_way, take_which_way
from bagtag.paper.typeset import wrap

_BANNERS = {TagRole.TWIN_PART: "ON THE PART", TagRole.TWIN_PLACE: "ON ITS PLACE"}


def fill(column: Column, small_print: Column) -> None:
    """Everything the label says but its code, by importance. `small_print` takes the area, the
    job and, but for a container, further lines; it may be the same column."""
    take_essentials(column)
    take_which_way(column)
    take_fate(column, apart=small_print is not column)
    column.take("name", whole_names(column, 2))
    reserve_picture(column)
    take_small_print(column, small_print)
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


def take_small_print(column: Column, small_print: Column) -> None:
    """Area and job, whole where the small print has room for that; else whole in a column that
    has no picture to make room for; else cut."""
    for key, text in (("area", tidy(small_print.label.area)), ("job", tidy(small_print.label.job))):
        if not text or small_print.take(key, _small_whole(small_print, key, text)):
            continue
        roomy = column is not small_print and "picture" not in column.blocks
        if roomy and column.take(key, _small_whole(column, key, text)):
            small_print.wanted.remove(key)
            continue
        if roomy:
            column.wanted.remove(key)
        small_print.take(key, _small(small_print, key, text))


def take_hardware(column: Column) -> None:
    """Hardware with its holes, torque and the word on the maker's manual; else with less, and the
    label says what it left out."""
    if column.label.held_by:
        column.take("hardware", _hardware(column))


def _hardware(column: Column) -> Iterator[Block]:
    """The fullest version first. A torque never stands without the word on the manual, nor the
    torque of one that an angle follows without the angle."""
    held_by, holes = column.label.held_by, column.label.holes
    whole_lines, short = [str(line) for line in held_by], [str(_short(line)) for line in held_by]
    manual = [OVERRIDE] if has_torque(held_by) else []
    yield _texts(column, [*_with_holes(whole_lines, holes), *manual])
    if short != whole_lines:
        lost = "Details of the hardware did not fit."
        yield _texts(column, [*_with_holes(short, holes), *manual], lost)
    if any(holes):
        lost = (
            "The hole numbers did not fit."
            if short == whole_lines
            else ("Hole numbers and details of the hardware did not fit.")
        )
        yield _texts(column, [*short, *manual], lost)
    if manual:
        yield _texts(column, _with_holes(_bare(held_by), holes), "The torque did not fit.")
    yield from _least(column, has_torque=bool(manual))


def _least(column: Column, *, has_torque: bool) -> Iterator[Block]:
    """What keeps a long bolt out of a short hole outlasts everything else."""
    held_by, holes = column.label.held_by, column.label.holes
    sizes = [str(_size(line)) for line in held_by]
    if any(holes):
        lost = "Of the hardware only number, size and holes did fit."
        yield _texts(column, _with_holes(sizes, holes), lost)
        if has_torque:
            yield _texts(column, _bare(held_by), "Torque and hole numbers did not fit.")
    yield _texts(column, sizes, "Of the hardware only number and size did fit.")


def _bare(held_by: Sequence[HeldBy]) -> list[str]:
    return [str(_untightened(line)) for line in held_by]


def _with_holes(texts: Sequence[str], holes: Sequence[str]) -> list[str]:
    """`A, holes 1–6: 6 bolts M8x35`."""
    return [f"{at}: {text}" if at else text for text, at in zip_longest(texts, holes, fillvalue="")]


def _short(line: HeldBy) -> HeldBy:
    """What must be known to put it back right, and the note, which may say anything."""
    plain = replace(line, head="", drive="", washer="", washers=0, tool="")
    return replace(plain, also=None, stretch=None, adapter=None)


def _untightened(line: HeldBy) -> HeldBy:
    return replace(line, torque=None, also=None, angle=None, drag=None, stretch=None, adapter=None)


def _size(line: HeldBy) -> HeldBy:
    """How many of what size, and that they are not used again."""
    size = HeldBy(line.count, line.kind, line.thread, line.length, line.length_unit)
    return replace(size, one_time=line.one_time)


def take_lines(column: Column) -> None:
    """As many of the further lines as there is room for."""
    texts = [tidy(text) for text in column.label.lines if text.strip()]
    if texts:
        column.take("lines", _shrinking(column, texts))


def _small_whole(column: Column, key: str, text: str) -> Iterator[Block]:
    return whole_only([next(_small(column, key, text))])


def _small(column: Column, key: str, text: str) -> Iterator[Block]:
    what = f"The {key}"
    for most in (3, 2, 1):
        yield paragraph(text, REGULAR, column.small, column.width, most=most, what=what)


def _texts(column: Column, texts: Sequence[str], complaint: str = "") -> Block:
    size = column.small / CAP
    tidied = (whole_figures(tidy(text)) for text in texts)
    lines = [line for text in tidied for line in wrap(text, REGULAR, size, column.width)]
    return lines_block(lines, REGULAR, column.small, complaint)


def _shrinking(column: Column, texts: list[str]) -> Iterator[Block]:
    for count in range(len(texts), 0, -1):
        lost = len(texts) - count
        plural = "s" if lost > 1 else ""
        yield _texts(
            column, texts[:count], f"{lost} further line{plural} did not fit." * bool(lost)
        )
