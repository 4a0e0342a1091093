"""What the audit page says: the large line above, and what one key does about each finding."""

from __future__ import annotations

from typing import NamedTuple

from bagtag.domain.audit_finding import Finding, Lack

HELP = "Worst first. Enter goes to where it is mended."
PHOTO_HELP = "Shift+Down or Ctrl+A chooses more: one photo of a tray shows many parts."
LOOKING = "Looking through the log…"
NOTHING_LOGGED = (
    "Nothing is logged yet",
    "Write the first part on the strip as you would on tape; "
    "the audit then says what is still missing.",
)


class ActWord(NamedTuple):
    """What Enter does: on its button, and on the piece of tape."""

    large: str
    small: str


_ACTS = {
    Lack.TAG: ActWord("Print all tags", "print all tags"),
    Lack.PHOTO: ActWord("Open the photos", "open its photos"),
    Lack.OPENER: ActWord("What opens it…", "say what opens it"),
    Lack.MIXED: ActWord("Show the container", "show the container"),
}


def act_of(finding: Finding) -> ActWord:
    if finding.questions:
        return ActWord("Answer it", "answer it")
    return _ACTS.get(finding.lack, ActWord("Open the entry", "open the entry"))


def head_words(found: int, looked_at: int) -> str:
    """`14 things to see to`; `Nothing is missing. 60 entries looked at.`"""
    if found:
        return f"{found} thing{'s' * (found != 1)} to see to"
    return f"Nothing is missing. {entries(looked_at)} looked at."


def calm_words(looked_at: int) -> tuple[str, str]:
    """What stands there when nothing is missing."""
    return head_words(0, looked_at), "The bench may be cleared."


def entries(count: int) -> str:
    return f"{count} entr{'y' if count == 1 else 'ies'}"
