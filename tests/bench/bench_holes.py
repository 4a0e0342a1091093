"""Hole maps: the order of tightening, the passes and the picture, in milliseconds.

    python -m tests.bench.bench_holes

A flange of 64 holes with two lines of hardware, in each kind of order; then the largest map that a
photo is likely to carry, 200 holes. Median of its rounds; the rounds of all are taken in turn.
"""

from dataclasses import replace
from functools import partial

from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.hole_check import checked
from bagtag.domain.hole_order import order
from bagtag.domain.hole_picture import TURN, draw
from bagtag.domain.hole_places import numbered, ring, round_outline
from bagtag.domain.holes import HoleMap, OrderKind
from bagtag.domain.schedule import PRESETS, rounds
from tests.bench.bench_common import interleave, milliseconds, say, table

ROUNDS, MOST = 15, 10.0
LINES = (
    HeldBy(60, "bolt", "M12", 60, torque=Torque(80)),
    HeldBy(4, "stud", "M10", 70, torque=Torque(45)),
)
PASSES = PRESETS[2].passes


def flange(n: int, kind: OrderKind) -> HoleMap:
    found = numbered(
        HoleMap(outline=round_outline((100, 75), 70), order=kind), ring(n, (100, 75), 60), "A"
    )
    holes = tuple(replace(h, mark="B") if h.number % 16 == 0 else h for h in found.holes)
    return replace(found, holes=holes)


def work_out(found: HoleMap) -> None:
    """What a card needs: the map looked over, the order, every pass with its figures."""
    rounds(LINES, PASSES, checked(found))


def main() -> None:
    rows = []
    for n in (64, 200):
        maps = {kind.name.lower(): flange(n, kind) for kind in OrderKind}
        calls = {f"{n} holes, {name}": partial(work_out, found) for name, found in maps.items()}
        taken = milliseconds(interleave(ROUNDS, **calls))
        rows += [(f"passes worked out, {name}, ms", ms, "at most", MOST * n / 64)
                 for name, ms in taken.items()]  # fmt: skip
        joint = maps["star"]
        picture = partial(draw, joint, LINES, order=order(joint), label=TURN)
        drawn = milliseconds(interleave(5, picture=picture))
        say(f"picture of {n} holes with turns: {drawn['picture']:.1f} ms")
    say(table(rows))


if __name__ == "__main__":
    main()
