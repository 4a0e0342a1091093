"""Any story between strip and build: what is away, on order, unmeasured or undecided is never shown
as ready; a refusal leaves everything as it was; and all of it can be undone."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory

import hypothesis.strategies as st
from hypothesis import settings
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import part
from bagtag.domain.measuring.sheet import Limits, Reading, SheetKind
from bagtag.domain.model import Fate, Replacement
from bagtag.domain.sending import Back, PackForm, ShopPart, Wanted
from bagtag.domain.standing import Reach, Standing
from bagtag.services.jobs import JobForm
from bagtag.services.planning import planned
from bagtag.services.signing import SignForm
from bagtag.store.work import Store
from tests.store.rows_kit import all_rows

TODAY = date.today()
NAMES = ("case", "crankshaft", "bearing", "cylinder", "gasket")
WHICH = st.integers(0, len(NAMES) + 2)
"""Some of these are parts that a shop takes off later, and some are not there at all."""
FATES = st.sampled_from(list(Fate))
SIZES = st.sampled_from([Decimal(text) for text in ("49.90", "49.99", "50.00", "50.02")])
DAYS = st.integers(0, 9).map(lambda days: TODAY + timedelta(days=days))


class Between(RuleBasedStateMachine):
    """One job of five parts and what the shops take off them."""

    @initialize()
    def open_job(self) -> None:
        self.folder = TemporaryDirectory(prefix="bagtag-between-")
        self.store = Store.in_folder(Path(self.folder.name))
        self.job_id = services.jobs.open_job(self.store, JobForm("Walking tractor")).new_id
        for name in NAMES:
            services.strip.log_removal(self.store, self.job_id, Entry(name))
        ids = services.strip.log_ids(self.store, self.job_id)
        for kind, part_id in ((SheetKind.SIZE, ids[1]), (SheetKind.END_FLOAT, ids[2])):
            services.measuring.add_sheet(self.store, self.job_id, kind, part_id)
        services.fates.set_fate(self.store, [ids[4]], Fate.RENEW)
        wanted = Wanted(ids[3], "bore", by_shop=(ShopPart("jet", 3),))
        form = PackForm("Mill Lane", TODAY, TODAY)
        services.send_outs.send(self.store, self.job_id, form, [wanted])
        self.start = self.rows()
        self.done: list[dict] = []

    def teardown(self) -> None:
        if hasattr(self, "store"):
            while self.done:
                services.history.undo(self.store, self.job_id)
                assert self.rows() == self.done.pop()
            assert self.rows() == self.start
            assert services.check.check(self.store).sound
            self.store.close()
            self.folder.cleanup()

    def rows(self) -> dict[str, list[dict]]:
        return all_rows(self.store)

    def act(self, do) -> None:
        before = self.rows()
        try:
            change = do()
        except Trouble:
            assert self.rows() == before
            return
        if change.journal_id:
            self.done.append(before)

    def part_at(self, place: int) -> int:
        ids = services.strip.log_ids(self.store, self.job_id)
        return ids[place] if place < len(ids) else 10_000

    def line_of(self, removal_id: int):
        lines = services.renewals.lines(self.store, self.job_id)
        return next((one.new_part for one in lines if one.new_part.removal_id == removal_id), None)

    def sheets(self) -> list:
        rows = services.measuring.for_stage(self.store, self.job_id)
        return [one.sheet for row in rows for one in row.sheets]

    @rule(which=st.lists(WHICH, min_size=1, max_size=2), due=DAYS, takes=st.integers(0, 2))
    def send(self, which: list[int], due: date, takes: int) -> None:
        form = PackForm("Mill Lane", TODAY, due)
        off = tuple(ShopPart("jet") for _ in range(takes))
        wanted = [Wanted(self.part_at(one), "bore", by_shop=off) for one in which]
        self.act(lambda: services.send_outs.send(self.store, self.job_id, form, wanted))

    @rule(which=st.integers(0, 3), decide=st.booleans())
    def back(self, which: int, decide: bool) -> None:
        batches = services.send_outs.batches(self.store, self.job_id)
        out = [item for batch in batches for item in batch.out]
        if out:
            named = [Back(out[which % len(out)].away.id, note="looked at", decide=decide)]
            self.act(lambda: services.send_outs.back(self.store, named))

    @rule(which=WHICH, fate=FATES)
    def set_fate(self, which: int, fate: Fate) -> None:
        self.act(lambda: services.fates.set_fate(self.store, [self.part_at(which)], fate))

    @rule(which=WHICH, due=DAYS)
    def order(self, which: int, due: date) -> None:
        line = self.line_of(self.part_at(which))
        if line is not None:
            self.act(lambda: services.renewals.order(self.store, [line], TODAY, due))

    @rule(which=WHICH)
    def arrive(self, which: int) -> None:
        line = self.line_of(self.part_at(which))
        if line is not None:
            self.act(lambda: services.renewals.arrive(self.store, line, 1, TODAY))

    @rule(which=WHICH, is_same=st.booleans())
    def compare(self, which: int, is_same: bool) -> None:
        line = self.line_of(self.part_at(which))
        if line is not None:
            self.act(
                lambda: services.renewals.compare(self.store, line, is_same, "by eye", who="Ada")
            )

    @rule(which=WHICH, kind=st.sampled_from([SheetKind.SIZE, SheetKind.END_FLOAT]))
    def add_sheet(self, which: int, kind: SheetKind) -> None:
        part_id = self.part_at(which)
        self.act(lambda: services.measuring.add_sheet(self.store, self.job_id, kind, part_id))

    @rule(which=st.integers(0, 3), size=SIZES)
    def read(self, which: int, size: Decimal) -> None:
        if sheets := self.sheets():
            sheet = sheets[which % len(sheets)]
            form = services.measuring.view(self.store, sheet.id).form
            limits = Limits(form.figures[0].key, wear_high=Decimal(50))
            self.act(lambda: services.measuring.save(self.store, replace(sheet, limits=(limits,))))
            reading = Reading(form.places[0].key, size, "mm", "micrometer", Decimal("0.01"))
            self.act(lambda: services.measuring.take_reading(self.store, sheet.id, reading))

    @rule(which=st.integers(0, 3), fate=FATES, why=st.sampled_from(["", "the manual allows it"]))
    def decide(self, which: int, fate: Fate, why: str) -> None:
        if sheets := self.sheets():
            id_ = sheets[which % len(sheets)].id
            self.act(lambda: services.measuring.decide(self.store, id_, fate, why=why, who="Ada"))

    @rule(which=st.integers(0, 3))
    def undecide(self, which: int) -> None:
        if sheets := self.sheets():
            id_ = sheets[which % len(sheets)].id
            self.act(lambda: services.measuring.undecide(self.store, id_))

    @rule(which=WHICH)
    def sign(self, which: int) -> None:
        ref, form = part(self.part_at(which)), SignForm(reason="it must go on")
        self.act(lambda: services.signing.sign(self.store, ref, form, who="Ada"))

    @rule(which=WHICH)
    def delete(self, which: int) -> None:
        if len(services.strip.log_ids(self.store, self.job_id)) >= len(NAMES):
            self.act(lambda: services.strip.delete_removal(self.store, self.part_at(which)))

    @invariant()
    def what_is_not_here_or_not_decided_is_never_ready(self) -> None:
        if not hasattr(self, "store"):
            return
        out = {removal.id for removal, _ in services.fates.away_list(self.store, self.job_id)}
        undecided = {
            sheet.removal_id
            for sheet in self.sheets()
            if sheet.decision is None and not sheet.kind.is_at_build
        }
        roots = planned(self.store, self.job_id).now.roots
        for step in services.board.board(self.store, self.job_id).steps:
            removal = services.strip.get_removal(self.store, step.ref.id)
            renews = removal.fate is Fate.RENEW
            held = removal.id in out or removal.fate is Fate.DECIDE
            held |= renews and removal.replacement is not Replacement.HERE
            held |= removal.id in undecided and not renews
            if step.sign_off is None and held:
                assert step.standing not in (Standing.NEXT, Standing.IN)
                assert step.reach is Reach.WAITS
                assert step.ref in roots[step.ref]

    @invariant()
    def where_a_new_part_stands_is_told_alike_everywhere(self) -> None:
        if not hasattr(self, "store"):
            return
        for line in services.renewals.lines(self.store, self.job_id):
            if line.new_part.id and line.removal is not None and not line.new_part.line:
                assert line.removal.replacement is line.new_part.state


TestBetween = Between.TestCase
TestBetween.settings = settings(
    derandomize=True, max_examples=25, stateful_step_count=30, deadline=None, database=None
)
