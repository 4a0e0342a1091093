"""Which sheets a part of a kind is likely measured on. Common practice, no source."""

from bagtag.domain.kinds import PartKind
from bagtag.domain.measuring.sheet import SheetKind

K = SheetKind

BY_NAME: dict[str, tuple[SheetKind, ...]] = {
    "cylinder": (K.BORE, K.PISTON, K.RING_GAP, K.FLATNESS),
    "cylinder liner": (K.BORE, K.PISTON, K.RING_GAP),
    "hydraulic cylinder": (K.BORE, K.SIZE),
    "engine block": (K.BORE, K.FLATNESS, K.DECK, K.COMPRESSION, K.PISTON),
    "crankcase half": (K.BORE, K.FLATNESS),
    "cylinder head": (K.FLATNESS, K.COMPRESSION, K.VALVES),
    "piston": (K.PISTON, K.DECK, K.RING_GAP),
    "piston ring": (K.RING_GAP,),
    "top ring": (K.RING_GAP,),
    "second ring": (K.RING_GAP,),
    "oil ring": (K.RING_GAP,),
    "crankshaft": (K.JOURNAL, K.RUN_OUT, K.END_FLOAT, K.BEARING),
    "connecting rod": (K.BEARING, K.PLASTIC_GAUGE, K.BORE),
    "rod cap": (K.BEARING, K.PLASTIC_GAUGE),
    "small-end bush": (K.BEARING, K.BORE),
    "gudgeon pin": (K.JOURNAL, K.BEARING),
    "bush": (K.BORE, K.BEARING),
    "bearing shell": (K.PLASTIC_GAUGE, K.BEARING),
    "big-end shell": (K.PLASTIC_GAUGE, K.BEARING),
    "main bearing shell": (K.PLASTIC_GAUGE, K.BEARING),
    "main bearing cap": (K.PLASTIC_GAUGE, K.BEARING),
    "thrust half-ring": (K.END_FLOAT, K.SIZE),
    "flywheel": (K.RUN_OUT, K.FLATNESS),
    "flexplate": (K.RUN_OUT,),
    "balance shaft": (K.JOURNAL, K.RUN_OUT, K.END_FLOAT),
    "camshaft": (K.JOURNAL, K.RUN_OUT, K.SIZE, K.END_FLOAT, K.VALVES),
    "cam cap": (K.PLASTIC_GAUGE, K.BEARING),
    "valve": (K.JOURNAL, K.RUN_OUT, K.SIZE, K.VALVES),
    "valve guide": (K.BORE, K.BEARING),
    "valve shim": (K.VALVES, K.SIZE),
    "tappet": (K.VALVES, K.JOURNAL),
    "rocker": (K.VALVES, K.BEARING),
    "rocker shaft": (K.JOURNAL, K.BEARING),
    "pushrod": (K.RUN_OUT, K.SIZE),
    "head gasket": (K.COMPRESSION, K.DECK),
    "base gasket": (K.DECK, K.COMPRESSION),
    "shim": (K.STACK, K.SIZE),
    "thrust washer": (K.END_FLOAT, K.STACK, K.SIZE),
    "spacer": (K.SIZE, K.STACK),
    "bevel gear": (K.BACKLASH, K.STACK),
    "worm": (K.BACKLASH, K.END_FLOAT),
    "differential": (K.BACKLASH, K.RUN_OUT, K.STACK),
    "timing gear": (K.BACKLASH, K.END_FLOAT),
    "crank gear": (K.BACKLASH,),
    "plain plate": (K.FLATNESS, K.SIZE),
    "clutch plate": (K.SIZE, K.FLATNESS),
    "pressure plate": (K.FLATNESS, K.SIZE),
    "oil-pump rotor": (K.SIZE, K.END_FLOAT),
    "oil-pump gear": (K.BACKLASH, K.SIZE, K.END_FLOAT),
    "synchro ring": (K.SIZE,),
    "shift fork": (K.SIZE,),
    "wheel hub": (K.RUN_OUT, K.BORE),
}
_BY_WORD: tuple[tuple[str, tuple[SheetKind, ...]], ...] = (
    ("spring", (K.SPRING,)),
    ("shaft", (K.JOURNAL, K.RUN_OUT, K.END_FLOAT)),
    ("axle", (K.RUN_OUT, K.JOURNAL)),
    ("gear", (K.BACKLASH, K.SIZE)),
    ("bearing", (K.END_FLOAT, K.SIZE)),
    ("housing", (K.BORE, K.FLATNESS)),
    ("half", (K.FLATNESS, K.BORE)),
    ("cover", (K.FLATNESS,)),
    ("flange", (K.RUN_OUT, K.FLATNESS)),
    ("pin", (K.JOURNAL, K.SIZE)),
    ("rail", (K.RUN_OUT, K.JOURNAL)),
)


def likely(kind: PartKind | None) -> tuple[SheetKind, ...]:
    """The sheets that a part of this kind is likely measured on, the likeliest first. Any part may
    have its one size measured."""
    found = _named(kind.name) if kind is not None else ()
    return tuple(dict.fromkeys((*found, K.SIZE)))


def in_order(kind: PartKind | None) -> tuple[SheetKind, ...]:
    """Every kind of sheet, the likely ones first."""
    return tuple(dict.fromkeys((*likely(kind), *SheetKind)))


def _named(name: str) -> tuple[SheetKind, ...]:
    if name in BY_NAME:
        return BY_NAME[name]
    return next((kinds for word, kinds in _BY_WORD if word in name.split()), ())
