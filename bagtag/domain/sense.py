"""Whether a torque can be right for its thread.

It catches slips of the keys and no more: what it finds is asked, never refused, and the maker's
manual wins. That a figure lies between the limits does not make it right.
"""

import re

from bagtag.domain import clamp
from bagtag.domain.clamp import Sense
from bagtag.domain.friction import friction
from bagtag.domain.hardware import HeldBy
from bagtag.domain.passes import by_angle
from bagtag.domain.sealing import is_hollow, only_seals
from bagtag.domain.strength import WEAKEST, strength
from bagtag.domain.threads import Threads
from bagtag.domain.torque import Torque
from bagtag.domain.torque_pairs import mismatch
from bagtag.domain.torque_slips import meant
from bagtag.domain.torque_words import said

__all__ = ["Sense", "questions", "sense", "unknown_thread"]

MOST = 0.95
"""Of the proof load, at the usual friction: bolts are tightened to about three quarters of it (SAE
J429 torque-tension table), and no torque alone goes up to it (common practice, no source)."""
LEAST = 0.1
"""Of the proof load: what a lost decimal leaves of a bolt that is tightened right up to it."""


LEAST_OF_A_SEAL = 0.02
"""Of the proof load: a plug, a banjo bolt, a spark plug or a set screw seals, sits or points, and
is tightened far below what it could clamp with (common practice, no source)."""
MOST_OF_A_SEAL = 380.0
"""MPa: a plug without a class is asked about from the proof stress of class 5.8 up, at the usual
friction (common practice, no source)."""


def sense(line: HeldBy, threads: Threads) -> Sense | None:
    """What the torque of a line of hardware means; None without a torque or a known thread."""
    thread = threads.find(line.thread)
    if line.torque is None or line.torque.value <= 0 or thread is None:
        return None
    return clamp.of(line.torque, thread, strength(line.grade, thread), friction(_on_thread(line)))


def _on_thread(line: HeldBy) -> str:
    return line.lubrication or ("threadlocker" if line.threadlocker else "")


def questions(line: HeldBy, threads: Threads) -> tuple[str, ...]:
    """What to ask about the figures of a line of hardware, a sentence or two each: never more than
    a question, for the manual wins."""
    if line.torque is None or line.torque.value <= 0:
        return ()
    asked = (
        _thread(line, threads),
        _figure(line, threads),
        mismatch(line.torque, line.also),
        _drag(line.torque, line.drag),
        _one_time(line),
    )
    return tuple(filter(None, asked))


# --- the thread

_OUTSIDE = re.compile(r"bs|npt|\bg\s*\d|\br[cp]?\s*\d|\btr\s*\d|pipe|unef|\bpg", re.IGNORECASE)


def unknown_thread(text: str, threads: Threads) -> str:
    """One sentence where a thread is none of the known ones, with what to write; else nothing."""
    if not text.strip() or threads.find(text) is not None:
        return ""
    same = threads.of_size(text)
    if same and not _OUTSIDE.search(text):
        names = ", ".join(one.name for one in same)
        return f"{text.strip()} is no known thread; of that size there are {names}."
    return (
        f"{text.strip()} is not among the known threads, M3 to M24 and No. 4 to 1 in, so its "
        "torque cannot be checked. Metric ones are written M8 or M8x1, inch ones 3/8-16 or 1/4 UNF."
    )


def _thread(line: HeldBy, threads: Threads) -> str:
    """Only what looks like a slip is asked: a pipe thread or a large one is none."""
    is_other = _OUTSIDE.search(line.thread) or (
        re.search(r"\d", line.thread) and not threads.of_size(line.thread)
    )
    return "" if is_other else unknown_thread(line.thread, threads)


# --- the figure

_KEEP = "Keep it if the manual says so."


def _figure(line: HeldBy, threads: Threads) -> str:
    found = sense(line, threads)
    if found is None or line.torque is None:
        return ""
    turned = line.angle is not None or by_angle(line)
    least = LEAST_OF_A_SEAL if only_seals(line) else LEAST
    wrong = _too_high(line, line.torque, found) or (
        "" if turned else _too_low(line.torque, found, least)
    )
    return f"{wrong} {meant(line, found)}{_KEEP}" if wrong else ""


def _too_high(line: HeldBy, torque: Torque, found: Sense) -> str:
    name = found.thread.name
    if found.strength is None and is_hollow(line):
        much = found.usual * WEAKEST > MOST_OF_A_SEAL
        return (
            f"{said(torque)} is much for a {line.kind} {name}, even of class 5.8." if much else ""
        )
    if found.strength is None:
        too_high = found.share_low > 1
        return f"{said(torque)} on {name} is more than even class 12.9 bears." if too_high else ""
    if found.usual <= MOST:
        return ""
    return f"{said(torque)} would load {_bolt(found)} to about {_share(found.usual)} proof load."


def _too_low(torque: Torque, found: Sense, least: float) -> str:
    share = found.share_high if found.strength is None else found.usual
    if share >= least:
        return ""
    return f"{said(torque)} would hardly tighten {_bolt(found)}: {_share(share)} proof load."


def _bolt(found: Sense) -> str:
    known = found.strength.called if found.strength else "even of class 4.6"
    return f"{found.thread.name} ({known}, {found.friction.called})"


def _share(share: float) -> str:
    """`74 % of its`, `7 times its`, as large figures are read."""
    if share >= 2:
        return f"{share:.0f} times its"
    return f"{share * 100:.0f} % of its" if share >= 0.01 else "under 1 % of its"


# --- drag and new bolts


def _drag(torque: Torque, drag: Torque | None) -> str:
    if drag is None or drag.newton_metres() <= torque.newton_metres():
        return ""
    return (
        f"The drag of {said(drag)} is more than the torque of {said(torque)} that it is added to. "
        "Are the two the wrong way round, or is a unit wrong?"
    )


_YIELD = re.compile(r"\byield|\btty\b|\bstretch(?:ing)?[- ]bolt", re.IGNORECASE)


def _one_time(line: HeldBy) -> str:
    words = "\n".join((line.kind, line.grade, line.locking, line.note))
    if line.one_time or not _YIELD.search(words):
        return ""
    return (
        "Bolts tightened to yield are not used again, and these are not marked as new each time. "
        "Mark them so, unless the manual lets them go back."
    )
