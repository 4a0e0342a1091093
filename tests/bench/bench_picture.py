"""The which-way picture: how long one fact set takes to draw, in milliseconds.

    python -m tests.bench.bench_picture

Three hundred fact sets of one to six facts as a gearbox has them, each told what can be computed,
drawn compact (for a label or a row) and wide (for the card). Each set is timed by itself, over
several rounds; its figure is the median of its rounds, so that the machine's noise stays out, and
the table has the median and the 95th percentile over the sets. The first round, with nothing yet
measured of any lettering, is given beside it.
"""

import random
import time
from statistics import median, quantiles

from bagtag.domain.datum import Datum, Side
from bagtag.domain.picture import draw
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)
from tests.bench.bench_common import say, table

SETS, ROUNDS, MOST = 300, 15, 1.0
DATUM = Datum(
    "standing at the handlebars, looking at the gearbox",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"},
)
FEATURES = ("C", "OUT", "sealed side", "lip", "chamfer", "sharp edge", "oil hole", "number side")
OTHERS = tuple(
    OtherPart(name, f"u{n}", str(n))
    for n, name in ((12, "shift fork L"), (41, "gear 3"), (107, "main shaft bearing, clutch side"))
)


def facing(chance: random.Random) -> Faces:
    feature, side = chance.choice(FEATURES), chance.choice(list(Side))
    if chance.random() < 0.3:
        return Faces(feature, chance.choice(list(Outness)), chance.choice([None, side]))
    return Faces(feature, chance.choice([side, side, chance.choice(OTHERS)]))


def any_fact(chance: random.Random) -> Fact:
    side = chance.choice(list(Side))
    told = tuple(facing(chance) for _ in range(chance.randrange(3)))
    ways: list[Fact] = [
        facing(chance),
        facing(chance),
        Hand(chance.choice("LR"), chance.random() < 0.7),
        Place(chance.randint(1, 3), 3, chance.choice([None, side])),
        Place(chance.randint(1, 20), 20, side, "hole"),
        Place(chance.randint(1, 4), what="cylinder"),
        Clocking("gap", chance.randint(1, 12), seen_from=side),
        Clocking("tab", target="in the notch"),
        Seat(chance.choice(list(SeatKind))),
        Seat(SeatKind.BELOW, 1.2),
        MatchMark("two punch dots", "drum"),
        SameWay(chance.choice(OTHERS), chance.random() < 0.3, told),
        Without(chance.choice(["", "match mark", "chamfer"])),
    ]
    return chance.choice(ways)


def fact_sets() -> list[list[Fact]]:
    chance = random.Random(7)
    sizes = chance.choices(range(1, 7), [20, 30, 25, 15, 6, 4], k=SETS)
    return [[any_fact(chance) for _ in range(size)] for size in sizes]


def one_round(sets: list[list[Fact]], wide: bool) -> list[float]:
    """Milliseconds of each set."""
    taken = []
    for facts in sets:
        start = time.perf_counter()
        draw(facts, DATUM, wide=wide)
        taken.append((time.perf_counter() - start) * 1000)
    return taken


def main() -> None:
    sets, rows = fact_sets(), []
    for wide in (False, True):
        first, *rounds = [one_round(sets, wide) for _ in range(ROUNDS + 1)]
        each = [median(times) for times in zip(*rounds, strict=True)]
        p95 = quantiles(each, n=20)[-1]
        name = "wide" if wide else "compact"
        say(f"{name}: first round {median(first):.3f} ms, slowest set {max(each):.3f} ms")
        rows += [(f"{name}, median, ms", median(each), "at most", MOST),
                 (f"{name}, 95th percentile, ms", p95, "at most", MOST)]  # fmt: skip
    say(table(rows))


if __name__ == "__main__":
    main()
