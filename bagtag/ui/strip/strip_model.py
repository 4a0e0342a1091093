"""The strip's rows: ids in the order off, and the rows of those that are shown.

A hundred thousand lines cost nothing here: the newest page paints first, the ids come behind it,
and a row is asked for when it is first painted. A row that is not there yet is a blank tape.
"""

from __future__ import annotations

from array import array
from collections import OrderedDict
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QTimer,
    Signal,
)

from bagtag import services
from bagtag.ui.desk import Desk

if TYPE_CHECKING:
    from bagtag.domain.change import Change
    from bagtag.domain.datum import Datum
    from bagtag.domain.model import Job
    from bagtag.domain.standing import Standing
    from bagtag.services.views import StripPage, StripRow
    from bagtag.store.work import Store

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
PAGE = 60
KEPT = 1500
"""How many rows are remembered; the rest are asked for again."""
ROW_ROLE = 256
"""The `StripRow`, or None while it is under way."""
_SPOKEN = {0, 11}
"""Qt's display and accessible-text roles, by their numbers: see theme.py."""


def first_page(store: Store, job_id: int, count: int) -> tuple[StripPage, Job, str, int]:
    """The newest rows, the job whose datum draws their pictures, the next number, how many were
    asked for."""
    page = services.views.last_page(store, job_id, count, counted=False)
    return page, services.jobs.get_job(store, job_id), _next_number(page), count


def _next_number(page: StripPage) -> str:
    stems = [int("".join(c for c in row.removal.number if c.isdigit()) or 0) for row in page.rows]
    return str(max(stems, default=0) + 1)


