"""One plan after another of the same job: steps and ties in, plan or shortest circle out."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain, filterfalse, groupby

from bagtag.domain.fitting import Ref
from bagtag.domain.order_build import Build, Ground
from bagtag.domain.order_circle import smallest
from bagtag.domain.order_net import Circular
from bagtag.domain.order_problem import Circle, Plan, Problem
from bagtag.domain.order_told import Told
from bagtag.domain.order_walk import Walk


class Planner:
    """Plans one job again and again; as long as its log and areas are the very same objects, what
    they say is not made out anew."""

    def __init__(self) -> None:
        self._ground: Ground | None = None

    def plan(self, problem: Problem) -> Plan | Circle:
        """The order of the build, or the shortest circle of ties that cannot all hold."""
        if self._ground is None or not self._ground.is_under(problem):
            self._ground = Ground(problem, self._ground)
        build = Build(problem, self._ground)
        try:
            return _planned(build)
        except Circular:
            return smallest(build)


def _planned(build: Build) -> Plan:
    walk = Walk(build.net)
    within = {node: Walk(build.within(node)) for node in build.inner}
    told = Told(build, walk, within)
    sets: tuple[tuple[Ref, ...], ...] = ()
    ranks = walk.order
    if build.sets.members:
        groups = list(_groups(build, walk, within))
        ranks = list(chain.from_iterable(groups))
        sets = tuple(build.refs(group) for group in groups if len(group) > 1)
    elif build.signed.ranks:
        ranks = [*build.signed.ranks, *filterfalse(build.signed.turn.__contains__, ranks)]
    return Plan(build.refs(ranks), sets, tuple(build.ground.refs), told.held, told.pulled)


def _groups(build: Build, walk: Walk, within: Mapping[int, Walk]) -> Iterator[Sequence[int]]:
    """What is signed off, as it was signed, then the walk without it."""
    signed, sets = build.signed, build.sets
    for _, run in groupby(signed.ranks, key=sets.node_of.__getitem__):
        yield tuple(run)
    for node in walk.order:
        group = sets.of(node)
        if node in within:
            group = tuple(group[number] for number in within[node].order)
        left = tuple(filterfalse(signed.turn.__contains__, group))
        if left:
            yield left
