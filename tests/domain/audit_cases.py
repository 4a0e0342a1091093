"""A small gearbox of which nothing is missing, and the kinds of its parts."""

from dataclasses import replace
from pathlib import Path

from bagtag import resources
from bagtag.domain.audit import Stripped, audit
from bagtag.domain.datum import Datum, Side
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.kinds import Kinds, Pair, PartKind, Question, Renewal
from bagtag.domain.model import Area, Container, ContainerKind, Fate, Removal
from bagtag.domain.threads import read
from bagtag.domain.which_way import Faces, Hand, OtherPart, Outness, Place, SameWay, Without

LIP = Question("faces", "Which way does the lip face?", "lip")
DEPTH = Question("seat", "How deep does it sit?", must=False)
CHAMFER = Question("faces", "Which way does the chamfer face?", "chamfer")
NUMBER = Question("place", "Which cylinder?", "cylinder")
KINDS = Kinds(
    [
        PartKind("oil seal", asks=(LIP, DEPTH), renew=Renewal.ALWAYS, why="The lip has hardened."),
        PartKind("shift fork", asks=(CHAMFER,), pair=Pair.MIRROR),
        PartKind("bearing", asks=(Question("faces", "Which way does OUT face?", "OUT"),)),
        PartKind("piston", asks=(NUMBER,)),
        PartKind("bolt", threaded=True, also=("screw",)),
        PartKind("cover"),
        PartKind("gear"),
    ]
)
DATUM = Datum("standing behind it", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"})
AREAS = (
    Area(1, 1, "outside", is_open=True),
    Area(2, 1, "gearbox", opener_id=1),
    Area(3, 1, "selector", parent_id=2),
)
BAGS = tuple(Container(n, 1, ContainerKind.BAG, str(n)) for n in range(1, 5))
TIGHT = HeldBy(6, "bolt", "M6", 30, torque=Torque(10))


def part(number, name, *facts, **fields):
    return Removal(
        id=number,
        uid=f"u{number}",
        job_id=1,
        number=str(number),
        position=number * 1024,
        name=name,
        which_way=facts,
        **({"area_id": 3} | fields),
    )


FORK = Faces("chamfer", Side.RIGHT)
PARTS = (
    part(1, "gearbox cover", area_id=1, held_by=(TIGHT,), container_id=1),
    part(2, "oil seal", Faces("lip", Outness.INWARD), fate=Fate.RENEW, container_id=2),
    part(3, "shift fork L", Hand("L"), Faces("chamfer", Side.LEFT), Place(1, 3, Side.LEFT)),
    part(4, "shift fork C", Faces("chamfer", Side.RIGHT), Place(2, 3, Side.LEFT), area_id=3),
    part(5, "shift fork R", Hand("R"), FORK, Place(1, 3, Side.RIGHT), container_id=1),
    part(6, "bearing", SameWay(OtherPart("the other bearing", "u7")), container_id=3),
    part(7, "bearing", Faces("OUT", OtherPart("gear", "u8")), container_id=3),
    part(8, "gear", Without(), container_id=3),
    part(9, "widget", Without(), fate=Fate.RENEW, container_id=4),
    part(10, "oil jet", Faces("hole", Side.TOP), area_id=None),
    part(11, "gizmo", Faces("dot", Side.TOP), area_id=1),
    part(12, "old shim", fate=Fate.SCRAP, held_by=(HeldBy(None),), container_id=4),
)
ALL = frozenset(p.id for p in PARTS if p.fate is not Fate.SCRAP)
THREADS = read((Path(resources.find("threads.toml"))).read_text("utf-8"), "threads.toml")
WHOLE = Stripped(PARTS, AREAS, BAGS, DATUM, KINDS, photographed=ALL, tagged=ALL, threads=THREADS)


def job(parts, **fields):
    """Some parts, with a photo and a tag each, and nothing around them unless it is given."""
    ids = frozenset(p.id for p in parts)
    return Stripped(tuple(parts), **({"kinds": KINDS, "photographed": ids, "tagged": ids} | fields))


def changed(number, stripped=WHOLE, **fields):
    """The job with one part changed."""
    parts = tuple(replace(p, **fields) if p.id == number else p for p in stripped.removals)
    return replace(stripped, removals=parts)


def without(number, stripped=WHOLE):
    """The job with one part never logged."""
    return replace(stripped, removals=tuple(p for p in stripped.removals if p.id != number))


def found(stripped):
    """(lack, number, sentence) of each finding."""
    return [(one.lack, one.removal_id, one.sentence) for one in audit(stripped)]
