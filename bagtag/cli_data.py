"""Rows as plain data for `--json`: names as on screen, facts and hardware in the store's form."""

from dataclasses import asdict
from typing import Any

from bagtag.domain import codes, hardware, which_way
from bagtag.domain.model import Away, Container, Removal, SignOff, Tag
from bagtag.services.board import Freed, Step
from bagtag.services.jobs import JobRow
from bagtag.services.views import BenchCard

Data = dict[str, Any]


def job(row: JobRow) -> Data:
    return {
        "number": row.number,
        "title": row.title,
        "owner": row.owner,
        "opened_at": row.opened_at.isoformat() if row.opened_at else None,
        "off": row.off,
        "back": row.back,
        "away": row.away,
    }


def removal(row: Removal) -> Data:
    return {
        "number": row.number,
        "name": row.name,
        "quantity": row.quantity,
        "which_way": which_way.to_data(row.which_way),
        "held_by": hardware.to_data(row.held_by),
        "condition": row.condition,
        "fate": row.fate.value,
        "goes_on": row.goes_on,
        "note": row.note,
        "tools": row.tools,
        "logged_at": row.logged_at.isoformat() if row.logged_at else None,
        "logged_by": row.logged_by,
    }


def card(card: BenchCard) -> Data:
    """A removal with what belongs to it: its place, its standing, and the manual's word."""
    return removal(card.removal) | {
        "job": card.job_title,
        "code": codes.show(card.code),
        "sentence": card.sentence,
        "area": card.area,
        "lies_in": list(card.where),
        "opens": list(card.opens),
        "photos": [photo.hash for photo in card.photos],
        "place": card.place,
        "standing": card.standing.value,
        "waits_for": [hindrance.sentence for hindrance in card.hindrances],
        "before_it_goes_in": list(card.before_in) if card.sign_off is None else [],
        "is_held_up": card.is_held_up,
        "can_go_in_from": card.from_day.isoformat() if card.is_held_up and card.from_day else None,
        "away": away(card.away) if card.away else None,
        "signed_off": sign_off(card.sign_off) if card.sign_off else None,
        "caution": hardware.OVERRIDE,
    }


def step(step: Step, removal_: Removal | None, code: str) -> Data:
    """A step of the build: a removal with all that is told of it, or a task by its name."""
    own = removal(removal_) if removal_ is not None else {"name": step.name}
    return own | {
        "place": step.place,
        "kind": step.task.kind.value if step.task else "part",
        "code": codes.show(code) if code else "",
        "standing": step.standing.value,
        "waits_for": [hindrance.sentence for hindrance in step.hindrances],
        "signed_off": sign_off(step.sign_off) if step.sign_off else None,
    }


def freed(one: Freed) -> Data:
    """What keeps others out, how many wait for it, and how many for it alone."""
    return {"step": one.called, "why": one.why, "steps": one.all, "alone": one.alone}


def sign_off(done: SignOff) -> Data:
    return {
        "who": done.who,
        "at": done.at.isoformat(),
        "note": done.note,
        "reason": done.reason,
        "figures": [asdict(figure) for figure in done.figures],
        "counts": [asdict(count) for count in done.counts],
    }


def away(time: Away) -> Data:
    due = time.due.isoformat() if time.due else None
    return {"shop": time.shop, "work": time.work, "due": due}


def container(box: Container, tag: Tag, where: tuple[str, ...], holds: list[Removal]) -> Data:
    return {
        "label": box.label,
        "code": codes.show(tag.code),
        "stands_in": list(where),
        "holds": [{"number": row.number, "name": row.name} for row in holds],
    }
