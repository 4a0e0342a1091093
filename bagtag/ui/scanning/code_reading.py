"""Whether a line in the one field is a tag code, and what the code hangs on."""

from typing import TYPE_CHECKING

from bagtag import services
from bagtag.domain import codes
from bagtag.domain.errors import BadInput

if TYPE_CHECKING:
    from bagtag.services.find import Hit
    from bagtag.services.tags import Found
    from bagtag.store.work import Store


def as_code(typed: str) -> str:
    """The bare code when the line is a right one, else nothing."""
    bare = codes.bare(typed)
    return bare if codes.is_valid(bare) and _stands_alone(typed) else ""


def what_is_wrong(typed: str) -> str:
    """Why a line that looks like a code is none; nothing when it looks like words."""
    bare = codes.bare(typed)
    if len(bare) != codes.LENGTH or not bare.isalnum() or not _stands_alone(typed):
        return ""
    if not any(symbol.isdigit() for symbol in bare) and typed.strip() != typed.strip().upper():
        return ""  # "washer" and "tie rod" are words
    try:
        codes.parse(typed)
    except BadInput as wrong:
        return wrong.sentence
    return ""


def may_be_words(typed: str) -> bool:
    """Whether a wrong code may be a line of tape all the same: "M10 nut", with a 1 and a 0."""
    bare = codes.bare(typed)
    return " " in typed.strip() and any(symbol not in codes.SYMBOLS for symbol in bare)


def _stands_alone(typed: str) -> bool:
    """One word, or two halves as printed."""
    words = typed.replace("-", " ").split()
    return len(words) == 1 or [len(word) for word in words] == [3, 3]


def look_up(store: "Store", code: str) -> "tuple[Found, str]":
    """What a code leads to, and that thing's name in a few words."""
    found = services.tags.look_up(store, code)
    if found.removal_id is not None:
        removal = services.strip.get_removal(store, found.removal_id)
        return found, f"{removal.number} {removal.name}"
    if found.container_id is not None:
        return found, services.containers.get_container(store, found.container_id).label
    if found.task_id is not None:
        return found, services.tasks.get_task(store, found.task_id).name
    if found.send_out_id is not None:
        return found, services.send_outs.get_send_out(store, found.send_out_id).called
    return found, "blank, hangs on nothing yet"


def find(store: "Store", typed: str) -> "tuple[str, list[Hit]]":
    """Hits over all jobs, with the words they are for."""
    return typed, services.find.find(store, typed, limit=20)
