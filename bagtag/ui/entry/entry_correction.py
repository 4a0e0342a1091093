"""Keeping a correction, so that nobody's change is written over."""

from PySide6.QtCore import QObject, Signal

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput
from bagtag.ui.desk import Desk
from bagtag.ui.entry.entry_bench import Bench, look_up
from bagtag.ui.entry.entry_draft import Draft, Merged, merge, of_removal, to_entry


class Correction(QObject):
    """One removal as it was opened. Theirs is kept in the fields that only they changed."""

    kept = Signal(object)
    """The Draft that is in the store now."""
    clashed = Signal(object, object)
    """Both changed a field: the Merged, and theirs as a Draft. Sending again keeps mine."""
    failed = Signal(object)

    def __init__(self, desk: Desk, bench: Bench, parent: QObject) -> None:
        super().__init__(parent)
        assert bench.removal is not None
        self._desk = desk
        self._removal = bench.removal
        self.opened = of_removal(bench.removal, bench.names)
        self._mine = self.opened

    def send(self, mine: Draft) -> None:
        """Keep this, unless somebody changed the same fields since."""
        self._mine = mine
        self._desk.ask(
            look_up, self._removal.job_id, self._removal.id, then=self._compare, failed=self._fail
        )

    def follow(self, bench: Bench) -> bool:
        """Take up what is in the store now; False when it is nothing new."""
        assert bench.removal is not None
        now = of_removal(bench.removal, bench.names)
        changed, self.opened = now != self.opened, now
        return changed

    def _compare(self, bench: Bench) -> None:
        assert bench.removal is not None
        theirs = of_removal(bench.removal, bench.names)
        both = merge(self.opened, self._mine, theirs)
        self.opened = theirs
        if both.clashes:
            self.clashed.emit(both, theirs)
        else:
            self._write(both, bench)

    def _write(self, both: Merged, bench: Bench) -> None:
        if both.theirs:
            self._desk.say("This entry was changed elsewhere meanwhile: both changes are kept.")
        self._mine = both.draft
        try:
            entry = to_entry(both.draft, bench.names, self._removal.uid)
        except BadInput as wrong:  # its area was taken out meanwhile
            self.failed.emit(wrong)
            return
        extras = services.strip.Extras(container_wanted=both.draft.container)
        self._desk.act(
            services.strip.correct_removal, self._removal.id, entry, extras,
            then=self._written, failed=self._fail,
        )  # fmt: skip

    def _written(self, _: Change) -> None:
        self.opened = self._mine
        self.kept.emit(self._mine)

    def _fail(self, error: BaseException) -> None:
        self.failed.emit(error)
