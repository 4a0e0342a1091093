"""What a table of lines to renew would add and change in the list of a job."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from bagtag.domain.kinds import fold
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewal_csv_form import at_lines
from bagtag.domain.renewal_csv_read import CsvRead, CsvRow
from bagtag.domain.renewals import RenewLine


@dataclass(frozen=True, slots=True)
class Changed:
    """A line of the list that a file says something new of: as it is, and as it would be."""

    line: RenewLine
    part: NewPart

    @property
    def before(self) -> NewPart:
        return self.line.new_part


@dataclass(frozen=True, slots=True)
class ImportPlan:
    """What reading a file would do: lines added, lines changed, and how many say what the list
    says already. `troubles` has a sentence for each kind of line that is not taken as it is."""

    job_id: int
    new: tuple[NewPart, ...] = ()
    changed: tuple[Changed, ...] = ()
    alike: int = 0
    troubles: tuple[str, ...] = ()

    @property
    def does_something(self) -> bool:
        return bool(self.new or self.changed)


Key = tuple[str, str]
SEVERAL = (
    "{lines}: several lines of the list are called so. Say in a column `for` which part each is "
    "for, as the list names it."
)


def plan(job_id: int, lines: Iterable[RenewLine], read: CsvRead) -> ImportPlan:
    """Match a file's lines with those of a job: by name and size, where several are alike by the
    part they are for, else by part number. An empty cell leaves the list as it is."""
    return _Matching(job_id, _by_key(lines), Counter(_key_of(row) for row in read.rows)).plan(read)


def _by_key(lines: Iterable[RenewLine]) -> dict[Key, list[RenewLine]]:
    found: dict[Key, list[RenewLine]] = defaultdict(list)
    for line in lines:
        if not line.is_suggestion:
            found[_key(line.new_part.what, line.new_part.size)].append(line)
    return found


def _key(what: str, size: str) -> Key:
    return fold(what), fold(size)


def _key_of(row: CsvRow) -> Key:
    return _key(row.what, row.size)


TOO_EARLY = "{lines}: it would be due before it was ordered. Correct the day; it is left as it is."


@dataclass(slots=True)
class _Matching:
    job_id: int
    known: dict[Key, list[RenewLine]]
    rows_of: Counter[Key]
    new: list[tuple[int, NewPart]] = field(default_factory=list)
    changed: list[Changed] = field(default_factory=list)
    alike: int = 0
    several: list[int] = field(default_factory=list)
    too_early: list[int] = field(default_factory=list)

    def plan(self, read: CsvRead) -> ImportPlan:
        for row in sorted(read.rows, key=_tells_little):
            self._take(row)
        self.new.sort(key=lambda one: one[0])
        wrong = {SEVERAL: self.several, TOO_EARLY: self.too_early}
        told = [said.format(lines=at_lines(found)) for said, found in wrong.items() if found]
        troubles = (*read.troubles, *told)
        return ImportPlan(
            self.job_id,
            tuple(part for _, part in self.new),
            tuple(self.changed),
            self.alike,
            troubles,
        )

    def _take(self, row: CsvRow) -> None:
        left = self.known.get(_key_of(row), [])
        fitting = _fitting(row, left)
        rows = self.rows_of[_key_of(row)]
        if not left:
            self.new.append((row.line, _as_new(self.job_id, row)))
        elif len(fitting) > 1 and len(left) > rows:
            self.several.append(row.line)
        else:
            self._merge(row, fitting[0], left)
            self.rows_of[_key_of(row)] -= 1

    def _merge(self, row: CsvRow, line: RenewLine, left: list[RenewLine]) -> None:
        left.remove(line)
        part = _said(line.new_part, row)
        if part == line.new_part:
            self.alike += 1
        elif part.due and part.ordered_on and part.due < part.ordered_on:
            self.too_early.append(row.line)
        else:
            self.changed.append(Changed(line, part))


def _tells_little(row: CsvRow) -> tuple[bool, bool]:
    """So that a row that names its line takes it before one that could mean any of several."""
    return not row.for_, not row.part_number


def _fitting(row: CsvRow, left: Sequence[RenewLine]) -> list[RenewLine]:
    """Of lines with one name and size those that a row means, as far as it tells."""
    meant = list(left)
    for tells in (_is_for, _has_number):
        meant = [line for line in meant if tells(line, row)] or meant
    return meant


def _is_for(line: RenewLine, row: CsvRow) -> bool:
    return bool(row.for_) and fold(line.before) == fold(row.for_)


def _has_number(line: RenewLine, row: CsvRow) -> bool:
    return bool(row.part_number) and fold(line.new_part.part_number) == fold(row.part_number)


def _as_new(job_id: int, row: CsvRow) -> NewPart:
    note = row.note or (f"for {row.for_}" if row.for_ else "")
    return _said(NewPart(0, "", job_id, what=row.what, size=row.size, note=note), row)


def _said(part: NewPart, row: CsvRow) -> NewPart:
    """The line with what a row says of it."""
    return replace(
        part,
        part_number=row.part_number or part.part_number,
        count=part.count if row.count is None else row.count,
        supplier=row.supplier or part.supplier,
        price=part.price if row.price is None else row.price,
        currency=row.currency or part.currency,
        due=row.due or part.due,
        note=row.note or part.note,
    )
