"""The page for Strip and for Build: at the left the strip or the build's lists, then the card."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Press
from bagtag.ui.joint_keys import JointKeys
from bagtag.ui.stage import Stage
from bagtag.ui.strip.strip_view import StripView

if TYPE_CHECKING:
    from bagtag.domain.model import Removal
    from bagtag.services.tags import Match
    from bagtag.ui.card.bench_card import BenchCardView
    from bagtag.ui.entry.entry_card import EntryCard
    from bagtag.ui.progress.build_side import BuildSide
    from bagtag.ui.progress.build_stage import BuildBar

ANSWER = "F8"
"""Answers the questions that the last line of tape left open."""


class BenchPage(Stage):
    """One page under two words: on Strip the card takes entries, on Build it shows steps."""

    title = "Strip"
    numbered = Signal(str)
    refused = Signal(str, str)
    """A line of tape that could not be taken, and why."""
    typed = Signal(str)
    audit_wanted = Signal()
    entry_done = Signal(int)
    """The entry of this removal was corrected, or left as it was."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.strip = StripView(desk, self)
        self.tag_code = ""
        self._line = ""
        self._sought = 0
        self._unanswered = 0
        self._next_wanted = False
        self._at_work = self._from_line = False
        self._lay()
        self._connect()

    def _lay(self) -> None:
        self.right = QStackedWidget(self)
        self.audit = Press("Audit: what is still missing\u2002F3", self)
        self.audit.setProperty("role", "quiet")
        self.audit.setAccessibleName("Audit: what is still missing")
        self._beside = QVBoxLayout()
        self._beside.setSpacing(4)
        self._beside.addWidget(self.strip, 1)
        self._beside.addWidget(self.audit)
        across = QHBoxLayout()
        across.setSpacing(22)
        across.addLayout(self._beside, 38)
        across.addWidget(self.right, 62)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(10)
        self._column.addLayout(across, 1)

    def _connect(self) -> None:
        strip = self.strip
        strip.chosen.connect(self._chosen)
        strip.opened.connect(self._opened)
        strip.insert_wanted.connect(self.insert_before)
        strip.moved.connect(self.move_line)
        strip.delete_wanted.connect(self.delete_line)
        strip.typed.connect(self.typed)
        self.audit.clicked.connect(self.audit_wanted)
        strip.rows.ready.connect(self._rows_ready)
        strip.rows.numbered.connect(self.numbered)
        self.desk.changed.connect(self._heard)
        self.joint_keys = JointKeys(self)

    # Its parts beside the strip, each made when it is first needed

    @cached_property
    def entry(self) -> EntryCard:
        from bagtag.ui.entry.entry_card import EntryCard

        made = EntryCard(self.desk, self)
        made.logged.connect(self._logged)
        made.closed.connect(self._entry_closed)
        self.right.addWidget(made)
        # The card has this key too, for its own part: only one of the two is ever in sight.
        answer = QShortcut(QKeySequence(ANSWER), made)
        answer.setAutoRepeat(False)
        answer.activated.connect(self.answer_open)
        return made

    @cached_property
    def card(self) -> BenchCardView:
        from bagtag.ui.card.bench_card import BenchCardView

        made = BenchCardView(self.desk, self)
        made.correct.connect(self.correct)
        self.right.addWidget(made)
        return made

    @cached_property
    def side(self) -> BuildSide:
        """What only the build has."""
        from bagtag.ui.progress.build_side import BuildSide

        made = BuildSide(self)
        self._column.insertWidget(0, made.bar)
        self._beside.insertWidget(0, made.left, 1)
        return made

    @property
    def build(self) -> BuildBar:
        return self.side.bar

    @property
    def card_id(self) -> int:
        """The removal on the card; 0 for none."""
        return self.card.removal_id if "card" in vars(self) else 0

    # Which of the two words

    @property
    def building(self) -> bool:
        return self.title == "Build"

    @property
    def _has_built(self) -> bool:
        """Whether the build was ever gone to."""
        return "side" in vars(self)

    def set_stage(self, title: str) -> None:
        """Be the page of this stage: "Strip" or "Build"."""
        was_logging = self.title == "Strip" and not self.strip.chosen_id
        self.title = title
        self._next_wanted = self.building and was_logging and not self._sought
        if self.building or self._has_built:
            self.side.set_building(self.building)
        self.strip.set_building(self.building)
        self.audit.setVisible(not self.building)

    def enter(self) -> None:
        if self.strip.rows.job_id != self.desk.job_id:
            self._show_job()
        if self.building:
            self.build.enter()
            self.right.setCurrentWidget(self.side.task_card if self.side.task_id else self.card)
        elif not self._sought:
            self.strip.choose_now()
            self._keeping_focus(self.show_new)

    def hear(self, change: Change) -> None:
        """Nothing more: the page hears of every change, in sight or not."""

    def _heard(self, change: Change) -> None:
        self.strip.rows.hear(change)
        if self.building and self.isVisible():
            self.build.hear(change)

    def _show_job(self) -> None:
        self._at_work = False
        self._unanswered = 0
        if self._has_built:
            self.side.show_job()
        if self.card_id:
            self.card.show_nothing()
        self.strip.set_standings(None)
        self.strip.show_job(self.desk.job_id)
        self.strip.set_building(self.building)

    # What is shown

    def show_removal(self, removal_id: int) -> None:
        """Put a removal on the card and choose it in the strip."""
        self._sought = removal_id
        self.card.show_removal(removal_id)
        self.right.setCurrentWidget(self.card)
        if self._has_built:
            self.side.part_is_shown(removal_id)
        self._seek()

    def put_part(self, removal_id: int) -> None:
        """Put a removal on the card, and leave it to others what is chosen where."""
        if removal_id != self.card_id:
            self.card.show_removal(removal_id)
        self.right.setCurrentWidget(self.card)

    def show_task(self, task_id: int) -> None:
        """Put a task of the build on its card."""
        self._sought, self._next_wanted = 0, False
        self.side.show_task(task_id)

    def focus_left(self) -> None:
        """The keys go to the list at the left."""
        if self._has_built:
            self.side.left.focus_list()
        else:
            self.strip.setFocus()

    def seek_nothing(self) -> None:
        """A person has chosen something else than what was sought."""
        self._sought = 0

    def wants_next(self, *, nothing_shown: bool) -> bool:
        """Whether the next step is to be put on the card now that the build is known."""
        wanted = self.building and not self._sought and (self._next_wanted or nothing_shown)
        self._next_wanted = self._next_wanted and not wanted
        return wanted

    def show_match(self, match: Match) -> None:
        """Whether two twin tags belong together, large."""
        self.right.setCurrentWidget(self.card)
        self.card.show_match(match)

    def show_new(self, before: int | None = None) -> None:
        """The card for a new entry."""
        self._from_line = False
        self.right.setCurrentWidget(self.entry)
        self.entry.start_new(before)

    def insert_before(self, removal_id: int) -> None:
        """The card for one that was forgotten before another."""
        if removal_id:
            self.show_new(removal_id)

    def correct(self, removal_id: int) -> None:
        self.right.setCurrentWidget(self.entry)
        self.entry.open(removal_id)
        self.entry.setFocus()

    def focus_photos(self, removal_id: int) -> None:
        """Put the keys on the photo acts of the entry that is being opened. It is asked for on the
        same thread as this, and so it is there when this is answered."""
        self.desk.ask(services.strip.get_removal, removal_id, then=self._focus_photos)

    def _focus_photos(self, removal: Removal) -> None:
        if self._correcting(removal.id):
            self.entry.fields.photos.acts.choose.setFocus()

    def _seek(self) -> None:
        """Choose what is sought as soon as its line is known."""
        if not self._sought:
            return
        if self.strip.rows.place_of(self._sought) >= 0:
            self.strip.choose(self._sought)
            self._sought = 0
        elif self.strip.rows.whole:
            self._sought = 0  # it is in no line of this log any more

    def _rows_ready(self) -> None:
        if not self._at_work:
            self._at_work = True
            self.strip.go_to_work()
        if self._sought:
            self._seek()
        elif not self.building and not self.strip.chosen_id:
            self.strip.choose_now()

    def _chosen(self, removal_id: int) -> None:
        if self._sought or self._correcting(removal_id):
            return
        if self.building and self.side.left.word != "Strip":
            return  # it only follows the list in sight
        if not removal_id and not self.building:
            if self.right.currentWidget() is not self.entry or self.entry.removal_id is not None:
                self._keeping_focus(self.show_new)
        elif removal_id:
            self.put_part(removal_id)
            if self.building:
                self.side.part_is_shown(removal_id)

    def _correcting(self, removal_id: int) -> bool:
        """Whether this line is being corrected: hearing late that it is chosen changes nothing."""
        open_now = self.right.currentWidget() is self.entry
        return open_now and bool(removal_id) and self.entry.removal_id == removal_id

    def _opened(self, removal_id: int) -> None:
        if self.building and removal_id:
            self.show_removal(removal_id)
            self.card.setFocus()
        elif removal_id:
            self.correct(removal_id)
        elif not self.building:
            self.show_new()

    def _entry_closed(self) -> None:
        corrected, removal_id = self.entry.removal_id, self.strip.chosen_id
        if removal_id:
            self.show_removal(removal_id)
        self.focus_left()
        if corrected is not None:
            self.entry_done.emit(corrected)

    # What is done

    def log_tape(self, line: str, tape: Any) -> None:
        """Log a line of tape as the next removal."""
        self._line = line
        entry = replace(tape.entry, uid=str(uuid4()))
        extras = services.strip.Extras(None, tape.container_wanted or "", self.tag_code)
        self.desk.act(
            services.strip.log_removal,
            self.desk.job_id,
            entry,
            extras,
            then=self._tape_logged,
            failed=self._not_logged,
        )

    def tape_to_card(self, tape: Any) -> None:
        """Put a line of tape on the card, to add what tape is too narrow for."""
        self.show_new()
        self._from_line = True
        self.entry.take_tape(tape)

    def give_tag(self, code: str) -> None:
        """The blank tag that goes on the next entry, by tape or by card; empty for none."""
        self.tag_code = self.entry.tag_code = code

    def _tape_logged(self, change: Change) -> None:
        self.give_tag("")
        self.strip.choose_now()
        if change.new_id:
            self.desk.ask(services.strip.as_logged, change.new_id, then=self._say_open)

    def _say_open(self, answer: tuple[Removal, tuple[str, ...]]) -> None:
        """What it says against the log; else what its kind asks and the line did not say."""
        removal, against = answer
        count = len(removal.unanswered)
        self._unanswered = removal.id if count else self._unanswered
        if against:
            self.desk.say(f"Logged as {removal.number}. {against[0]}")
        elif count:
            self.desk.say(
                f"Logged as {removal.number}. {count} question{'s' * (count != 1)} not answered: "
                f"{ANSWER} answers {'it' if count == 1 else 'them'}."
            )

    def answer_open(self) -> None:
        """Answer what the last line of tape left open."""
        if self._unanswered and not self._correcting(self._unanswered):
            self.show_removal(self._unanswered)
            self.correct(self._unanswered)
        if self._unanswered:
            self.entry.ask()

    def _not_logged(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.refused.emit(self._line, error.sentence)
        else:
            self.desk.tell_error(error)

    def _logged(self, removal_id: int) -> None:
        self.give_tag("" if self.entry.removal_id is None else self.tag_code)
        if self.entry.removal_id is None:
            self.strip.choose_now()
        if self._from_line:  # the next one is written where this one was
            self._from_line = False
            self.typed.emit("")

    def move_line(self, removal_id: int, by: int) -> None:
        """Move a line of the log up or down."""
        rows = self.strip.rows
        place = rows.place_of(removal_id)
        target = place + by if by < 0 else place + by + 1
        if place < 0 or not 0 <= target <= rows.count:
            return
        before = rows.id_at(target) if target < rows.count else None
        self._sought = removal_id
        self.desk.act(services.strip.move_removal, removal_id, before)

    def delete_line(self, removal_id: int) -> None:
        """Take a line out of the log; undo brings it back."""
        if self.card_id == removal_id:
            self.card.show_nothing()
        self.desk.act(services.strip.delete_removal, removal_id)

    def _keeping_focus(self, show: Any) -> None:
        """Show something without taking the keys from where they are."""
        had = QApplication.focusWidget()
        show()
        if had is not None:
            had.setFocus()
