"""The entry of one removal: a new one, one that was forgotten, or one to correct."""

from dataclasses import fields, replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.entry_acts import EntryActs
from bagtag.ui.entry_bench import Bench, look_up, the_last
from bagtag.ui.entry_correction import Correction
from bagtag.ui.entry_draft import (
    Draft,
    Kept,
    Merged,
    Names,
    new_uid,
    of_entry,
    to_entry,
)
from bagtag.ui.entry_fields import FATES, EntryFields
from bagtag.ui.entry_head import EntryHead
from bagtag.ui.forms import ENTER
from bagtag.ui.forms_sight import InSight, scrolling
from bagtag.ui.photo_sources import pictures_in

if TYPE_CHECKING:
    from bagtag.scan.tape import Tape

REPEATED = ("area", "container", "fate", "held_by", "goes_on")
"""What "as the last one" may fill in."""
_CALLED = {
    "which_way": "which way", "held_by": "what held it", "goes_on": "what goes on it",
}  # fmt: skip


class EntryCard(QFrame):
    """Enter logs it. What was typed and not logged is kept until it is, whatever is opened."""

    logged = Signal(int)
    """The id of the removal that was logged or corrected."""
    closed = Signal()

    def __init__(
        self, desk: Desk, parent: QWidget | None = None, *, settings: QSettings | None = None
    ) -> None:
        super().__init__(parent)
        self.desk = desk
        self.setProperty("surface", "card")
        self.setAcceptDrops(True)
        self._names = Names({}, {})
        self._job_id = 0
        self._correction: Correction | None = None
        self._wanted: int | None = None
        self._before: int | None = None
        self._uid = new_uid()
        self._sent: Draft | None = None
        self._kept: dict[tuple[int, int], Kept] = {}
        self._tape = Draft()
        self._waiting_tape: Tape | None = None
        self.head = EntryHead(self)
        self.fields = EntryFields(desk, self, settings)
        self.acts = EntryActs(desk, self)
        self._build()
        self._connect()

    def _build(self) -> None:
        self.area = scrolling(self.fields, self)
        InSight(self.area, (self.fields.which_way.frame, self.fields.hardware.frame))
        QWidget.setTabOrder(self.acts.theirs, self.head.shut)  # leaving comes last
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 14, 24, 16)
        column.setSpacing(10)
        column.addWidget(self.head)
        column.addWidget(self.area, 1)
        column.addWidget(self.acts)

    def _connect(self) -> None:
        self.head.changed.connect(self._changed)
        self.fields.changed.connect(self._changed)
        self.head.shut.clicked.connect(self.leave)
        self.acts.log.clicked.connect(self.log)
        self.acts.again.clicked.connect(self.as_the_last)
        self.acts.forgotten.clicked.connect(self.one_forgotten)
        self.acts.before_chosen.connect(self._put_before)
        self.acts.theirs.clicked.connect(self._take_theirs)
        self.desk.changed.connect(self._hear)

    # what is shown

    @property
    def removal_id(self) -> int | None:
        """The removal that is being corrected; None for a new entry."""
        return self._wanted

    @property
    def draft(self) -> Draft:
        """What stands in the card now."""
        return self.fields.draft(self.head.name.text(), self.head.quantity.text())

    def start_new(self, before: int | None = None) -> None:
        """An empty card for the next removal, or for one that was forgotten before another."""
        self._keep_draft()
        self._job_id, self._wanted, self._before = self.desk.job_id, None, before
        self._forget_correction()
        self.setEnabled(True)
        self._tape = Draft()
        kept = self._kept.pop(self._key(), None) or Kept(Draft(), new_uid())
        self._uid = kept.uid
        self.fields.photos.open(None, kept.pending)
        self._fill(kept.draft)
        self.acts.show_new()
        self.head.say_what("New entry")
        self.desk.ask(look_up, self._job_id, before, then=self._known, failed=self._failed)
        self.head.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def open(self, removal_id: int) -> None:
        """Show a logged removal to correct it."""
        self._keep_draft()
        self._wanted, self._before = removal_id, None
        self._forget_correction()
        self._fill(Draft())
        self.setEnabled(False)
        self.acts.show_correction()
        self.fields.photos.open(removal_id)
        self.desk.ask(
            look_up, self.desk.job_id, removal_id, then=self._known, failed=self._not_opened
        )

    def take_tape(self, tape: "Tape") -> None:
        """Fill in what a masking-tape line says; what was typed by hand elsewhere stays."""
        self._waiting_tape = tape
        if self._names.areas or self._names.containers or not _needs_names(tape):
            self._apply_tape(tape)

    def leave(self) -> None:
        """Close the card; what is not logged waits here."""
        self._keep_draft()
        self.closed.emit()

    # acts

    def log(self) -> None:
        """Log it, or keep the correction."""
        self._say_nothing()
        if self._sent is not None or not self.fields.is_whole():
            return
        try:
            entry = to_entry(self.draft, self._names, self._uid)
        except BadInput as wrong:
            self._say(wrong)
            return
        self._sent = self.draft
        self.acts.log.setEnabled(False)
        if self._wanted is None:
            extras = services.strip.Extras(self._before, self._sent.container)
            self.desk.act(
                services.strip.log_removal, self._job_id, entry, extras,
                then=self._logged, failed=self._failed,
            )  # fmt: skip
        elif self._correction is not None:
            self._correction.send(self._sent)

    def as_the_last(self) -> None:
        """Fill the fields that are still empty as in the last entry."""
        self.desk.ask(the_last, self._job_id, self._names, then=self._repeat)

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
        self._names, self._job_id = bench.names, bench.job_id
        self.fields.set_bench(bench)
        if self._wanted is not None and self._correction is None:
            self._begin_correction(bench)
        elif self._correction is not None and self._sent is None:
            self._follow(bench)
        if self._wanted is None and bench.removal is not None:
            self.acts.show_before(f"{bench.removal.number} {bench.removal.name}")
        if self._waiting_tape is not None:
            self._apply_tape(self._waiting_tape)

    def _begin_correction(self, bench: Bench) -> None:
        assert bench.removal is not None
        self._correction = Correction(self.desk, bench, self)
        self._correction.kept.connect(self._corrected)
        self._correction.clashed.connect(self._clashed)
        self._correction.failed.connect(self._failed)
        self._uid = bench.removal.uid
        kept = self._kept.pop(self._key(), None)
        self._fill(kept.draft if kept else self._correction.opened)
        if kept is not None:
            self.acts.say("What you had changed and not kept is here again.")
        self.setEnabled(True)
        self.head.say_what(f"Correct {bench.removal.number}")
        self.head.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def _follow(self, bench: Bench) -> None:
        """Undone or changed elsewhere while it is only looked at: show it as it is now."""
        correction = self._correction
        if correction is not None and self.draft == correction.opened and correction.follow(bench):
            self._fill(correction.opened)

    def _forget_correction(self) -> None:
        if self._correction is not None:
            self._correction.deleteLater()
        self._correction = None

    def _not_opened(self, error: BaseException) -> None:
        self.setEnabled(True)
        self._failed(error)

    def _logged(self, change: Change) -> None:
        sent, removal_id = self._sent, change.new_id or 0
        self._sent = None
        self.acts.log.setEnabled(True)
        self.fields.photos.logged_as(removal_id)
        if self.draft != sent:  # typed on while it was being logged: nothing of that is lost
            self._kept[self._job_id, removal_id] = Kept(self.draft, self._uid)
            self._fill(Draft())
            self.open(removal_id)
        else:
            self._fill(Draft())
            self._before = None
            self.start_new()
        self.logged.emit(removal_id)

    def _clashed(self, both: Merged, theirs: Draft) -> None:
        """Nothing is kept yet: the person sees both and says which."""
        self._stop_sending()
        self._fill(both.draft)
        words = " and ".join(_CALLED.get(name, name) for name in both.clashes)
        self.acts.say_clash(words, theirs)

    def _corrected(self, kept: Draft) -> None:
        sent = self._sent
        self._stop_sending()
        if self.draft == sent:
            self._fill(kept)
            self.logged.emit(self._wanted or 0)
            self.closed.emit()

    def _failed(self, error: BaseException) -> None:
        self._stop_sending()
        if not isinstance(error, Trouble):
            raise error
        self._say(error)

    def _stop_sending(self) -> None:
        self._sent = None
        self.acts.log.setEnabled(True)

    def _repeat(self, last: Draft | None) -> None:
        if last is None:
            self.acts.say("There is no entry yet to repeat.")
            return
        now, blank = self.draft, Draft()
        empty = [name for name in REPEATED if getattr(now, name) == getattr(blank, name)]
        self._fill(replace(now, **{name: getattr(last, name) for name in empty}))
        self.acts.say("As the last one: area, container, fate, what held it, what goes on.")

    def _put_before(self, removal_id: int) -> None:
        """What stands in the card goes in there."""
        self._before = removal_id
        self.desk.ask(look_up, self._job_id, removal_id, then=self._known, failed=self._failed)
        self.head.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take_theirs(self) -> None:
        theirs = self.acts.clash
        if theirs is not None:
            self._fill(theirs)
        self.acts.show_correction()

    def _hear(self, change: Change) -> None:
        """New areas and containers are offered, and what became of the entry that is open."""
        if change.job_id not in (0, self._job_id):
            return
        asked = self._wanted if self._wanted is not None else self._before
        mine = asked in change.touched.get("removal", ())
        if mine or any(change.touches(kind) for kind in ("area", "container", "job")):
            self.desk.ask(look_up, self._job_id, asked, then=self._known, failed=self._failed)

    # filling in

    def _apply_tape(self, tape: "Tape") -> None:
        """Only what the line says otherwise than before is put in."""
        self._waiting_tape = None
        said = of_entry(tape.entry, self._names, tape.container_wanted or "")
        names = [
            f.name for f in fields(Draft) if getattr(said, f.name) != getattr(self._tape, f.name)
        ]
        self._tape = said
        self._fill(replace(self.draft, **{name: getattr(said, name) for name in names}))

    def _fill(self, draft: Draft) -> None:
        now = self.draft
        same = [f.name for f in fields(Draft) if getattr(now, f.name) == getattr(draft, f.name)]
        if "name" not in same:
            self.head.name.setText(draft.name)
        if "quantity" not in same:
            self.head.quantity.setText(draft.quantity)
        self.fields.fill(draft, same)

    def _key(self) -> tuple[int, int]:
        return self._job_id, self._wanted or 0

    def _keep_draft(self) -> None:
        """Put what is typed and not logged aside under its entry."""
        loaded = self._wanted is None or self._correction is not None
        pending = self.fields.photos.pending
        opened = self._correction.opened if self._correction else Draft()
        if loaded and self._sent is None and (pending or self.draft != opened):
            self._kept[self._key()] = Kept(self.draft, self._uid, pending)

    def _changed(self) -> None:
        self.acts.say("")

    def _say(self, trouble: Trouble) -> None:
        said = self.head.say(trouble.field, trouble.sentence)
        if not (said or self.fields.say(trouble.field, trouble.sentence)):
            self.acts.say(trouble.sentence, trouble=True)

    def _say_nothing(self) -> None:
        self.head.say_nothing()
        self.fields.say_nothing()
        self.acts.say("")

    # keys, drops and sight

    def keyPressEvent(self, event: QKeyEvent) -> None:
        control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if event.key() in ENTER:
            self.log()
        elif event.key() == Qt.Key.Key_Escape:
            self.leave()
        elif control and event.key() == Qt.Key.Key_D:
            self.as_the_last()
        elif control and Qt.Key.Key_1 <= event.key() <= Qt.Key.Key_4:
            self.fields.fate.choose(FATES[event.key() - Qt.Key.Key_1].value)
        elif event.matches(QKeySequence.StandardKey.Paste) and self.fields.photos.paste():
            event.accept()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if pictures_in(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        self.fields.photos.dropEvent(event)


def _needs_names(tape: "Tape") -> bool:
    return isinstance(tape.entry, Entry) and bool(tape.entry.area_id or tape.entry.container_id)
