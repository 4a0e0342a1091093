"""The findings of an audit as rows: a heading over those of one lack, then each of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt

from bagtag.domain.audit_finding import Finding, Lack
from bagtag.ui.forms.spoken_rows import Index, SpokenRows

if TYPE_CHECKING:
    from bagtag.services.audit import AuditRow

Key = tuple[Lack, int, tuple[int, ...], int, int]


@dataclass(frozen=True, slots=True)
class Heading:
    """What a group of findings has in common, and how many they are."""

    lack: Lack
    count: int


def key_of(finding: Finding) -> Key:
    """The same for the same thing missing, before and after another was mended."""
    return (
        finding.lack,
        finding.removal_id,
        finding.others,
        finding.area_id,
        finding.container_id,
    )


class AuditModel(SpokenRows):
    """Headings cannot be chosen: the arrow keys go over them."""

    def __init__(self, parent: Any = None) -> None:
        super().__init__(parent)
        self.lines: list[Heading | AuditRow] = []

    def show_rows(self, rows: Sequence[AuditRow]) -> None:
        self.put(list(_lines(rows)))

    def spoken(self, line: Heading | AuditRow) -> str:
        if isinstance(line, Heading):
            return f"{line.lack.heading}, {line.count}"
        return ", ".join(filter(None, [called(line), line.finding.sentence, line.container]))

    def flags(self, index: Index) -> Qt.ItemFlag:
        is_row = index.isValid() and self.row_at(index.row()) is not None
        return super().flags(index) if is_row else Qt.ItemFlag.NoItemFlags

    def row_at(self, place: int) -> AuditRow | None:
        """The finding at a line; None for a heading and for no line."""
        line = self.lines[place] if 0 <= place < len(self.lines) else None
        return None if isinstance(line, Heading) else line

    def headings(self) -> list[int]:
        return [n for n, line in enumerate(self.lines) if isinstance(line, Heading)]

    def of_lack(self, lack: Lack) -> list[int]:
        """The lines of the findings of one lack."""
        rows = ((n, self.row_at(n)) for n in range(len(self.lines)))
        return [n for n, row in rows if row is not None and row.finding.lack is lack]

    def keyed(self) -> list[tuple[int, Key]]:
        rows = ((n, self.row_at(n)) for n in range(len(self.lines)))
        return [(n, key_of(row.finding)) for n, row in rows if row is not None]

    def first_of(self, wanted: Iterable[Key]) -> int:
        """The line of the first of these still here; else the first finding, -1 for none."""
        places: dict[Key, int] = {}
        for place, key in self.keyed():
            places.setdefault(key, place)
        found = (places[key] for key in wanted if key in places)
        return next(found, min(places.values(), default=-1))


def called(row: AuditRow) -> str:
    """`12 oil seal`"""
    return f"{row.number} {row.name}".strip()


def _lines(rows: Sequence[AuditRow]) -> Iterable[Heading | AuditRow]:
    counts = Counter(row.finding.lack for row in rows)
    last = None
    for row in rows:
        if row.finding.lack is not last:
            last = row.finding.lack
            yield Heading(last, counts[last])
        yield row
