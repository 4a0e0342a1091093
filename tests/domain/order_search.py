"""The best order there is, by trying all: what the order of a build is measured against.

An *explained* order keeps every tie, and of each pair that stands against the log says why:

  held    the later of the two is held at least to the log place of the earlier, or
  pulled  the earlier is needed, by waits and pulls, by a step that goes in no later than the later
          of the two (by place, then log place), or by that one itself.

Of those the best has the fewest pairs against the log. The order with the fewest pairs of all need
not be explained: it may bring a cover forward because that saves a pair.
"""

from dataclasses import dataclass

from tests.domain.order_reference import Told, group_ties, middle


@dataclass(frozen=True)
class Steps:
    """Steps numbered in log order, as bits: `needs` of each what it needs at all, `early` of each
    those before which it may go in against the log."""

    needs: list[int]
    early: list[int]


def steps(told: Told) -> Steps:
    groups = sorted(set(told.group_of.values()), key=lambda group: middle(group, told.log))
    number = {group: n for n, group in enumerate(groups)}
    ranks = [middle(group, told.log) for group in groups]
    keys = [(told.places[group], rank) for group, rank in zip(groups, ranks, strict=True)]
    pairs = {(number[u], number[v]) for u, v, _ in group_ties(told.ties, told.group_of) if u != v}
    needs = [reached(n, pairs) for n in range(len(groups))]
    early = [
        sum(1 << late for late in range(n) if explained(n, late, ranks, keys, needs))
        for n in range(len(groups))
    ]
    return Steps(needs, early)


def reached(step: int, pairs: set[tuple[int, int]]) -> int:
    found, open_ = 0, [step]
    while open_:
        after = open_.pop()
        for before, then in pairs:
            if then == after and not found >> before & 1:
                found |= 1 << before
                open_.append(before)
    return found


def explained(step: int, late: int, ranks, keys, needs) -> bool:
    """Whether a step may go in before one that stands before it in the log."""
    needed_by = [n for n in range(len(ranks)) if needs[n] >> step & 1]
    return keys[late][0] >= ranks[step] or any(keys[n] <= keys[late] for n in needed_by)


def fewest(these: Steps, *, explained_only: bool) -> int:
    """The fewest pairs against the log, over all orders that keep the ties."""
    count = len(these.needs)
    best = {0: 0}
    for _ in range(count):
        following: dict[int, int] = {}
        for done, cost in best.items():
            for n in range(count):
                overtaken = ~done & ((1 << n) - 1)
                if done >> n & 1 or these.needs[n] & ~done:
                    continue
                if explained_only and overtaken & ~these.early[n]:
                    continue
                now, total = done | 1 << n, cost + overtaken.bit_count()
                following[now] = min(total, following.get(now, total))
        best = following
    return best[(1 << count) - 1]


def against(order: list[int]) -> int:
    """How many pairs of an order of numbers stand the wrong way round."""
    return sum(a > b for n, a in enumerate(order) for b in order[n + 1 :])
