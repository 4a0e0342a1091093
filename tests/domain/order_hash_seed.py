"""Plans a few hundred random problems and says what came out; run in a process of its own."""

import random
import sys

from bagtag.domain.order_plan import plan
from tests.domain.order_kit import a_problem


def main() -> None:
    chance = random.Random(11)
    for _ in range(300):
        sys.stdout.write(f"{plan(a_problem(chance, sets=0.5))}\n")


if __name__ == "__main__":
    main()
