"""One keystroke in a masking-tape line: python -m tests.bench.bench_tape

A line of 120 characters is typed key by key, with 300 kinds of parts and 200 containers known; at
every key the whole line so far is read. Each line typed is new to the reader: its numbers differ
from all before. The floor is one pass of a regular expression over the line as it stands, which
finds words and figures and understands nothing.
"""

import re
import time
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from statistics import median, quantiles

from bagtag import resources
from bagtag.domain import kind_form
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import Kinds, PartKind
from bagtag.scan.tape import read
from tests.bench.bench_common import say, table

ROUNDS = 60
KINDS = 300
DATUM = Datum(
    "standing behind the handlebars, looking forward",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side", Side.FRONT: "axle side"},
)
BAGS = {f"bag {number}": number for number in range(1, 201)}
AREAS = {"gearbox": 1, "engine": 2, "engine > gearbox": 1, "cylinder head": 3}
LINES = (
    "shift fork R{n}, C faces clutch side, 2nd of 3 from flywheel, 2 x M6x{m}, 8mm head, 10 Nm, "
    "blue, tips worn, bag {n}, sharp",
    "oil seal 25x42x{m}, lip inward, 0.5 mm below, renew, grease on lip, same way as the other one "
    "of shaft {n}, engine, bag 7",
    "retainer plate {n}. OUT faces outward. 3 screws M6x{m} T30, staked. Gap at 4 o'clock, seen "
    "from the clutch side. Bag 12 abc",
    "bracket {n} that nobody has ever seen before and which has words and words and words {m} and "
    "never a comma for the reader ab",
)
_WORDS = re.compile(r"[^\W\d_]+|\d+(?:[.,]\d+)?|[^\w\s]")


def kinds() -> Kinds:
    """Those that come with the program, filled up to the number wanted."""
    files = sorted(Path(resources.find("kinds")).glob("*.toml"))
    known = [kind for f in files for kind in kind_form.read(f.read_text("utf-8"), f.name)]
    known += [PartKind(f"part of kind {n}", also=(f"thing {n}",)) for n in range(len(known), KINDS)]
    return Kinds(known)


def lines() -> Iterator[str]:
    for n in count(1):
        yield LINES[n % len(LINES)].format(n=n, m=n % 90 + 5)[:120].ljust(120, "x")


def main() -> None:
    known, ours, floor = kinds(), [], []
    endless = lines()
    for turn in range(ROUNDS + len(LINES)):
        line = next(endless)
        for end in range(1, len(line) + 1):
            typed = line[:end]
            start = time.perf_counter()
            read(typed, DATUM, BAGS, AREAS, known)
            middle = time.perf_counter()
            _WORDS.findall(typed)
            if turn >= len(LINES):
                ours.append(1000 * (middle - start))
                floor.append(1000 * (time.perf_counter() - middle))
    _report(ours, floor, len(known))


def _report(ours: list[float], floor: list[float], known: int) -> None:
    high = quantiles(ours, n=20)[-1]
    say(f"{len(ours)} keystrokes, {known} kinds, {len(BAGS)} containers; ms of one keystroke:")
    say(f"median {median(ours):.3f}, 95 of 100 within {high:.3f}, longest {max(ours):.3f}")
    say(f"one regular expression over the line: median {median(floor):.4f}")
    say(
        table(
            [
                ("a keystroke, median in ms", median(ours), "at most", 1),
                ("a keystroke, 95 of 100 in ms", high, "at most", 3),
                (
                    "a keystroke / one pass over the line",
                    median(ours) / median(floor),
                    "at most",
                    80,
                ),
            ]
        )
    )


if __name__ == "__main__":
    main()
