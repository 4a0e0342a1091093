"""Fasteners that do not clamp a joint: what seals, sits or points has other torques."""

import re

from bagtag.domain.hardware import HeldBy

_HOLLOW = re.compile(r"plug|banjo|hollow|sensor|sender|switch|nipple|bleed|\bjet")
_SITS = re.compile(r"union|adapter|\bset ?screw|grub|adjust|jam nut|lock ?nut")
_SEALING_WASHER = re.compile(r"copper|alu|crush|seal|bonded|fibre|fiber")


def is_hollow(line: HeldBy) -> bool:
    """A plug, a banjo bolt, a spark plug, a sensor: never as strong as a bolt can be."""
    return _HOLLOW.search(line.kind.casefold()) is not None


def only_seals(line: HeldBy) -> bool:
    """What is tightened until it seals or sits, far below what its thread could clamp with: a plug,
    a union, a set screw, anything on a sealing washer."""
    seals = _SEALING_WASHER.search(line.washer.casefold()) or _SITS.search(line.kind.casefold())
    return is_hollow(line) or seals is not None
