"""The entry of one removal: a new one, one that was forgotten, or one to correct."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.entry.entry_bench import Bench, Looked, look_over, look_up, the_last
from bagtag.ui.entry.entry_correction import Correction
from bagtag.ui.entry.entry_draft import Draft, Kept, Merged, new_uid, to_entry
from bagtag.ui.entry.entry_fields import FATES
from bagtag.ui.entry.entry_form import EntryForm
from bagtag.ui.forms.basics import ENTER

if TYPE_CHECKING:
    from bagtag.scan.tape import Tape

LOOK_AFTER = 300
"""Milliseconds without a change, after which the rest of the job is asked what it says to it."""
REPEATED = ("area", "container", "fate", "held_by", "goes_on")
"""What "as the last one" may fill in."""
_CALLED = {
    "which_way": "which way", "held_by": "what held it", "goes_on": "what goes on it",
    "hazards": "what can hurt", "unanswered": "what was skipped",
}  # fmt: skip


class EntryCard(EntryForm):
    """Enter logs it. What was typed and not logged is kept until it is, whatever is opened."""

    logged = Signal(int)
    """The id of the removal that was logged or corrected."""
    closed = Signal()

    def __init__(
        self, desk: Desk, parent: QWidget | None = None, *, settings: QSettings | None = None
    ) -> None:
        super().__init__(desk, parent, settings)
        self._job_id = 0
        self._correction: Correction | None = None
        self._wanted: int | None = None
        self._before: int | None = None
        self._uid = new_uid()
        self.tag_code = ""
        self._sent: Draft | None = None
        self._sent_uid = ""
        self._kept: dict[tuple[int, int], Kept] = {}
        self._ask_wanted = False
        self._look = QTimer(self)
        self._look.setSingleShot(True)
        self._look.setInterval(LOOK_AFTER)
        self._connect()

    def _connect(self) -> None:
        self.head.shut.clicked.connect(self.leave)
        self.acts.log.clicked.connect(self.log)
        self.acts.again.clicked.connect(self.as_the_last)
        self.acts.forgotten.clicked.connect(self.one_forgotten)
        self.acts.before_chosen.connect(self._put_before)
        self.acts.theirs.clicked.connect(self._take_theirs)
        self.desk.changed.connect(self._hear)
        self.head.changed.connect(self._look.start)
        self.fields.changed.connect(self._look.start)
        self._look.timeout.connect(self._look_over)
        self.fields.asks.finished.connect(self._all_asked)

    # what is shown

    @property
    def removal_id(self) -> int | None:
        """The removal that is being corrected; None for a new entry."""
        return self._wanted

    def start_new(self, before: int | None = None) -> None:
        """An empty card for the next removal, or for one that was forgotten before another."""
        self._put_aside()
        self._job_id, self._wanted, self._before = self.desk.job_id, None, before
        self.setEnabled(True)
        self.forget_tape()
        self._ask_wanted = False
        kept = self._kept.pop(self._key(), None) or Kept(Draft(), new_uid())
        self.fields.begin(correcting=False, fate_is_chosen=kept.draft != Draft())
        self._uid = kept.uid
        self.fields.photos.open(self._uid)
        self.fill(kept.draft)
        self.acts.show_new()
        self.head.say_what("New entry")
        if self._job_id:
            self.desk.ask(look_up, self._job_id, before, then=self._known, failed=self._failed)
        self.head.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def open(self, removal_id: int) -> None:
        """Show a logged removal to correct it."""
        self._put_aside()
        self._wanted, self._before, self._uid = removal_id, None, ""
        self._ask_wanted = False
        self.fields.begin(correcting=True, fate_is_chosen=True)
        self.fill(Draft())
        self.setEnabled(False)
        self.acts.show_correction()
        self.fields.photos.open(removal_id)
        self.desk.ask(
            look_up, self.desk.job_id, removal_id, then=self._known, failed=self._not_opened
        )

    def take_tape(self, tape: "Tape") -> None:
        """A line of tape goes on here: what its kind of part needs is asked at once."""
        super().take_tape(tape)
        self.ask()

    def ask(self) -> None:
        """Put the focus on the open question, as soon as the part and its kind are known."""
        self._ask_wanted = not self._is_loaded()
        if self._is_loaded():
            panel, name = self.fields.asks.panel, self.head.name
            (panel if self.fields.asks.is_asking else name).setFocus(
                Qt.FocusReason.OtherFocusReason
            )

    def _is_loaded(self) -> bool:
        if self._wanted is not None:
            return self._correction is not None
        return self.fields.asks.knows_kinds and not self.has_waiting_tape

    def leave(self) -> None:
        """Close the card; what is not logged waits here."""
        self._keep_draft()
        self.closed.emit()

    # acts

    def log(self) -> None:
        """Log it, or keep the correction."""
        self.say_nothing()
        if self._sent is not None or not self.fields.is_whole():
            return
        try:
            entry = to_entry(self.draft, self.names, self._uid)
        except BadInput as wrong:
            self.say(wrong)
            return
        self._sent, self._sent_uid = self.draft, self._uid
        self.acts.log.setEnabled(False)
        if self._wanted is None:
            extras = services.strip.Extras(self._before, self._sent.container, self.tag_code)
            self.desk.act(
                services.strip.log_removal, self._job_id, entry, extras,
                then=self._logged, failed=self._failed,
            )  # fmt: skip
        elif self._correction is not None:
            self._correction.send(self._sent)

    def as_the_last(self) -> None:
        """Fill the fields that are still empty as in the last entry."""
        self.desk.ask(the_last, self._job_id, self.names, then=self._repeat)

    def one_forgotten(self) -> None:
        """Enter one that was forgotten: before the one shown, or before one to be chosen."""
        if self._wanted is not None:
            self.start_new(before=self._wanted)
        else:
            self.acts.ask_before(self._job_id)

    # answers

    def _known(self, bench: Bench) -> None:
        asked = self._wanted if self._wanted is not None else self._before
        if (bench.removal.id if bench.removal else None) != asked:
            return
        self._job_id = bench.job_id
        self.set_bench(bench)
        if self._wanted is not None and self._correction is None:
            self._begin_correction(bench)
        elif self._correction is not None and self._sent is None:
            self._follow(bench)
        if self._wanted is None and bench.removal is not None:
            self.acts.show_before(f"{bench.removal.number} {bench.removal.name}")
        if self._ask_wanted:
            self.ask()

    def _begin_correction(self, bench: Bench) -> None:
        assert bench.removal is not None
        self._correction = Correction(self.desk, bench, self)
        self._correction.kept.connect(self._corrected)
        self._correction.clashed.connect(self._clashed)
        self._correction.failed.connect(self._failed)
        self._uid = bench.removal.uid
        kept = self._kept.pop(self._key(), None)
        self.fill(kept.draft if kept else self._correction.opened)
        if kept is not None and kept.draft != self._correction.opened:
            self.acts.say("What you had changed and not kept is here again.")
        self.setEnabled(True)
        self.head.say_what(f"Correct {bench.removal.number}")
        self.head.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def _follow(self, bench: Bench) -> None:
        """Undone or changed elsewhere while it is only looked at: show it as it is now."""
        correction = self._correction
        if correction is not None and self.draft == correction.opened and correction.follow(bench):
            self.fill(correction.opened)

    def _put_aside(self) -> None:
        """Something else is shown now: what is typed and not in the store yet waits."""
        self._keep_draft()
        if self._correction is not None:
            self._correction.deleteLater()
            self._correction = None
            self._stop_sending()

    def _not_opened(self, error: BaseException) -> None:
        self.setEnabled(True)
        self._failed(error)

    def _logged(self, change: Change) -> None:
        sent, removal_id = self._sent, change.new_id or 0
        self._stop_sending()
        self.fields.photos.logged_as(self._sent_uid, removal_id)
        if self._uid != self._sent_uid:
            self._logged_behind(change.job_id)
        elif self.draft != sent:
            self._typed_on(removal_id)
        else:
            self.fill(Draft())
            self.start_new()
        self.logged.emit(removal_id)

    def _typed_on(self, removal_id: int) -> None:
        """Typed on while it was being logged: that becomes a correction of it, not kept yet."""
        self._kept[self._job_id, removal_id] = Kept(self.draft, self._uid)
        self.fill(Draft())
        self.open(removal_id)

    def _logged_behind(self, job_id: int) -> None:
        """Logged while another is shown already: it need not wait any more."""
        kept = self._kept.get((job_id, 0))
        if kept is not None and kept.uid == self._sent_uid:
            del self._kept[job_id, 0]

    def _clashed(self, both: Merged, theirs: Draft) -> None:
        """Nothing is kept yet: the person sees both and says which."""
        self._stop_sending()
        self.fill(both.draft)
        words = " and ".join(_CALLED.get(name, name) for name in both.clashes)
        self.acts.say_clash(words, theirs)

    def _corrected(self, kept: Draft) -> None:
        sent = self._sent
        self._stop_sending()
        if self.draft == sent:
            self.fill(kept)
            self.logged.emit(self._wanted or 0)
            self.closed.emit()

    def _failed(self, error: BaseException) -> None:
        self._stop_sending()
        if not isinstance(error, Trouble):
            raise error
        self.say(error)

    def _stop_sending(self) -> None:
        self._sent = None
        self.acts.log.setEnabled(True)

    def _repeat(self, last: Draft | None) -> None:
        if last is None:
            self.acts.say("There is no entry yet to repeat.")
            return
        now, blank = self.draft, Draft()
        empty = [name for name in REPEATED if getattr(now, name) == getattr(blank, name)]
        if "fate" in empty and last.fate is not blank.fate:
            self.fields.fate_is_chosen = True
        self.fill(replace(now, **{name: getattr(last, name) for name in empty}))
        self.acts.say("As the last one: area, container, fate, what held it, what goes on.")

    def _put_before(self, removal_id: int) -> None:
        """What stands in the card goes in there."""
        self._before = removal_id
        self.desk.ask(look_up, self._job_id, removal_id, then=self._known, failed=self._failed)
        self.head.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take_theirs(self) -> None:
        theirs = self.acts.clash
        if theirs is not None:
            self.fill(theirs)
        self.acts.show_correction()

    def _hear(self, change: Change) -> None:
        """New areas and containers are offered, and what became of the entry that is open."""
        if change.job_id not in (0, self._job_id):
            return
        asked = self._wanted if self._wanted is not None else self._before
        mine = asked in change.touched.get("removal", ())
        if mine or any(change.touches(kind) for kind in ("area", "container", "job")):
            self.desk.ask(look_up, self._job_id, asked, then=self._known, failed=self._failed)

    # what the rest of the job says to it

    def _look_over(self) -> None:
        entry = self._entry_now()
        if entry is not None and self._job_id:
            self.desk.ask(look_over, self._job_id, entry, self._wanted, then=self._looked)

    def _looked(self, looked: Looked) -> None:
        if looked.entry == self._entry_now():
            form = self.fields.which_way
            form.set_told(looked.entry.which_way, looked.told)
            form.set_against(looked.against)

    def _entry_now(self) -> Entry | None:
        try:
            return to_entry(self.draft, self.names, self._uid)
        except BadInput:
            return None  # it is said when it is to be logged

    def _all_asked(self) -> None:
        self.acts.log.setFocus(Qt.FocusReason.OtherFocusReason)
        self.acts.say("Backspace goes back to the last question.")

    # what waits

    def _key(self) -> tuple[int, int]:
        return self._job_id, self._wanted or 0

    def _keep_draft(self) -> None:
        """Put what is typed and not logged aside under its entry."""
        loaded = self._wanted is None or self._correction is not None
        pictures = self._wanted is None and self.fields.photos.has_waiting
        opened = self._correction.opened if self._correction else Draft()
        if loaded and (pictures or self.draft != opened):
            self._kept[self._key()] = Kept(self.draft, self._uid)

    # keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if event.key() in ENTER:
            self.log()
        elif event.key() == Qt.Key.Key_Escape:
            self.leave()
        elif event.key() == Qt.Key.Key_Backspace and self.acts.log.hasFocus():
            self.fields.asks.back()
        elif control and event.key() == Qt.Key.Key_D:
            self.as_the_last()
        elif control and Qt.Key.Key_1 <= event.key() <= Qt.Key.Key_4:
            self.fields.fate.choose(FATES[event.key() - Qt.Key.Key_1].value)
        elif event.matches(QKeySequence.StandardKey.Paste) and self.fields.photos.paste():
            event.accept()
        else:
            super().keyPressEvent(event)
