"""What holds a part, for the commands that tell of one: hardware, holes, passes."""

from collections.abc import Iterator, Sequence
from typing import Any

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS, has_torque
from bagtag.domain.fitting import Ref
from bagtag.domain.hole_counts import counts, holes_of_line, line_of
from bagtag.domain.holes import HoleMap
from bagtag.domain.joint import Joint
from bagtag.domain.joint_words import in_turn, settings_said, turned_words, warnings_said
from bagtag.domain.schedule import turned
from bagtag.domain.sense import questions
from bagtag.domain.torque import Torque
from bagtag.store.work import Store

Data = dict[str, Any]


def of(store: Store, ref: Ref) -> Joint:
    """How the fasteners of a step are tightened."""
    return services.tightening.joint(store, ref)


# --- in words


def told(joint: Joint) -> Iterator[str]:
    """The hardware and all about it."""
    for line in joint.held_by:
        where = holes_of_line(joint.hole_map, line) or (line.mark if joint.hole_map else "")
        yield f"{where}: {line}" if where else str(line)
    yield from (f"look again: {question}" for question in asked(joint))
    if joint.hole_map is not None:
        yield from _map_words(joint.hole_map, joint)
    if joint.passes or joint.ticks or joint.hole_map is not None:
        yield from _pass_words(joint)


def cautions(joint: Joint) -> tuple[str, ...]:
    """The usual ones, where anything is tightened by a figure."""
    return TORQUE_CAUTIONS if has_torque(joint.held_by, joint.passes) else ()


def asked(joint: Joint) -> Sequence[str]:
    """Questions on the figures: never more than that, for the manual wins."""
    threads, several = services.torque.threads(), len(joint.held_by) > 1
    return [
        f"{line.called()}: {question}" if several else question
        for line in joint.held_by
        for question in questions(line, threads)
    ]


def _map_words(hole_map: HoleMap, joint: Joint) -> Iterator[str]:
    many = len(hole_map.holes)
    seen = f", seen from {hole_map.seen_from}" if hole_map.seen_from else ""
    yield f"hole map: {many} hole{'s' * (many != 1)}, {hole_map.order.value}{seen}"
    yield from counts(hole_map, joint.held_by)


def _pass_words(joint: Joint) -> Iterator[str]:
    """Every pass with its figures, its order where that is new, and whether it is done."""
    before: tuple[int, ...] = ()
    for one, uses in zip(joint.rounds, joint.uses, strict=True):
        box = "[x]" if one.place in joint.ticked else "[ ]"
        order = f"; order {in_turn(one.order)}" if one.order not in ((), before) else ""
        yield f"pass {one.place + 1} {box} {one.words}{order}"
        yield from (f"    {words}" for words in settings_said(one, uses))
        before = one.order
    yield from warnings_said(use for uses in joint.uses for use in uses)
    yield from filter(None, (turned_words(joint.rounds),))


# --- as data


def data(joint: Joint) -> Data:
    """The same for `--json`; the hardware itself stands with the removal."""
    return {
        "hole_map": _map_data(joint.hole_map, joint) if joint.hole_map else None,
        "passes": [
            {
                "said": one.said,
                "kind": one.step.kind.value,
                "figures": [[name, *_figure(torque)] for name, torque in one.torques],
                "angle": one.step.angle,
                "order": list(one.order),
                "wrenches": [use.said for use in uses],
                "done": one.place in joint.ticked,
            }
            for one, uses in zip(joint.rounds, joint.uses, strict=True)
        ],
        "turned": turned([one.step for one in joint.rounds]),
        "look_again": list(asked(joint)),
        "cautions": list(cautions(joint)),
    }


def _map_data(hole_map: HoleMap, joint: Joint) -> Data:
    return {
        "holes": [
            {
                "number": hole.number,
                "line": hole.mark,
                "group": hole.group,
                "fastener": str(line_of(hole_map, hole.number, joint.held_by) or ""),
            }
            for hole in hole_map.holes
        ],
        "order": hole_map.order.value,
        "seen_from": hole_map.seen_from,
        "millimetres_per_unit": hole_map.millimetres_per_unit(),
        "counts": list(counts(hole_map, joint.held_by)),
    }


def _figure(torque: Torque) -> tuple[float, str]:
    return torque.value, torque.unit.value
