"""What the benchmarks share: rounds taken in turn, so that a noisy machine is noisy for all."""

import sys
import time
from collections.abc import Callable, Iterable
from statistics import median


def interleave(rounds: int, **callables: Callable[[], object]) -> dict[str, list[float]]:
    """Seconds of each call by name; every round calls each once, after one round to warm up."""
    taken: dict[str, list[float]] = {name: [] for name in callables}
    for turn in range(rounds + 1):
        for name, call in callables.items():
            start = time.perf_counter()
            call()
            if turn:
                taken[name].append(time.perf_counter() - start)
    return taken


def milliseconds(taken: dict[str, list[float]]) -> dict[str, float]:
    """The median of each, in milliseconds."""
    return {name: median(times) * 1000 for name, times in taken.items()}


def table(rows: Iterable[tuple[str, float, str, float]]) -> str:
    """Rows of (what, ratio, "at most" or "at least", target) as text, with whether each is met."""
    lines = []
    for what, ratio, bound, target in rows:
        met = ratio <= target if bound == "at most" else ratio >= target
        lines.append(f"{what:60} {ratio:8.2f}  {bound} {target:g}  {'met' if met else 'MISSED'}")
    return "\n".join(lines)


def say(text: str) -> None:
    """A line of figures on standard output."""
    sys.stdout.write(text + "\n")
