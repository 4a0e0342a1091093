"""`torque`: a torque in all its units, on a wrench with an adapter, and held against its thread.

These three need no store: they answer on any machine.
"""

from collections.abc import Iterator
from typing import Annotated, Any

import typer

from bagtag.cli_answers import answer
from bagtag.cli_options import AS_JSON
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import Adapter, HeldBy
from bagtag.domain.sense import Sense, questions, sense, unknown_thread
from bagtag.domain.strength import strength
from bagtag.domain.torque import Length, Torque
from bagtag.domain.torque_words import UNITS, read_off, readable, said, shown, together
from bagtag.domain.wrench_use import at_fastener, setting, with_drag
from bagtag.services.torque import read_length, read_torque, threads

app = typer.Typer(
    help="Convert a torque, set a wrench with an adapter, or check a torque against its thread.",
)

TORQUE = Annotated[
    str, typer.Argument(metavar="TORQUE", help='A figure with its unit: "40 N·m", "30 lbf·ft".')
]


@app.command()
def convert(torque: TORQUE, as_json: AS_JSON = False) -> None:
    """Say a torque in all its units, each rounded once from the exact value."""
    given = read_torque(torque)
    data = {"given": _data(given), "same": [_data(one) for one in together(given)[1:]]}
    _say(data, [shown(given, UNITS)], as_json)


@app.command(name="set")
def set_(
    torque: TORQUE,
    *,
    length: Annotated[
        str,
        typer.Option(metavar="LENGTH", help='Middle of the grip to the square: "12 in", "300 mm".'),
    ],
    adapter: Annotated[
        str, typer.Option(metavar="LENGTH", help="The wrench's square to the fastener.")
    ],
    angle: Annotated[
        float, typer.Option(metavar="DEGREES", help="0 straight on, 90 square, 180 back.")
    ] = 0.0,
    drag: Annotated[
        str, typer.Option(metavar="TORQUE", help="What turns the nut before it seats, added.")
    ] = "",
    back: Annotated[
        bool, typer.Option("--back", help="TORQUE is what the wrench shows: what does it give?")
    ] = False,
    as_json: AS_JSON = False,
) -> None:
    """Say what a torque wrench is set to with an adapter or crowfoot, T × L ÷ (L + A cos a)."""
    given, grip = read_torque(torque), read_length(length, what="The wrench's length")
    fitted = Adapter(read_length(adapter, what="The adapter's length", field="adapter"), angle)
    dragged = read_torque(drag, given.unit, what="The drag", field="drag") if drag else None
    if back and dragged is not None:
        raise BadInput("With --back leave --drag out: what the wrench shows has it in already.")
    say = _say_back if back else _say_set
    say(given, grip, fitted, dragged, as_json)


def _say_set(
    given: Torque, grip: Length, adapter: Adapter, drag: Torque | None, as_json: bool
) -> None:
    total = with_drag(given, drag)
    exact = setting(total, grip, adapter)
    wanted = said(given) if drag is None else read_off(total)
    added = f" ({said(given)} and {said(drag)} of drag)" if drag else ""
    lines = [
        f"Set the wrench to {read_off(exact)} for {wanted} at the fastener{added}, "
        f"{adapter}, wrench {grip}.",
        _all_units(exact),
    ]
    _say(_set_data(total, exact, grip, adapter), lines, as_json)


def _say_back(
    given: Torque, grip: Length, adapter: Adapter, _: Torque | None, as_json: bool
) -> None:
    reached = at_fastener(given, grip, adapter)
    lines = [
        f"The fastener gets {read_off(reached)} when the wrench shows {said(given)}, "
        f"{adapter}, wrench {grip}.",
        _all_units(reached),
    ]
    _say(_set_data(reached, given, grip, adapter), lines, as_json)


def _all_units(exact: Torque) -> str:
    """All units from the unrounded figure, so that none is rounded twice."""
    units = dict.fromkeys((exact.unit, *UNITS))
    return " = ".join(read_off(exact.to(unit)) for unit in units)


def _set_data(at: Torque, wrench: Torque, grip: Length, adapter: Adapter) -> dict[str, Any]:
    return {
        "fastener": _data(at) | {"reads": readable(at.value)},
        "wrench": _data(wrench) | {"reads": readable(wrench.value)},
        "length_mm": grip.millimetres(),
        "adapter_mm": adapter.length.millimetres(),
        "angle": adapter.angle,
    }


@app.command()
def check(
    thread: Annotated[
        str, typer.Argument(metavar="THREAD", help='"M8", "M8x1", "3/8-16", "1/4 UNF".')
    ],
    torque: TORQUE,
    *,
    grade: Annotated[
        str, typer.Option("--class", metavar="CLASS", help='As marked: "8.8", "grade 5".')
    ] = "",
    on_threads: Annotated[
        str, typer.Option("--threads", metavar="WORDS", help='"dry", "oil", "grease", "plated".')
    ] = "",
    also: Annotated[
        str, typer.Option(metavar="TORQUE", help="The torque as the manual prints it again.")
    ] = "",
    as_json: AS_JSON = False,
) -> None:
    """Say what a torque does to its thread, and ask where it looks like a slip; exit 1 then."""
    if wrong := unknown_thread(thread, threads()):
        raise BadInput(wrong)
    second = read_torque(also, what="The second figure") if also else None
    line = HeldBy(
        None, thread=thread, torque=read_torque(torque), grade=grade, also=second,
        lubrication=on_threads,
    )  # fmt: skip
    found = sense(line, threads())
    if found is None:
        raise BadInput("Give the thread: M8, M8x1, 3/8-16 or 1/4 UNF.")
    asked = questions(line, threads())
    _say(_check_data(found, asked), list(_check_lines(line, found, asked)), as_json)
    raise typer.Exit(1 if asked else 0)


def _check_lines(line: HeldBy, found: Sense, asked: tuple[str, ...]) -> Iterator[str]:
    yield f"{found.thread.name} at {said(line.torque or Torque(0))} {found.said}."
    if line.grade and strength(line.grade, found.thread) is None:
        yield f"{line.grade} is no class or grade that is known for this thread."
    yield f"Reckoned with {'; '.join(found.assumed)}."
    yield from (f"? {one}" for one in asked)


def _check_data(found: Sense, asked: tuple[str, ...]) -> dict[str, Any]:
    known = found.strength is not None
    return {
        "thread": found.thread.name,
        "stress_area_mm2": round(found.thread.stress_area, 2),
        "clamp_newtons": [
            round(found.clamp_low),
            round(found.clamp_usual),
            round(found.clamp_high),
        ],
        "share_of_proof": [
            round(share, 3) if known else None
            for share in (found.share_low, found.usual, found.share_high)
        ],
        "assumed": list(found.assumed),
        "questions": list(asked),
    }


def _data(torque: Torque) -> dict[str, Any]:
    return {"value": torque.value, "unit": torque.unit.value}


def _say(data: dict[str, Any], lines: list[str], as_json: bool) -> None:
    answer(data | {"cautions": list(TORQUE_CAUTIONS)}, [*lines, *TORQUE_CAUTIONS], as_json)
