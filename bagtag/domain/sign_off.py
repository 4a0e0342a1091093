"""Signing a step off: who may, what must be given, and what speaks against it."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from bagtag.domain import areas as tree
from bagtag.domain import asked
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked, Counted, Figure, Ref, Task
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Area, SignOff
from bagtag.domain.phrases import capital, listed
from bagtag.domain.standing import Hindrance
from bagtag.domain.tool_out import ToolOut

NAMED = 3
"""How many tools that are still out a sentence names; the rest are counted."""


@dataclass(frozen=True, slots=True)
class SignForm:
    """What a person says at sign-off. `reason` is why it is signed although it waits, tools are
    still out, a pass is not ticked, a figure is out of its limits or the fasteners do not count
    up."""

    note: str = ""
    reason: str = ""
    figures: tuple[Figure, ...] = ()
    counts: tuple[Counted, ...] = ()


class Wanted(Protocol):
    """What signing a step asks for: `asks` must be answered, `may_ask` may; `held` are the
    fasteners to count, `not_by` those who must not sign. `unticked` are the passes still to go
    over it with, in words; `tools_out` what is laid out where this closes a place."""

    @property
    def called(self) -> str: ...
    @property
    def asks(self) -> tuple[Asked, ...]: ...
    @property
    def may_ask(self) -> tuple[Asked, ...]: ...
    @property
    def held(self) -> tuple[HeldBy, ...]: ...
    @property
    def hindrances(self) -> tuple[Hindrance, ...]: ...
    @property
    def not_by(self) -> tuple[str, ...]: ...
    @property
    def unticked(self) -> tuple[str, ...]: ...
    @property
    def tools_out(self) -> tuple[ToolOut, ...]: ...


def checked(wanted: Wanted, form: SignForm, who: str) -> SignForm:
    """The form as it is kept, its figures and counts held against what is asked now, whatever the
    limits were when it was filled in. BadInput says what is still wanted."""
    _check_name(wanted, who)
    kept = replace(
        form,
        figures=tuple(_figures(wanted, form)),
        counts=tuple(_counts(wanted.held, form.counts)),
    )
    against = _against(wanted, kept)
    if against and not form.reason.strip():
        raise BadInput(against, field="reason")
    return kept


def _check_name(wanted: Wanted, who: str) -> None:
    same = next((other for other in wanted.not_by if is_same_person(who, other)), None)
    if same is not None:
        raise BadInput(
            f"A hold point wants a second pair of eyes: {same} did the work it looks at, so "
            "another must sign it.",
            field="who",
        )


def is_same_person(one: str, other: str) -> bool:
    """Whether two names are one person's: "N. Birch" and "n birch" are."""
    return _letters(one) == _letters(other)


def _letters(name: str) -> str:
    return "".join(letter for letter in name.casefold() if letter.isalnum())


def _figures(wanted: Wanted, form: SignForm) -> Iterable[Figure]:
    given = {figure.name for figure in form.figures}
    for one in wanted.asks:
        if one.name not in given and not form.note.strip():
            raise BadInput(
                f"Give the {one.name}, or say in the note why there is none.", field=one.name
            )
    known = {one.name: one for one in (*wanted.asks, *wanted.may_ask)}
    for figure in form.figures:
        if figure.name not in known:
            raise BadInput(f"The {figure.name} is not asked for here any more. Sign it anew.")
        yield asked.figure(known[figure.name], figure.value)


def _counts(held: Sequence[HeldBy], counts: Iterable[Counted]) -> Iterable[Counted]:
    for one in counts:
        if not 0 <= one.held < len(held):
            raise BadInput("Its fasteners are others now. Count them anew.")
        if one.back < 0 or one.off < 0:
            raise BadInput("No fewer than none went back. Count them anew.")
        count = held[one.held].count
        yield one if count is None else replace(one, off=count)


def _against(wanted: Wanted, form: SignForm) -> str:
    """The first thing that speaks against signing now, with what to do about it."""
    if wanted.hindrances:
        return (
            f"{wanted.called} waits: {wanted.hindrances[0].sentence}. Do that first, or say why "
            "it goes in now."
        )
    if wanted.tools_out:
        return f"{out_words(wanted.tools_out)}. Count them back, or say where they are."
    if wanted.unticked:
        return f"{unticked_words(wanted.unticked)}. Tick it, or say why it is left out."
    for figure in form.figures:
        if said := asked.outside(figure):
            return f"{said}. Measure again, or say why it is fitted all the same."
    said = asked.miscounted(form.counts, wanted.held)
    return f"{said}. Find the rest, or say where they are." if said else ""


def out_words(tools: Sequence[ToolOut]) -> str:
    """`2 × feeler gauge and 10 mm socket are laid out and not counted back`."""
    names = [f"{one.count} × {one.name}" if one.count > 1 else one.name for one in tools]
    some = [*names[:NAMED], f"{len(names) - NAMED} more"] if len(names) > NAMED else names
    several = len(tools) > 1 or any(one.count > 1 for one in tools)
    return f"{capital(listed(some))} {'are' if several else 'is'} laid out and not counted back"


def unticked_words(passes: Sequence[str]) -> str:
    """`Pass 3, torque to 100 %, is not ticked`, and how many more are not."""
    rest = len(passes) - 1
    more = f", nor {'is one' if rest == 1 else f'are {rest}'} after it" if rest else ""
    return f"{capital(passes[0])} is not ticked{more}"


def looked_at(
    ref: Ref, hold: Task, places: Mapping[Ref, int | None], areas: Sequence[Area]
) -> set[Ref]:
    """What a hold point looks at: all that is done in its area and in those below, and the step
    beside it. `places` says in which area each step is done."""
    area_id = places.get(ref)
    inside = tree.below(areas, area_id) if area_id is not None else {None}
    found = {other for other, place in places.items() if place in inside}
    return found | ({hold.anchor.of} if hold.anchor.of is not None else set())


def must_not_sign(work: Collection[Ref], signed: Mapping[Ref, SignOff]) -> tuple[str, ...]:
    """All who signed some of this work: the one who looks at it must be another (common practice,
    no source)."""
    names = {one.who.casefold(): one.who for ref, one in signed.items() if ref in work}
    return tuple(names.values())
