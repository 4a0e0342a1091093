"""Why a step stands where it stands, and what it needs: tie by tie."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from bagtag.domain.fitting import Ref
from bagtag.domain.order_build import Build, Ground
from bagtag.domain.order_net import Edge, Signed
from bagtag.domain.order_problem import Because, Plan, Problem, Tie


@dataclass(frozen=True, slots=True)
class Why:
    """`held`: what holds a step back, from its own tie on to the step whose log place it took.
    `pulled`: what forced it forward, from its own tie on to the step it was put in early for."""

    held: tuple[Tie, ...] = ()
    pulled: tuple[Tie, ...] = ()


def why(plan: Plan, ref: Ref) -> Why:
    """The chains of ties that moved a step; both empty for one that stands at its log place.

    A member of a together set goes with the member that is tied, or with the middle one, at whose
    log place the set stands.
    """
    return Why(_held(plan, ref), _pulled(plan, ref))


def _held(plan: Plan, ref: Ref) -> tuple[Tie, ...]:
    chain: dict[Ref, Tie] = {}
    while (tie := plan.held.get(ref) or _with_middle(plan, ref, chain)) and ref not in chain:
        chain[ref] = tie
        ref = tie.before
    return tuple(chain.values())


def _with_middle(plan: Plan, ref: Ref, chain: Mapping[Ref, Tie]) -> Tie | None:
    """What holds a step may stand early itself, with the middle member of its set."""
    tie = plan.pulled.get(ref)
    if not chain or tie is None or tie.because is not Because.TOGETHER:
        return None
    return Tie(tie.after, tie.before, is_wait=True, because=tie.because, source=tie.source)


def _pulled(plan: Plan, ref: Ref) -> tuple[Tie, ...]:
    chain: dict[Ref, Tie] = {}
    while (tie := plan.pulled.get(ref)) and ref not in chain:
        chain[ref] = tie
        ref = tie.after
    return tuple(chain.values())


def needs(problem: Problem) -> Mapping[Ref, tuple[Tie, ...]]:
    """For each step what must be in before it, by waits and pulls, one tie for each such step, in
    log order.

    Openers wait for each thing in their areas. What holds or needs one member of a together set
    holds or needs all: a tie from or to another member stands for those too. What is signed off
    still tells what it needs itself, but no longer asks it of the others of its set.
    """
    ground = Ground(problem)
    build = Build(replace(problem, signed=()), ground)
    signed = Signed([ground.ranks[ref] for ref in problem.signed if ref in ground.ranks])
    found: dict[Ref, tuple[Tie, ...]] = {}
    for node in sorted(set(build.sets.node_of)):
        into, inner = build.net.into(node), build.inner.get(node, ())
        for rank in build.sets.of(node):
            shared = [e for e in into if e[4] == rank or not signed.drops(e[3], e[4])]
            within = _nearest(edge for edge in inner if edge[4] == rank)
            found[ground.refs[rank]] = _told(build, _shared(build, shared) | within)
    return found


def _nearest(edges: Iterable[Edge]) -> dict[int, Edge]:
    """One tie for each step before: the first given, a wait before a pull."""
    found: dict[int, Edge] = {}
    for edge in sorted(edges, key=_wait_first):
        found.setdefault(edge[3], edge)
    return found


def _shared(build: Build, edges: Iterable[Edge]) -> dict[int, Edge]:
    """The same, and a tie from the set of each of those steps for its other members."""
    own = _nearest(edges)
    mates = {
        rank: edge
        for before, edge in own.items()
        for rank in build.sets.of(edge[0])
        if rank != before
    }
    return mates | own


def _wait_first(edge: Edge) -> bool:
    return not edge[2]


def _told(build: Build, edges: Mapping[int, Edge]) -> tuple[Tie, ...]:
    ties = []
    for rank, edge in sorted(edges.items()):
        tie, before = build.tie(edge), build.ground.refs[rank]
        own = tie.before == before
        ties.append(tie if own else Tie(before, tie.after, tie.is_wait, tie.because, tie.source))
    return tuple(ties)
