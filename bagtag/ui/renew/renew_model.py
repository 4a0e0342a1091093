"""The lines of Renew as rows to walk: headings are passed over."""

from __future__ import annotations

from typing import Any

from bagtag.ui.forms.walked_list import WalkedRows
from bagtag.ui.renew.renew_lines import Heading, Key, key_of, pieces
from bagtag.ui.renew.renew_signs import Stand, stand_of
from bagtag.ui.renew.renew_words import under


class RenewModel(WalkedRows):
    def spoken(self, line: Any) -> str:
        if isinstance(line, Heading):
            return ", ".join(filter(None, (line.title, line.said)))
        return ", ".join(filter(None, (pieces(line.new_part), stand_of(line).value, under(line))))

    def is_heading(self, line: Any) -> bool:
        return isinstance(line, Heading)

    def place_of(self, key: Key) -> int | None:
        lines = self.lines
        return next((n for n in self.places() if key_of(lines[n]) == key), None)

    def place_of_part(self, removal_id: int) -> int | None:
        """Where a part's own line stands; where it has none, the first for its hardware."""
        parts = [(place, self.lines[place].new_part) for place in self.places()]
        mine = [(bool(one.line), at) for at, one in parts if one.removal_id == removal_id]
        return min(mine)[1] if mine else None

    def stand_at(self, place: int) -> Stand:
        return stand_of(self.lines[place])
