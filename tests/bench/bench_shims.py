"""A plan of valve shims, in milliseconds, beside scipy's assignment of the same costs.

    python -m tests.bench.bench_shims

Four, eight and sixteen cylinders of four valves, with twenty shims at hand and a series of fifty.
scipy solves the ready table alone, in C, its costs as floats: the floor of the assignment, not of
the plan. Median of its rounds; the rounds of all are taken in turn.
"""

from decimal import Decimal
from functools import partial
from random import Random

import numpy as np
from scipy.optimize import linear_sum_assignment

from bagtag.domain.measuring.assignment import cheapest
from bagtag.domain.measuring.shims import Trial, ValvePlace, plan, series
from tests.bench.bench_common import interleave, milliseconds, say, table

ROUNDS, MOST = 7, 50.0
MADE = series(Decimal("2.00"), Decimal("2.98"), Decimal("0.02"))


def engine(valves: int) -> tuple[list[ValvePlace], list[Decimal]]:
    """An engine long neglected: clearances from 0.08 to 0.32, and shims of every size."""
    chance = Random(valves)
    low, high = Decimal("0.18"), Decimal("0.22")
    places = [
        ValvePlace(str(n), _hundredths(chance, 8, 32), _hundredths(chance, 220, 280), low, high)
        for n in range(valves)
    ]
    return places, [_hundredths(chance, 220, 280) for _ in range(20)]


def _hundredths(chance: Random, low: int, high: int) -> Decimal:
    return Decimal(chance.randint(low, high)) / 100


def main() -> None:
    rows = []
    for cylinders in (4, 8, 16):
        places, at_hand = engine(4 * cylinders)
        costs = Trial(tuple(places), tuple(at_hand), MADE).costs(swaps=True)
        calls = {
            "plan": partial(plan, places, at_hand, MADE),
            "assignment": partial(cheapest, costs),
            "scipy": partial(linear_sum_assignment, np.array(costs, dtype=float)),
        }
        taken = milliseconds(interleave(ROUNDS, **calls))
        say(f"{4 * cylinders} valves: " + ", ".join(f"{n} {ms:.2f} ms" for n, ms in taken.items()))
        rows.append((f"plan of {4 * cylinders} valves, ms", taken["plan"], "at most", MOST))
    say(table(rows))


if __name__ == "__main__":
    main()
