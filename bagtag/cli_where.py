"""`where`: what a tag belongs to, from its code or from a picture that shows it."""

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bagtag import cli_away_data, cli_data, cli_joint, services
from bagtag.cli_answers import answer, called, warn
from bagtag.domain import codes
from bagtag.domain.errors import NotFound, Trouble
from bagtag.domain.fitting import part, task
from bagtag.domain.joint import Joint
from bagtag.services.tags import Found, Leads
from bagtag.services.views import BenchCard
from bagtag.store.work import Store


@dataclass(slots=True)
class _Told:
    """One answer: its data and lines; `status` is 0 for found, 1 for not found, 2 for bad."""

    data: dict[str, Any]
    lines: list[str] = field(default_factory=list)
    trouble: str = ""
    status: int = 0


def say_where(store: Store, asked: Sequence[str], as_json: bool) -> int:
    """Answer for each code and picture; returns the exit status, the worst of all."""
    told = [one for text in asked for one in _told(store, text)]
    warn(one.trouble for one in told if one.trouble)
    lines = [line for one in told for line in one.lines]
    answer([one.data for one in told], lines, as_json)
    return max(one.status for one in told)


def _told(store: Store, text: str) -> Iterator[_Told]:
    try:
        for code in _codes_in(text):
            yield _answered(store, text, code)
    except Trouble as trouble:
        yield _failed(text, trouble)


def _codes_in(text: str) -> Sequence[str]:
    """The codes in a picture, if `text` names a file, else the text itself."""
    named = Path(text)
    if named.suffix or os.sep in text or named.is_file():
        return services.scanning.read_picture(named)
    return (text,)


def _answered(store: Store, asked: str, code: str) -> _Told:
    try:
        found = services.tags.look_up(store, code)
    except Trouble as trouble:
        return _failed(asked, trouble)
    head = {
        "asked": asked,
        "found": True,
        "code": codes.show(found.tag.code),
        "leads_to": found.leads.value,
        "role": found.tag.role.value,
    }
    data, lines = _TELLERS[found.leads](store, found)
    return _Told(head | data, [f"{head['code']}: {lines[0]}", *(f"  {line}" for line in lines[1:])])


def _failed(asked: str, trouble: Trouble) -> _Told:
    status = 1 if isinstance(trouble, NotFound) else 2
    data = {"asked": asked, "found": False, "why": trouble.sentence}
    return _Told(data, [], f"{asked}: {trouble.sentence}", status)


def _removal(store: Store, found: Found) -> tuple[dict[str, Any], list[str]]:
    assert found.removal_id is not None
    card = services.views.card(store, found.removal_id)
    joint = cli_joint.of(store, part(found.removal_id))
    data = cli_data.card(card) | cli_joint.data(joint)
    return {"removal": data}, list(_card_lines(card, found, joint))


def _card_lines(card: BenchCard, found: Found, joint: Joint) -> Iterator[str]:
    end = f", {found.tag.role.value}" if found.tag.pair else ""
    yield f"{called(card.removal)}{end}"
    goes_on = card.removal.goes_on and f"goes on: {card.removal.goes_on}"
    yield from filter(None, (card.sentence, card.area, goes_on))
    yield _lies(card)
    yield from cli_joint.told(joint)
    yield from filter(None, (card.removal.tools and f"special tools: {card.removal.tools}",))
    yield from _standing_lines(card)
    yield card.job_title
    yield from cli_joint.cautions(joint)


def _lies(card: BenchCard) -> str:
    """Where it lies; what is away lies at its shop, whatever container it came out of."""
    if card.away is not None:
        due = f", promised for {card.away.due}" if card.away.due else ""
        return f"away at {card.away.shop}{due}"
    return f"lies in {', '.join(card.where)}" if card.where else "lies on the bench"


def _standing_lines(card: BenchCard) -> Iterator[str]:
    if card.sign_off is not None:
        yield f"fitted by {card.sign_off.who}, {card.sign_off.at:%Y-%m-%d %H:%M}"
    elif card.hindrances:
        yield f"waits: {'; '.join(h.sentence for h in card.hindrances)}"
    elif card.place is None:
        yield "scrapped"
    else:
        yield f"can go in now, step {card.place} of the build"
    if card.sign_off is None:
        yield from (f"before it goes in: {said}" for said in card.before_in)


def _container(store: Store, found: Found) -> tuple[dict[str, Any], list[str]]:
    assert found.container_id is not None
    box = services.containers.get_container(store, found.container_id)
    row = next(
        row
        for row in services.containers.list_containers(store, box.job_id)
        if row.container.id == box.id
    )
    holds = [services.strip.get_removal(store, id_) for id_ in row.removal_ids]
    lines = [box.label + (f", stands in {', '.join(row.where)}" if row.where else "")]
    out = {removal.id for removal, _ in services.fates.away_list(store, box.job_id)}
    away = {True: " (away)", False: ""}
    lines += [called(one) + away[one.id in out] for one in holds] or ["empty"]
    told = services.views.to_know_of(store, box.job_id, row.removal_ids)
    lines += [
        f"before {called(removal)} goes in: {said}"
        for removal in holds
        for said in told.get(removal.id, ())
    ]
    return {"container": cli_data.container(box, found.tag, row.where, holds)}, lines


def _blank(_: Store, __: Found) -> tuple[dict[str, Any], list[str]]:
    return {}, ["a blank tag, on nothing yet"]


def _task(store: Store, found: Found) -> tuple[dict[str, Any], list[str]]:
    assert found.task_id is not None
    card = services.task_views.card(store, found.task_id)
    waits = "; ".join(hindrance.sentence for hindrance in card.step.hindrances)
    joint = cli_joint.of(store, task(found.task_id))
    lines = [card.task.name, card.step.area, card.stands, *cli_joint.told(joint)]
    lines += [waits and f"waits: {waits}", *cli_joint.cautions(joint)]
    data = cli_data.step(card.step, None, card.code) | cli_joint.data(joint)
    return {"task": data}, list(filter(None, lines))


def _send_out(store: Store, found: Found) -> tuple[dict[str, Any], list[str]]:
    assert found.send_out_id is not None
    whole = services.send_outs.batch(store, found.send_out_id)
    return {"send_out": cli_away_data.batch_data(whole)}, list(cli_away_data.batch_lines(whole))


_TELLERS = {
    Leads.REMOVAL: _removal,
    Leads.CONTAINER: _container,
    Leads.TASK: _task,
    Leads.SEND_OUT: _send_out,
    Leads.BLANK: _blank,
}
