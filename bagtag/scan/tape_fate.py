"""What becomes of a part and what shape it is in, on a tape line; and when not to read at all."""

from collections.abc import Iterator

from bagtag.domain.model import Fate
from bagtag.scan.tape_text import Found, last, phrase, rx, whole

# --- what keeps a piece from being read

_DOUBT = rx(
    r"(?<!\w)(?:(?<!grade\x20)not|never|(?:do|does|is|was|must|can|are)n['’]?t|cannot|without"
    r"|unless|except|maybe|perhaps|probably|if|or|no(?!\.?_\d|\.|_#)|none)(?!\w)"
    r"|\?(?! (?:[\w-]+ ){0,3}(?:bolt|screw|nut|stud|plug|union|fastener)s?(?!\w))"  # not counted
    r"|(?:\d_(?:st|nd|rd|th)|first|second|third)_(?:and|&|to|-|–|/)_(?:[1-9]|second|third|fourth)"
    r"|between \d+ and \d"
)


def is_doubtful(piece: str) -> bool:
    """Whether a piece denies, doubts or lists: it is kept word for word and read no further."""
    return _DOUBT.search(piece) is not None


# --- fate

_FATES: dict[Fate, str] = {
    Fate.RENEW: (
        r"(?:renew(?:ed|ing|al)?|replaced?(?: with new)?"
        r"|(?:fit|use|order|needs?) (?:a )?new(?: one)?"
        r"|one[- ]time(?:[- ]use)?|single[- ]use|always new)"
    ),
    Fate.SCRAP: r"(?:scrap(?:ped)?|for scrap|discard(?:ed)?|bin it|throw away)",
    Fate.DECIDE: r"(?:decide(?:d)?|inspect(?:ed)?|measured?)(?: (?:first|later|before refitting))?",
    Fate.REFIT: r"(?:refit(?:ted)?|re-?used?|use again)",
}
_TO_BE = r"(?:(?:to be|must be|always|please|to|for|needs|must) )?"
_FATE = rx(last(_TO_BE + "(?:" + "|".join(f"(?P<{f.value}>{p})" for f, p in _FATES.items()) + ")"))
_BARE_FATE = rx(phrase(r"(?:(?P<renew>new)|(?P<decide>check(?:ed)?(?: first)?|tbd))"))
_SPECIAL = rx(
    last(
        r"(?:(?P<renew>(?:do not|don['’]?t|never|no|not to be) re-?used?|not re-?us(?:e?able|ed)"
        r"|(?:do not|don['’]?t|never) refit)"
        r"|(?P<decide>(?:renew|replace|scrap|re-?use|refit)_\?+))"
    )
)


def special_fate(text: str) -> Iterator[Found]:
    """`do not reuse`, `renew?`: read before doubt is looked for."""
    for match in _SPECIAL.finditer(text):
        fate = Fate.RENEW if match["renew"] else Fate.DECIDE
        yield Found(match.start("p"), match.end("p"), "fate", fate)


def fate(text: str) -> Iterator[Found]:
    """`renew`, `to be measured`, `scrap`, at the end of a stretch."""
    for match in _FATE.finditer(text):
        said = next(fate for fate in Fate if match[fate.value])
        yield Found(match.start("p"), match.end("p"), "fate", said)


def bare_fate(text: str) -> Iterator[Found]:
    """`new`, `check`, alone in their piece."""
    for match in _BARE_FATE.finditer(text):
        said = Fate.RENEW if match["renew"] else Fate.DECIDE
        yield Found(match.start("p"), match.end("p"), "fate", said)


_TO_DECIDE = rx(
    phrase(
        r"(?:(?:renew|replace|scrap|refit|re-?use) (?:only )?if [^\n\0]+"
        r"|(?:measure|inspect|check(?= (?:for|the|wear|crack|run|clear|length|play|bore|end|gap)))"
        r" [^\n\0]+)"
    )
)


def to_decide(piece: str) -> Iterator[Found]:
    """`renew if worn`, `measure end float`: a whole piece; its words stand in the note too."""
    match = whole(_TO_DECIDE, piece)
    if match:
        yield Found(match.start("p"), match.end("p"), "fate", Fate.DECIDE, noted=True)


# --- condition

_STATE = (
    r"(?:worn(?: out)?|scored|cracked|pitted|bent|corroded|rust(?:y|ed)|chipped|burnt|burned"
    r"|damaged|good|like new|leaking|stretched|broken|snapped|torn|hardened|stiff|seized|stripped"
    r"|dirty|ok(?:ay)?|galled|scuffed|blued|perished|loose|tight|clean|polished|glazed|warped)"
)
_STATES = (
    rf"(?:(?:slightly|lightly|badly|very|a bit|half|heavily) )?{_STATE}"
    rf"(?:(?: and |_&_|_/_| ){_STATE})*(?: condition)?"
)
_CONDITION = rx(phrase(_STATES))
_SAID_CONDITION = rx(
    phrase(rf"(?:\w+ ){{0,3}}{_STATES}(?: (?:on|at|in|near|by|under|around|all) [^\n\0]+)?")
)


def condition(text: str) -> Iterator[Found]:
    """`bent`, `slightly worn`, `scored and chipped`, alone in their piece."""
    for match in _CONDITION.finditer(text):
        yield Found(match.start("p"), match.end("p"), "condition", match["p"])


def said_condition(piece: str) -> Iterator[Found]:
    """`teeth pitted`, `scored on the exhaust side`: a whole piece."""
    match = whole(_SAID_CONDITION, piece)
    if match:
        yield Found(match.start("p"), match.end("p"), "condition", match["p"])
