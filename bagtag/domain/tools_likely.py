"""Which tool most likely turns a fastener whose drive nobody wrote: from its thread and head.

The sizes of socket screws other than cap screws are from memory: countersunk and button heads as
ISO 10642 and ISO 7380, grub screws as ISO 4026.
"""

import re

from bagtag.domain.hardware import HeldBy
from bagtag.domain.threads import Thread
from bagtag.domain.tools_drive import Form, Grip

_SHALLOW = {
    "M3": "2", "M4": "2.5", "M5": "3", "M6": "4", "M8": "5", "M10": "6", "M12": "8", "M16": "10",
}  # fmt: skip
_GRUB = {"M3": "1.5", "M4": "2", "M5": "2.5", "M6": "3", "M8": "4", "M10": "5", "M12": "6"}
FLANGE = "A flange head is often a size smaller than the plain hexagon: look before you lay out."
NUT = "On a stud it is for the nut; the stud itself takes two nuts locked together, or its driver."


def likely(line: HeldBy, thread: Thread | None) -> Grip | None:
    """The grip that fits the thread's usual head; None where the head may be one of several."""
    if thread is None:
        return None
    said = f"{line.head} {line.kind} {line.drive}".casefold()
    if re.search(r"\bgrub", said):
        return _key(_GRUB.get(thread.size))
    if re.search(r"\bbutton|\bcountersunk|\bcsk", said):
        has_recess = re.search(r"\bsocket|\bhex|\ballen|\bbutton|\bbolt", said)
        return _key(_SHALLOW.get(thread.size)) if has_recess else None
    if re.search(r"\bsocket|\bcap (?:screw|head)|\bcap\b(?! nut)|\ballen|\bkey", said):
        return _of(Form.KEY, thread.key)
    return _hexagon(said, thread)


def _hexagon(said: str, thread: Thread) -> Grip | None:
    if not re.search(r"\bhex|\bbolt|\bnut|\bstud|\bflange|\bset ?screw", said):
        return None
    note = FLANGE if re.search(r"\bflange", said) else NUT if re.search(r"\bstud", said) else ""
    if not note and thread.across_flats_also:
        note = f"Take {thread.across_flats_also} too: both are met on {thread.size}."
    return _of(Form.HEXAGON, thread.across_flats, note)


def _key(size: str | None) -> Grip | None:
    return _of(Form.KEY, f"{size} mm" if size else "")


def _of(form: Form, size: str, note: str = "") -> Grip | None:
    return Grip(form, size, is_likely=True, note=note) if size else None
