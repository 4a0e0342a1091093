"""The order of the build against any order at all: python -m tests.bench.bench_order

The machine: areas of a thousand parts, in each ten of a hundred, in each of those four of 25, each
with an opener that comes off before what is behind it; most parts are tied to three openers. Rules
against the log tie parts up to 60 lines apart, as a person ties a gasket to its dowels; one in
twenty ties parts anywhere in the job. Every other one is a pull. All of them can be kept. The same
is given with rules between any two parts of the job, and with 20 and 100 rules for each 1,000.

Against, on the same graph with each part's tie to each opener over it:

  kahn      Kahn's algorithm with no order, over pairs of small whole numbers, as short as it can be
            written: no names to look up, nothing to say why, no circle to find;
  built     the same, given the lists of what comes after each number instead of the pairs;
  networkx  its lexicographical_topological_sort by place in the log, of a graph built beforehand.

The plan is the whole of it: from the steps of the log, areas and rules to the order of named steps,
with what holds and pulls each.

Replanning: one act later in a job of 1,000, by the planner of the job, against a plan of 10,000.
Where a line is inserted the planner has nothing to go by and plans anew.

The smallest circle: in 10,000 parts with 100 bad rules (of three one asks the contrary of another
rule, one has a part wait for what closes its area, one closes a ring of five), against the plan of
the same without them. Given as well: a job whose only circle is one ring through 1,000 parts; the
plan in force, which leaves out the newest rule of one circle after another; and what each step
needs, the contents of openers named one by one.
"""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import networkx

from bagtag.domain.fitting import Ref, part
from bagtag.domain.model import Area
from bagtag.domain.order_plan import in_force, plan
from bagtag.domain.order_planner import Planner
from bagtag.domain.order_problem import Because, Circle, Item, Plan, Problem, Tie
from bagtag.domain.order_why import needs
from tests.bench.bench_common import interleave, milliseconds, say, table

WITHIN = (1000, 100, 25)
NEAR, FAR = 60, 0.05
GATED = 3
Pair = tuple[int, int]
Row = tuple[str, float, str, float]


@dataclass(frozen=True)
class Machine:
    """A problem, and every tie of it as places in the log read backwards."""

    problem: Problem
    pairs: list[Pair]

    @property
    def size(self) -> int:
        return len(self.problem.log)


def machine(size: int, rules: int, *, far: bool = False) -> Machine:
    """A job of so many parts and so many rules against its log, all of which can be kept."""
    chance = random.Random(5)
    log, areas = a_log(size)
    flat = opener_pairs(log, areas)
    seats = some_order(chance, size, flat, far=far)
    against = [against_the_log(chance, seats, far=far) for _ in range(rules)]
    ties = tuple(rule(pair, size, number) for number, pair in enumerate(against, 1))
    return Machine(Problem(log, areas, ties=ties), [*flat, *against])


def a_log(size: int) -> tuple[tuple[Item, ...], tuple[Area, ...]]:
    areas: list[Area] = []
    log: list[Item] = []
    inmost: list[int | None] = [None]
    for number in range(1, size + 1):
        depth = next((d for d, within in enumerate(WITHIN) if number % within == d + 1), None)
        if depth is not None:
            del inmost[depth + 1 :]
            areas.append(Area(len(areas) + 1, 1, f"area {number}", inmost[-1], opener_id=number))
        log.append(Item(part(number), inmost[-1]))
        if depth is not None:
            inmost.append(len(areas))
    return tuple(log), tuple(areas)


def opener_pairs(log: Sequence[Item], areas: Sequence[Area]) -> list[Pair]:
    """Each part and each opener over it."""
    known = {area.id: area for area in areas}
    pairs = []
    for rank, item in enumerate(reversed(log)):
        above = item.area_id
        while above is not None:
            pairs.append((rank, len(log) - (known[above].opener_id or 0)))
            above = known[above].parent_id
    return pairs