class StripModel(QAbstractListModel):
    """One job's log. With `with_now` its last row is the line to be logged next."""

    ready = Signal()
    """The newest page is here, or every id."""
    numbered = Signal(str)
    """The number the next line will get."""

    def __init__(self, desk: Desk, parent: Any = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.job_id = 0
        self.datum: Datum | None = None
        self.next_number = ""
        self.with_now = False
        self.standings: dict[int, Standing] | None = None
        self.whole = False
        """Whether every line of the log is known, not its newest page alone."""
        self._ids: array[int] = array("q")
        self._rows: OrderedDict[int, StripRow] = OrderedDict()
        self._asked: set[int] = set()
        self._wanted: set[int] = set()
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(0)
        self._soon.timeout.connect(self._fetch)

    # What the view asks

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._ids) + self.with_now

    def data(self, index: Index, role: int = 0) -> Any:
        if role == ROW_ROLE:
            return self.row_at(index.row())
        if role in _SPOKEN:
            return self.spoken(index.row())
        return None

    def id_at(self, place: int) -> int:
        """The removal at a row; 0 for the line to be logged, and while ids are under way."""
        return self._ids[place] if 0 <= place < len(self._ids) else 0

    def place_of(self, removal_id: int) -> int:
        """The row of a removal, or -1."""
        try:
            return self._ids.index(removal_id)
        except ValueError:
            return -1

    def is_now(self, place: int) -> bool:
        return self.with_now and place == len(self._ids)

    @property
    def count(self) -> int:
        """How many lines are logged."""
        return len(self._ids)

    def row_at(self, place: int) -> StripRow | None:
        """The row if it is here; else it is asked for."""
        removal_id = self.id_at(place)
        row = self._rows.get(removal_id)
        if row is None and removal_id and removal_id not in self._asked:
            self._wanted.add(place)
            if not self._soon.isActive():
                self._soon.start()
        return row

    def row_of(self, removal_id: int) -> StripRow | None:
        """The row of a removal if it is here; else it is asked for."""
        row = self._rows.get(removal_id)
        return row if row is not None else self.row_at(self.place_of(removal_id))

    def standing_of(self, row: StripRow) -> Standing:
        return (self.standings or {}).get(row.removal.id) or row.standing

    def standing_at(self, place: int) -> Standing | None:
        """The build's word on a line: the board's, else the row's own; None where neither is
        here. What is logged and not on the board is scrapped."""
        removal_id = self.id_at(place)
        word = (self.standings or {}).get(removal_id)
        if word is None and removal_id in self._rows:
            word = self._rows[removal_id].standing
        if word is None and self.standings is not None:
            from bagtag.domain.standing import Standing

            return Standing.SCRAPPED
        return word

    def spoken(self, place: int) -> str:
        """What a screen reader says for a row."""
        if self.is_now(place):
            return f"{self.next_number}, the next one to log"
        row = self._rows.get(self.id_at(place))
        if row is None:
            return ""
        said = (f"{row.removal.number} {row.removal.name}", row.short, self.standing_of(row).value)
        return ", ".join(filter(None, said))

    # What the page tells it

    def show_job(self, job_id: int, count: int = PAGE) -> None:
        """Show another job's log, first its newest `count` lines."""
        self.job_id = job_id
        self._reset(())
        self.whole = False
        self.standings, self.next_number = None, ""
        if job_id:
            self.desk.ask(first_page, job_id, count, then=self._first_page)

    def set_now(self, wanted: bool) -> None:
        """Whether the line to be logged next stands at the end."""
        if wanted == self.with_now:
            return
        if wanted:
            self.beginInsertRows(NOWHERE, len(self._ids), len(self._ids))
        else:
            self.beginRemoveRows(NOWHERE, len(self._ids), len(self._ids))
        self.with_now = wanted
        if wanted:
            self.endInsertRows()
        else:
            self.endRemoveRows()

    def set_standings(self, standings: dict[int, Standing] | None) -> None:
        """The build's word on each part, where a board is at hand."""
        self.standings = standings
        self._repaint(0, len(self._ids))

    def hear(self, change: Change) -> None:
        """Ask again for the rows that were touched, and for the ids where the log has changed."""
        if change.job_id not in (0, self.job_id) or not self.job_id:
            return
        touched = change.touched.get("removal", frozenset())
        if change.touches("job"):
            self.show_job(self.job_id)
            return
        for removal_id in touched:  # the rows know better, until there is a fresh board
            (self.standings or {}).pop(removal_id, None)
        if change.touches("area") or change.touches("container"):
            self._rows.clear()
            self._repaint(0, len(self._ids))
        if touched:
            self.desk.ask(rows_of, self.job_id, sorted(touched), then=self._touched)

    # What is answered

    def _first_page(self, answer: tuple[StripPage, Job, str, int]) -> None:
        page, job, number, count = answer
        if job.id != self.job_id:
            return
        self.datum = job.datum
        self._keep(page.rows)
        self.whole = len(page.ids) < count
        self._reset(page.ids)
        self._number(number)
        self.ready.emit()
        if not self.whole:
            self.desk.ask(ids_now, self.job_id, then=self._all_ids)

    def _all_ids(self, answer: tuple[int, Sequence[int], str]) -> None:
        job_id, ids, number = answer
        if job_id != self.job_id:
            return
        self._change_ids(array("q", ids))
        self.whole = True
        self._number(number)
        self.ready.emit()

    def _touched(self, answer: tuple[list[int], list[StripRow]]) -> None:
        """Fresh rows; the ids are asked for again only where the log itself is another."""
        ids, rows = answer
        stays = len(ids) == len(rows) and all(self._stands(row) for row in rows)
        for removal_id in set(ids) - {row.removal.id for row in rows}:
            self._rows.pop(removal_id, None)
        self._here(answer)
        if not stays:
            self.desk.ask(ids_now, self.job_id, then=self._fresh)

    def _stands(self, row: StripRow) -> bool:
        known = self._rows.get(row.removal.id)
        return known is not None and known.removal.position == row.removal.position

    def _fresh(self, answer: tuple[int, Sequence[int], str]) -> None:
        job_id, ids, number = answer
        if job_id != self.job_id:
            return
        self._change_ids(array("q", ids))
        self._number(number)
        self._repaint(0, self.rowCount())
        self.ready.emit()

    def _fetch(self) -> None:
        places, self._wanted = sorted(self._wanted), set()
        ids = [id_ for place in _spread(places, len(self._ids)) if (id_ := self.id_at(place))]
        ids = [id_ for id_ in ids if id_ not in self._rows and id_ not in self._asked]
        if ids:
            self._asked.update(ids)
            self.desk.ask(rows_of, self.job_id, ids, then=self._here)

    def _here(self, answer: tuple[list[int], list[StripRow]]) -> None:
        ids, rows = answer
        self._asked.difference_update(ids)
        self._keep(rows)
        found = (self.place_of(row.removal.id) for row in rows)
        places = [place for place in found if place >= 0]  # a line may be gone meanwhile
        if places:
            self._repaint(min(places), max(places) + 1)

    # Its own

    def _number(self, number: str) -> None:
        if number != self.next_number:
            self.next_number = number
            self.numbered.emit(number)

    def _keep(self, rows: Iterable[StripRow]) -> None:
        for row in rows:
            self._rows[row.removal.id] = row
            self._rows.move_to_end(row.removal.id)
        while len(self._rows) > KEPT:
            self._rows.popitem(last=False)

    def _reset(self, ids: Sequence[int]) -> None:
        self.beginResetModel()
        self._ids = array("q", ids)
        self._asked.clear()
        self.endResetModel()

    def _change_ids(self, ids: array[int]) -> None:
        """Tell the view of lines more or less as such, so that the choice stays where it is."""
        old, more = self._ids, len(ids) - len(self._ids)
        at = _first_difference(old, ids)
        if more > 0 and ids[at + more :] == old[at:]:
            self.beginInsertRows(NOWHERE, at, at + more - 1)
            self._ids = ids
            self.endInsertRows()
        elif more < 0 and ids[at:] == old[at - more :]:
            self.beginRemoveRows(NOWHERE, at, at - more - 1)
            self._ids = ids
            self.endRemoveRows()
        elif ids != old:
            self._reset(ids)

    def _repaint(self, start: int, end: int) -> None:
        if end > start:
            self.dataChanged.emit(self.index(start), self.index(end - 1))


def _first_difference(old: array[int], new: array[int]) -> int:
    short = min(len(old), len(new))
    if old[:short] == new[:short]:
        return short
    return next(i for i in range(short) if old[i] != new[i])


def ids_now(store: Store, job_id: int) -> tuple[int, Sequence[int], str]:
    """The ids as they are now, and the next number."""
    page = services.views.last_page(store, job_id, PAGE, counted=False)
    return job_id, services.strip.log_ids(store, job_id), _next_number(page)


def rows_of(store: Store, job_id: int, ids: Sequence[int]) -> tuple[list[int], list[StripRow]]:
    """Rows, with the ids they were asked by."""
    return list(ids), services.views.strip_rows(store, job_id, ids)


def _spread(places: Sequence[int], total: int) -> Iterable[int]:
    """The places asked for and a few around them, so that scrolling finds the next ones here."""
    if not places:
        return ()
    start, end = max(places[0] - 10, 0), min(places[-1] + 11, total)
    return range(start, end) if end - start <= 4 * PAGE else places
