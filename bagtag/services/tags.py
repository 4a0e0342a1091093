"""Tags: blank ones printed ahead, bound on their first scan; twins for a part and its place."""

from dataclasses import dataclass
from enum import StrEnum
from uuid import uuid4

from bagtag.domain import codes
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.model import Tag, TagRole
from bagtag.services import codes_drawn, strip
from bagtag.store import belongings, removals, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

TWINS = (TagRole.TWIN_PART, TagRole.TWIN_PLACE)


class Leads(StrEnum):
    """Where a scanned code leads."""

    REMOVAL = "removal"
    CONTAINER = "container"
    TASK = "task"
    SEND_OUT = "send-out"
    BLANK = "blank"


@dataclass(frozen=True, slots=True)
class Found:
    """What a code belongs to. `tag` says which end of a twin was scanned."""

    leads: Leads
    tag: Tag
    job_id: int | None
    removal_id: int | None = None
    container_id: int | None = None
    task_id: int | None = None
    send_out_id: int | None = None


@dataclass(frozen=True, slots=True)
class Match:
    """Whether two twin tags belong together, in one sentence."""

    matches: bool
    sentence: str


def look_up(store: Store, text: str) -> Found:
    """What a typed or scanned code belongs to: BadInput for no code, NotFound for a strange one."""
    code = codes.parse(text)
    with store.read() as connection:
        tag = belongings.tag_by_code(connection, code)
    if tag is None:
        raise NotFound(
            f"{codes.show(code)} is a right code, but no tag of this store. "
            "It may belong to another store."
        )
    if tag.role is TagRole.BLANK:
        return Found(Leads.BLANK, tag, tag.job_id)
    return Found(
        _leads(tag),
        tag,
        tag.job_id,
        tag.removal_id,
        tag.container_id,
        tag.task_id,
        tag.send_out_id,
    )


def _leads(tag: Tag) -> Leads:
    if tag.task_id is not None:
        return Leads.TASK
    if tag.send_out_id is not None:
        return Leads.SEND_OUT
    return Leads.REMOVAL if tag.removal_id is not None else Leads.CONTAINER


def make_blank(store: Store, count: int, *, who: str = "") -> tuple[Change, list[str]]:
    """`count` tags to be printed ahead and bound on their first scan."""
    if not 1 <= count <= 10_000:
        raise BadInput("Ask for between 1 and 10,000 blank tags.", field="count")
    made: list[str] = []

    def do(act: Act) -> None:
        made.extend(codes_drawn.fresh_codes(act, count))
        for code in made:
            act.insert(tables.tag, code=code, role=TagRole.BLANK.value)

    change = store.act(f"make {count} blank tags", do, who=who)
    return change, made


def bind_to_removal(store: Store, text: str, removal_id: int, *, who: str = "") -> Change:
    """Hang a blank tag on a part."""
    removal = strip.get_removal(store, removal_id)
    return _bind(
        store,
        text,
        what=f"{removal.number} {removal.name}",
        role=TagRole.PART,
        job_id=removal.job_id,
        who=who,
        removal_id=removal_id,
    )


def bind_to_container(store: Store, text: str, container_id: int, *, who: str = "") -> Change:
    """Stick a blank tag on a container."""
    with store.read() as connection:
        container = belongings.get_container(connection, container_id)
    if container is None:
        raise NotFound("This container is no longer in the job.")
    return _bind(
        store,
        text,
        what=container.label,
        role=TagRole.CONTAINER,
        job_id=container.job_id,
        who=who,
        container_id=container_id,
    )


def _bind(
    store: Store, text: str, *, what: str, role: TagRole, job_id: int, who: str, **target: int
) -> Change:
    code = look_up(store, text).tag.code

    def do(act: Act) -> None:
        tag = belongings.tag_by_code(act.connection, code)
        if tag is None or tag.role is not TagRole.BLANK:
            raise BadInput(
                f"The tag {codes.show(code)} hangs on something already. Scan a blank one.",
                field="code",
            )
        codes_drawn.bind(act, tag, role, job_id, **target)

    return store.act(f"tag {what} with {codes.show(code)}", do, who=who, job_id=job_id)


def make_twins(store: Store, removal_id: int, *, who: str = "") -> tuple[Change, tuple[str, str]]:
    """Two matching tags, for the part and for its place; returns their codes in that order."""
    removal = strip.get_removal(store, removal_id)
    made: list[str] = []

    def do(act: Act) -> None:
        pair = str(uuid4())
        made.extend(codes_drawn.fresh_codes(act, 2))
        for code, role in zip(made, TWINS, strict=True):
            act.insert(
                tables.tag,
                code=code,
                role=role.value,
                job_id=removal.job_id,
                removal_id=removal_id,
                pair=pair,
            )

    name = f"{removal.number} {removal.name}"
    change = store.act(f"make twin tags for {name}", do, who=who, job_id=removal.job_id)
    return change, (made[0], made[1])


def match_twins(store: Store, first: str, second: str) -> Match:
    """Whether two scanned tags are a part and its own place."""
    with store.read() as connection:
        tags = [belongings.tag_by_code(connection, codes.parse(text)) for text in (first, second)]
        one, other = tags
        if one is None or other is None:
            raise NotFound("One of the two is no tag of this store. Scan both again.")
        names = {
            tag.id: removals.get(connection, tag.removal_id)
            for tag in (one, other)
            if tag.removal_id is not None
        }
    if one.id == other.id:
        return Match(False, "That is the same tag twice. Scan the one on the other end.")
    named = {id_: f"{r.number} {r.name}" for id_, r in names.items() if r is not None}
    if one.pair and one.pair == other.pair:
        return Match(True, f"Match: both are for {named[one.id]}.")
    ends = " and ".join(named.get(tag.id, codes.show(tag.code)) for tag in (one, other))
    if one.removal_id == other.removal_id and one.removal_id is not None:
        return Match(False, f"No match: two different ends of {named[one.id]}.")
    return Match(False, f"No match: these belong to {ends}.")
