"""What a traveller says: plain rows, no PDF."""

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from bagtag.domain.money import money
from bagtag.domain.phrases import capital, listed
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import Item
from bagtag.domain.shapes import Picture

CAUTIONS = (
    "Bag and label every part that is taken out or off, and send it back with this sheet.",
    "Blow out and wash every oil way after machining: chips left inside ruin the engine.",
    "Wear eye protection, and keep part and sheet together: the sheet is the parts' list.",
)
"""Cautions that go with parts to a shop (common practice, no source). The manual's word stands at
the foot of every page."""


@dataclass(frozen=True, slots=True)
class TravellerPart:
    """One part that goes, with its picture: a photo, or how it sits; `pieces` are what the shop
    takes off it."""

    item: Item
    photo: Path | None = None
    picture: Picture = field(default_factory=Picture)
    pieces: tuple[Item, ...] = ()


@dataclass(frozen=True, slots=True)
class Traveller:
    """The sheet that goes with a batch to its shop and comes back with it."""

    send_out: SendOut
    job: str
    printed: date
    owner: str = ""
    parts: tuple[TravellerPart, ...] = ()

    @property
    def packed(self) -> int:
        """How many pieces are handed over, what is still in them not counted."""
        return sum(part.item.removal.quantity for part in self.parts)

    @property
    def by_shop(self) -> int:
        """How many pieces the shop takes off them."""
        return sum(piece.removal.quantity for part in self.parts for piece in part.pieces)


def counted(sheet: Traveller) -> str:
    """`2 pieces go out. The shop takes 5 off them: 7 come back.`"""
    packed, by_shop = sheet.packed, sheet.by_shop
    out = f"{packed} piece{'s go' if packed != 1 else ' goes'} out"
    if not by_shop:
        return f"{out}, and {packed} come{'s' * (packed == 1)} back."
    off = "them" if packed != 1 else "it"
    return f"{out}. The shop takes {by_shop} off {off}: {packed + by_shop} come back."


def called(item: Item) -> str:
    """`cylinder barrel`, `stud, 4 pieces`"""
    removal = item.removal
    return removal.name if removal.quantity == 1 else f"{removal.name}, {removal.quantity} pieces"


def off_words(item: Item) -> str:
    """`Taken off already, not in this batch: 11 inlet valve and 12 exhaust valve.`"""
    return f"Taken off already, and not with it: {listed(item.off)}." if item.off else ""


def state_words(item: Item) -> str:
    """What is to be said of a part that is back."""
    if item.away.back_at is None:
        return ""
    who = f", checked by {item.away.back_by}" if item.away.back_by else ""
    return f"Back since {item.away.back_at:%Y-%m-%d}{who}."


def price_words(send_out: SendOut) -> str:
    """`Price as named: 120.00 EUR`, or nothing."""
    if send_out.price is None:
        return ""
    return f"Price as named: {money(send_out.price, send_out.currency)}"


def packed_by(send_out: SendOut) -> str:
    """Whom the shop can ask what is meant."""
    return f"Packed by {send_out.made_by}." if send_out.made_by else ""


def work_words(item: Item, send_out: SendOut) -> str:
    """What is wanted of a part; where it has none of its own, that of the whole batch holds."""
    if item.away.work.strip():
        return capital(item.away.work.strip())
    return (
        "Work as for the whole send-out."
        if send_out.work
        else "No work is written down: ask first."
    )
