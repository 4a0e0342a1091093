"""Which-way facts as sentence and picture, worked out once for all steps that sit alike."""

from bagtag.domain.picture import draw
from bagtag.domain.sentence import sentence
from bagtag.domain.shapes import Picture
from bagtag.domain.which_way import Fact
from bagtag.paper.checklist_text import ChecklistStep

_Key = tuple[tuple[Fact, ...], int]


class Told:
    """Kept for one checklist: its steps hold on to their datums, so that one is known by its id."""

    def __init__(self) -> None:
        self._sentences: dict[_Key, str] = {}
        self._pictures: dict[_Key, Picture] = {}

    def sentence(self, step: ChecklistStep) -> str:
        """In words; nothing for no facts."""
        if not step.facts:
            return ""
        key = self.key(step)
        if key not in self._sentences:
            self._sentences[key] = sentence(step.facts, step.datum)
        return self._sentences[key]

    def picture(self, step: ChecklistStep, aspect: float) -> Picture:
        """Drawn `aspect` times as wide as high."""
        key = self.key(step)
        if key not in self._pictures:
            self._pictures[key] = draw(step.facts, step.datum, aspect=aspect)
        return self._pictures[key]

    @staticmethod
    def key(step: ChecklistStep) -> _Key:
        """What two steps have in common that sit alike."""
        return step.facts, id(step.datum)
