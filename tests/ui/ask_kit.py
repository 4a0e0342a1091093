"""What the tests of the asking share: kinds of parts of our own, a key that comes alone."""

from bagtag.ui.forms.lone_keys import QUIET
from tests.ui.forms_kit import write

KINDS = """
["oil seal"]
also = ["lip seal"]
asks = [
  { fact = "faces", feature = "lip", ask = "Which way does the lip with the spring face?", \
    choices = ["inward", "outward"] },
  { fact = "seat", ask = "How deep does it sit?", choices = ["flush", "below", "shoulder"] },
]
goes_wrong = "Fitted back to front it leaks at once."
renew = "always"
why = "The lip has worn to its shaft."
home = "Flush with the housing all round."
together = ["shaft"]
size = "shaft x housing x width"

["piston"]
asks = [
  { fact = "faces", feature = "arrow", ask = "Which way does the arrow on the crown face?", \
    choices = ["front", "rear", "left", "right"] },
  { fact = "clocking", feature = "gap", ask = "Where does the gap of the top ring stand?" },
  { fact = "place", feature = "cylinder", ask = "Which cylinder is it from?" },
]
goes_wrong = "Turned about, the valves hit its pockets."
renew = "on condition"
why = "Scuffed or out of size it is done."
home = "The pin slides by hand."

["shift fork"]
asks = [{ fact = "hand", ask = "Which hand is it?" }]
goes_wrong = "The wrong fork binds."
renew = "on condition"
why = "The pads wear."
home = "It slides freely."
"""


def lone(qtbot, key: str) -> None:
    """A key by itself, as a person presses it."""
    write(key)
    qtbot.wait(QUIET + 40)


def panel(card):
    return card.fields.asks.panel
