"""What a table of lines to renew would add and change in the list of a job."""

from collections import Counter, defaultdict
from collections.abc import Iterable
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


@dataclass(slots=True)
class _Alike:
    """The lines of one name and size that no row has taken yet, by their place in the list; and
    the same by the part they are for, and by part number."""

    left: dict[int, RenewLine] = field(default_factory=dict)
    for_: dict[str, dict[int, RenewLine]] = field(default_factory=lambda: defaultdict(dict))
    number: dict[str, dict[int, RenewLine]] = field(default_factory=lambda: defaultdict(dict))

    def _all(self, line: RenewLine) -> tuple[dict[int, RenewLine], ...]:
        number = fold(line.new_part.part_number)
        return self.left, self.for_[fold(line.before)], self.number[number]

    def add(self, place: int, line: RenewLine) -> None:
        for found in self._all(line):
            found[place] = line

    def take(self, place: int) -> RenewLine:
        line = self.left[place]
        for found in self._all(line):
            del found[place]
        return line

    def fitting(self, row: CsvRow) -> dict[int, RenewLine]:
        """Those that a row means, as far as it tells."""
        for_ = self.for_.get(fold(row.for_)) if row.for_ else None
        number = self.number.get(fold(row.part_number)) if row.part_number else None
        if for_ and number:
            return {place: line for place, line in for_.items() if place in number} or for_
        return for_ or number or self.left


def _by_key(lines: Iterable[RenewLine]) -> dict[Key, _Alike]:
    found: dict[Key, _Alike] = defaultdict(_Alike)
    for place, line in enumerate(lines):
        if not line.is_suggestion:
            found[_key(line.new_part.what, line.new_part.size)].add(place, line)
    return dict(found)


def _key(what: str, size: str) -> Key:
    return fold(what), fold(size)


def _key_of(row: CsvRow) -> Key:
    return _key(row.what, row.size)


TOO_EARLY = "{lines}: it would be due before it was ordered. Correct the day; it is left as it is."


@dataclass(slots=True)
class _Matching:
    job_id: int
    known: dict[Key, _Alike]
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
        alike = self.known.get(_key_of(row))
        if alike is None or not alike.left:
            self.new.append((row.line, _as_new(self.job_id, row)))
            return
        fitting = alike.fitting(row)
        if len(fitting) > 1 and len(alike.left) > self.rows_of[_key_of(row)]:
            self.several.append(row.line)
            return
        self.rows_of[_key_of(row)] -= 1
        self._merge(row, alike.take(next(iter(fitting))))

    def _merge(self, row: CsvRow, line: RenewLine) -> None:
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