def some_order(chance: random.Random, size: int, pairs: list[Pair], *, far: bool) -> list[int]:
    """Each part's seat in an order that keeps the pairs, near the log's or at random: rules along
    it can all be kept."""
    wish = [float(rank) for rank in range(size)]
    for rank in range(size):
        anywhere = far or chance.random() < FAR
        wish[rank] = chance.uniform(0, size) if anywhere else rank + chance.uniform(-NEAR, NEAR)
    order = networkx.lexicographical_topological_sort(graph_of(size, pairs), key=wish.__getitem__)
    seats = [0] * size
    for seat, rank in enumerate(order):
        seats[rank] = seat
    return seats


def graph_of(size: int, pairs: list[Pair]) -> networkx.DiGraph:
    graph = networkx.DiGraph(pairs)
    graph.add_nodes_from(range(size))
    return graph


def against_the_log(chance: random.Random, seats: list[int], *, far: bool) -> Pair:
    """Two parts of which the one that the log puts later goes in first."""
    size = len(seats)
    while True:
        after = chance.randrange(size)
        reach = size if far or chance.random() < FAR else NEAR
        before = after + chance.randint(1, reach)
        if before < size and seats[before] < seats[after]:
            return before, after


def rule(pair: Pair, size: int, number: int) -> Tie:
    before, after = (part(size - rank) for rank in pair)
    because = Because.UNTIL if number % 2 else Because.FIRST
    return Tie(before, after, because is Because.UNTIL, because, number)


def kahn(size: int, pairs: list[Pair]) -> list[int]:
    """Any order that keeps the pairs."""
    return kahn_built(after_each(size, pairs))


def after_each(size: int, pairs: list[Pair]) -> list[list[int]]:
    after: list[list[int]] = [[] for _ in range(size)]
    for before, then in pairs:
        after[before].append(then)
    return after


def kahn_built(after: list[list[int]]) -> list[int]:
    waits = [0] * len(after)
    for thens in after:
        for then in thens:
            waits[then] += 1
    order = [node for node in range(len(after)) if not waits[node]]
    for node in order:
        for then in after[node]:
            waits[then] -= 1
            if not waits[then]:
                order.append(then)
    return order


def planned(problem: Problem, planner: Planner | None = None) -> Plan:
    found = (planner or Planner()).plan(problem)
    if not isinstance(found, Plan):
        raise TypeError(f"no order: {found}")
    return found


