"""What is said of a build as it stands."""

from typing import TYPE_CHECKING

from bagtag.domain.standing import Keeps, Standing

if TYPE_CHECKING:
    from bagtag.services.board import Board, Step


def progress_words(done: int, of: int) -> str:
    if not of:
        return "Nothing to build yet"
    return "Everything is back in" if done == of else f"{done} of {of} fitted"


def waiting_words(board: "Board", *, brief: bool = False) -> str:
    """`4 can go in now. 5 wait: 2 for a new part, 1 to be decided, 2 for earlier steps.`; brief,
    those that wait for earlier steps alone are counted and no more."""
    steps = board.steps
    if not steps:
        return "Log what comes off under Strip; the build is that log, turned round."
    ready = sum(step.standing is Standing.NEXT for step in steps)
    said = f"{ready} can go in now." if ready else ""
    reasons = [word for word in map(_reason, steps) if word]
    kinds = [f"{reasons.count(word)} {word}" for word in REASONS if word in reasons]
    if not reasons:
        return said or "Every step is signed off. Close the job next."
    verb = "waits" if len(reasons) == 1 else "wait"
    if brief:
        own = [kind for kind in kinds if not kind.endswith(REASONS[-1])]
        return f"{said} {', '.join([f'{len(reasons)} {verb}', *own])}.".strip()
    return f"{said} {len(reasons)} {verb}: {', '.join(kinds)}.".strip()


REASONS = (
    "away",
    "for a new part",
    "to be worked",
    "to be measured",
    "to be decided",
    "for earlier steps",
)
OF_ITS_OWN = {
    Keeps.NEW_PART: "for a new part",
    Keeps.WORK: "to be worked",
    Keeps.MEASURING: "to be measured",
    Keeps.DECISION: "to be decided",
}


def _reason(step: "Step") -> str:
    """Why a step waits, in one word; the part's own reasons first."""
    if step.standing is Standing.AWAY:
        return "away"
    if step.standing is not Standing.WAITS:
        return ""
    keeps = {hindrance.keeps for hindrance in step.hindrances}
    own = (word for kept, word in OF_ITS_OWN.items() if kept in keeps)
    return next(own, "for earlier steps")
