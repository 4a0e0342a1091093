"""Renew: everything that is not used again, and where its new part stands."""

from collections.abc import Sequence
from enum import StrEnum

from bagtag import services
from bagtag.domain.model import Fate, Removal, Replacement
from bagtag.ui.stages.stage_rows import Word
from bagtag.ui.stages.stage_settle import SettleStage


class RenewStage(SettleStage):
    title = "Renew"
    fate = Fate.RENEW
    words = (
        Word(Replacement.WANTED, "wanted", "w"),
        Word(Replacement.ORDERED, "ordered", "o"),
        Word(Replacement.HERE, "here", "h"),
    )
    empty_words = (
        "Nothing is to be renewed",
        "Gaskets, circlips and what Measure decides come here. "
        "What is still to be decided stands under Measure.",
    )

    def now(self, removal: Removal) -> StrEnum:
        return removal.replacement

    def head_words(self, found: Sequence[Removal]) -> str:
        """`5 to renew: 3 wanted, 1 ordered, 1 here`"""
        states = [removal.replacement for removal in found]
        kinds = [f"{states.count(state)} {state.value}" for state in Replacement if state in states]
        if kinds and states.count(Replacement.HERE) == len(found):
            return f"All {len(found)} new parts are here"
        return f"{len(found)} to renew: {', '.join(kinds)}"

    def settle(self, removal_id: int, value: StrEnum) -> None:
        self.desk.act(services.fates.set_replacement, [removal_id], Replacement(value))
