"""What the list of tools shows: headings, and each tool with where it is."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import Enum, auto

from bagtag.domain.kinds import fold
from bagtag.domain.phrases import capital
from bagtag.domain.tool_out import ToolOut
from bagtag.domain.tools import ToolKind, ToolNeed, ToolSheet, places_words

EXTRA = "Also laid out"
EXTRA_WORDS = "no step of this list asks for it"


class Where(Enum):
    """Where a tool is: in its drawer, laid out, or counted back."""

    AWAY = auto()
    OUT = auto()
    BACK = auto()


@dataclass(frozen=True, slots=True)
class Heading:
    """`has_boxes` where what stands below it is counted."""

    title: str
    has_boxes: bool = True


@dataclass(frozen=True, slots=True)
class ToolLine:
    """A tool of the list; `need` is None for one that no step asks for, `out` None for one that is
    not laid out."""

    name: str
    need: ToolNeed | None = None
    out: ToolOut | None = None
    where: Where = Where.AWAY

    @property
    def is_counted(self) -> bool:
        return self.need is None or self.need.kind.is_counted or self.out is not None

    @property
    def title(self) -> str:
        """`13 mm spanner`, `2 × 13 mm spanner`."""
        many = self.out.count if self.out else 1
        return f"{many} × {self.name}" if many > 1 else self.name

    @property
    def detail(self) -> str:
        """What it is for, in one line."""
        if self.need is None:
            return capital(EXTRA_WORDS)
        steps = capital(places_words(self.need.places))
        if len(self.need.steps) > 1:
            return steps
        step = self.need.steps[0]
        return f"{steps}: {', '.join(filter(None, (step.called, step.what)))}"


Line = Heading | ToolLine


def lines_of(sheet: ToolSheet, back: Collection[str] = ()) -> list[Line]:
    """`back` are the folded names of what was counted back and not laid out again."""
    return list(_lines(sheet, back))


def _lines(sheet: ToolSheet, back: Collection[str]) -> Iterator[Line]:
    for kind in ToolKind:
        rows = sheet.of(kind)
        if rows:
            yield Heading(kind.value, kind.is_counted)
        for row in rows:
            out = sheet.is_out(row.name)
            yield ToolLine(row.name, row, out, _where(row.name, out, back))
    if sheet.extra:
        yield Heading(EXTRA)
    yield from (ToolLine(one.name, None, one, Where.OUT) for one in sheet.extra)


def _where(name: str, out: ToolOut | None, back: Collection[str]) -> Where:
    if out is not None:
        return Where.OUT
    return Where.BACK if fold(name) in back else Where.AWAY


def still_out(sheet: ToolSheet) -> str:
    """`3 tools still out`; nothing where none is."""
    many = sum(one.count for one in sheet.out)
    return f"{many} tool{'' if many == 1 else 's'} still out" if many else ""
