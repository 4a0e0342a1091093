"""A plan of valve shims in plain sentences, in the order one works."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import groupby

from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.shims import Move, ShimPlan, Source, ValvePlace
from bagtag.domain.phrases import listed

AFTERWARDS = "Turn the engine over by hand and measure every clearance again before it runs."


def told(plan: ShimPlan, unit: str = "mm", *, has_series: bool = True) -> tuple[str, ...]:
    """What to do, a sentence each: what to swap, what to take from those at hand, what to buy, and
    what no shim brings into its range."""
    return tuple(_told(plan, unit, has_series))


def moves(plan: ShimPlan, unit: str = "mm") -> tuple[str, ...]:
    """Which shim goes where, a sentence for each valve that gets another one."""
    return tuple(_move(move, unit) for move in plan.moved)


def _told(plan: ShimPlan, unit: str, has_series: bool) -> Iterator[str]:
    if not plan.moved and not plan.impossible:
        yield "Every clearance is in its range: every shim stays."
        return
    yield from moves(plan, unit)
    yield from (_impossible(place, unit, has_series) for place in plan.impossible)
    if plan.moved:
        yield f"{_bought(plan, unit)}{_saved(plan)}"
    if plan.left_over:
        yield f"Left over: {counted(plan.left_over)} {unit}. Mark the size on the bag."
    if plan.moved:
        yield AFTERWARDS


def _move(move: Move, unit: str) -> str:
    name, size = move.place.name, f"{show(move.to_shim)} {unit}"
    after = f"its clearance is {show(move.clearance_after)} {unit} then"
    if move.source is Source.SWAPPED:
        return f"{name}: put in the {size} from {move.from_place}; {after}."
    where = "at hand" if move.source is Source.AT_HAND else "to be bought"
    return f"{name}: put in {size}, {where}, for the {show(move.from_shim)}; {after}."


def _bought(plan: ShimPlan, unit: str) -> str:
    if not plan.to_buy:
        return "Buy none"
    return f"Buy {len(plan.to_buy)}: {counted(plan.to_buy)} {unit}"


def counted(sizes: Sequence[Decimal]) -> str:
    """`2 × 2.40 and 2.50`"""
    runs = [(size, len(list(run))) for size, run in groupby(sorted(sizes))]
    return listed([f"{n} × {show(size)}" if n > 1 else show(size) for size, n in runs])


def _saved(plan: ShimPlan) -> str:
    if not plan.saved:
        return "."
    return f"; swapping saves {plan.saved} shim{'s' if plan.saved > 1 else ''}."


def _impossible(place: ValvePlace, unit: str, has_series: bool) -> str:
    why = "and no size that is made or at hand fits" if has_series else "and none at hand fits"
    return (
        f"{place.name} wants {show(place.wanted)} {unit}, {show(place.thinnest)} to "
        f"{show(place.thickest)}, {why}."
    )
