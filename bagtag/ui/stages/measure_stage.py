"""Measure: everything that has to be inspected or measured before it may go back, and decided."""

from collections.abc import Sequence
from enum import StrEnum

from bagtag import services
from bagtag.domain.model import Fate, Removal
from bagtag.ui.stages.stage_rows import Word
from bagtag.ui.stages.stage_settle import SettleStage


class MeasureStage(SettleStage):
    title = "Measure"
    fate = Fate.DECIDE
    words = (
        Word(Fate.REFIT, "refit", "r"),
        Word(Fate.RENEW, "renew", "n"),
        Word(Fate.SCRAP, "scrap", "s"),
    )
    empty_words = (
        "Nothing is left to decide",
        "Mark a part as to be decided when it is logged, and it waits here. Renew comes next.",
    )
    hint = (
        "Measure against the limits in the maker's manual. Tab goes from part to part; "
        "the letter on a button presses it."
    )

    def now(self, removal: Removal) -> StrEnum | None:
        return None

    def head_words(self, found: Sequence[Removal]) -> str:
        return f"{len(found)} to inspect or measure, and decide"

    def settle(self, removal_id: int, value: StrEnum) -> None:
        self.desk.act(services.fates.set_fate, [removal_id], Fate(value))
