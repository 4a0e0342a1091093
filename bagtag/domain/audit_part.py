"""The audit of each part alone: which way, its fate, its kind, its tag and its photo."""

from collections.abc import Iterable, Iterator

from bagtag.domain.asking import still_open
from bagtag.domain.audit_finding import Finding, Lack, Look
from bagtag.domain.audit_words import Known, listed, may_stay
from bagtag.domain.kinds import PartKind, is_always_renewed
from bagtag.domain.model import Fate, Removal
from bagtag.domain.phrases import capital
from bagtag.domain.resolve import other_part
from bagtag.domain.sentence import other_words
from bagtag.domain.which_way import OtherPart


def way(look: Look) -> Iterator[Finding]:
    """Questions that a kind must have answered, all of a removal in one finding."""
    for removal in look.seen:
        kind = look.kinds[removal.id]
        left = [q for q in still_open(kind, look.facts[removal.id]) if q.must]
        if left:
            asked = " ".join(question.sentence for question in left)
            others = "".join(_no_help(other) for other in look.unsaid(removal))
            ids = tuple(question.id for question in left)
            yield Finding(Lack.WAY, asked + others, removal.id, questions=ids)


def _no_help(other: OtherPart) -> str:
    return f" The entry of {other_words(other)} does not say it either."


def undecided(look: Look) -> Iterator[Finding]:
    """Parts that are still to be inspected or measured."""
    said = "Inspect or measure it, then say refit, renew or scrap."
    return _each(Lack.DECISION, said, (r for r in look.live if r.fate is Fate.DECIDE))


def not_renewed(look: Look) -> Iterator[Finding]:
    """Parts of a kind that is always renewed, to be refitted without a word why."""
    for removal in look.live:
        kind = look.kinds[removal.id]
        if kind is None or not is_always_renewed(kind) or removal.fate is not Fate.REFIT:
            continue
        if not (removal.note or removal.condition):
            yield Finding(Lack.RENEW, _why(kind), removal.id)


def _why(kind: PartKind) -> str:
    name = capital(kind.name)
    choice = "Say renew, or write in its note why it goes back in."
    return f"{name}: always renewed. {kind.why} {choice}"


def loose(look: Look) -> Iterator[Finding]:
    """Parts named by a fact and not linked to an entry; what stays needs none."""
    known = Known(look)
    for removal in look.live:
        named = dict.fromkeys(_unlinked(look, removal))
        left = [part for part in named if not known.is_fixed(part.name)]
        if left and not may_stay(removal):
            words = listed([other_words(part) for part in left])
            yield Finding(
                Lack.LOOSE,
                f"Say which entry is meant by {words}: choose it, log it if it is not logged, or "
                "write in the note that it stays in.",
                removal.id,
            )


def _unlinked(look: Look, removal: Removal) -> Iterator[OtherPart]:
    for part in map(other_part, removal.which_way):
        if part is not None and part.uid not in look.by_uid:
            yield part


def unknown(look: Look) -> Iterator[Finding]:
    """Parts of no kind that Bagtag knows and that nothing is said of."""
    said = (
        "Bagtag does not know this kind of part: say which way it sat, or that it goes either way."
    )
    return _each(Lack.KIND, said, (r for r in look.seen if _says_nothing(look, r)))


def _says_nothing(look: Look, removal: Removal) -> bool:
    return look.kinds[removal.id] is None and not look.facts[removal.id]


def untagged(look: Look) -> Iterator[Finding]:
    """Parts without a printed or hung tag; what is away gets it when it is back."""
    tagged = look.stripped.tagged
    said = "Print its label and put it on, or hang a blank tag on it."
    return _each(Lack.TAG, said, (r for r in look.here if r.id not in tagged))


def unphotographed(look: Look) -> Iterator[Finding]:
    """Parts without a photo of how they came off; of what is away none can be taken."""
    photographed = look.stripped.photographed
    said = "Add a photo of how it came off, or of how it lies now."
    return _each(Lack.PHOTO, said, (r for r in look.here if r.id not in photographed))


def _each(lack: Lack, sentence: str, removals: Iterable[Removal]) -> Iterator[Finding]:
    return (Finding(lack, sentence, removal.id) for removal in removals)