def planning(size: int, per_thousand: int, rounds: int, *, far: bool = False) -> list[Row]:
    """Our plan of one machine against the floors."""
    job = machine(size, size * per_thousand // 1000, far=far)
    after, graph = after_each(size, job.pairs), graph_of(size, job.pairs)
    calls: dict[str, Callable[[], object]] = {
        "plan": lambda: planned(job.problem),
        "kahn": lambda: kahn(size, job.pairs),
        "built": lambda: kahn_built(after),
        "networkx": lambda: list(networkx.lexicographical_topological_sort(graph)),
    }
    ms = milliseconds(interleave(rounds, **calls))
    found = planned(job.problem)
    what = f"{size:,}, {per_thousand} rules per 1,000{' anywhere' if far else ''}"
    say(f"{what}: {_told(ms)}; {len(found.held)} held, {len(found.pulled)} pulled")
    rows: list[Row] = [
        (f"plan / kahn: {what}", ms["plan"] / ms["kahn"], "at most", 2),
        (f"networkx / plan: {what}", ms["networkx"] / ms["plan"], "at least", 8),
    ]
    if per_thousand > GATED:
        say(f"  plan / kahn {rows[0][1]:.2f}, networkx / plan {rows[1][1]:.2f}")
        return []
    return rows


def _told(ms: dict[str, float]) -> str:
    return ", ".join(f"{name} {value:.1f} ms" for name, value in ms.items())


def replanning(rounds: int) -> list[Row]:
    """Every act in turn, each by the one planner of its job."""
    ten, one = machine(10_000, 30).problem, machine(1_000, 3).problem
    order = planned(one).order
    new = Tie(part(40), part(60), True, Because.UNTIL, 900)
    log = (*one.log[:500], Item(part(5000), 20), *one.log[500:])
    acts: dict[str, Callable[[], Problem]] = {
        "a rule made": lambda: replace(one, ties=(*one.ties, new)),
        "a step signed": lambda: replace(one, signed=order[:1]),
        "half of it signed": lambda: replace(one, signed=order[:500]),
        "a line inserted": lambda: replace(one, log=[*log]),
    }
    rows: list[Row] = []
    for name, act in acts.items():
        planner = Planner()
        planned(one, planner)
        calls = {"ten": lambda: planned(ten), "act": _act(planner, act)}
        ms = milliseconds(interleave(rounds, **calls))
        say(f"{name}: {ms['act']:.2f} ms; a plan of 10,000: {ms['ten']:.2f} ms")
        what = f"replanning 1,000 after {name} / plan of 10,000"
        rows.append((what, ms["act"] / ms["ten"], "at most", 0.1))
    return rows


def _act(planner: Planner, after: Callable[[], Problem]) -> Callable[[], object]:
    return lambda: planned(after(), planner)


def bad_rules(job: Machine, count: int) -> Problem:
    """A third each: the contrary of a rule, a part held until what closes its area is on, and five
    rules that close a ring."""
    chance = random.Random(6)
    ties = list(job.problem.ties)
    for number in range(count):
        source = 10_000 + number
        if number % 3 == 0:
            said = chance.choice(job.problem.ties)
            ties.append(Tie(said.after, said.before, True, Because.UNTIL, source))
        elif number % 3 == 1:
            inner, opener = chance.choice(job.pairs[: 2 * job.size])
            ties.append(rule((opener, inner), job.size, source))
        else:
            ring = [part(chance.randint(1, job.size)) for _ in range(5)]
            ties += _ring(ring, source)
    return replace(job.problem, ties=tuple(ties))


def _ring(refs: Sequence[Ref], source: int) -> list[Tie]:
    pairs = zip(refs, (*refs[1:], refs[0]), strict=True)
    return [Tie(a, b, False, Because.FIRST, source) for a, b in pairs if a != b]


def circles(rounds: int) -> list[Row]:
    job = machine(10_000, 30)
    bad = bad_rules(job, 100)
    ring_of = _ring([part(number) for number in range(10, 10_001, 10)], 9_000)
    long = replace(job.problem, ties=(*job.problem.ties, *ring_of))
    calls: dict[str, Callable[[], object]] = {
        "plan": lambda: planned(job.problem),
        "circle": lambda: plan(bad),
        "ring": lambda: plan(long),
        "in force": lambda: in_force(bad),
        "needs": lambda: needs(job.problem),
    }
    ms = milliseconds(interleave(rounds, **calls))
    found, ring = plan(bad), plan(long)
    if not isinstance(found, Circle) or not isinstance(ring, Circle):
        raise TypeError("no circle")
    aside = len(in_force(bad).suspended)
    say(f"10,000 and bad rules: {_told(ms)}")
    say(f"a circle of {len(found.ties)}, a ring of {len(ring.ties)}, {aside} rules set aside")
    say(f"  ring / plan {ms['ring'] / ms['plan']:.2f}")
    return [
        ("smallest circle of 10,000, 100 bad rules / plan", ms["circle"] / ms["plan"], "at most", 2)
    ]


def main() -> None:
    rows = []
    for size, rounds in ((10_000, 15), (100_000, 7)):
        for per_thousand, far in ((3, False), (3, True), (20, False), (100, False)):
            rows += planning(size, per_thousand, rounds, far=far)
    rows += replanning(31)
    rows += circles(11)
    say(table(rows))


if __name__ == "__main__":
    main()
