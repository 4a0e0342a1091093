"""Which way a part was turned, on a tape line: faces, clocking, match marks."""

import re
from collections.abc import Iterator

from bagtag.domain.datum import Side
from bagtag.domain.which_way import Clocking, Faces, MatchMark, OtherPart, Outness
from bagtag.scan.tape_row import NUMBERS, VALUES
from bagtag.scan.tape_text import END, START, Found, fold, phrase, rx, tidy, whole
from bagtag.scan.tape_words import Words

# --- features

_ADJECTIVE = (
    r"(?:long|short|big|small|large|wide|narrow|thick|thin|deep|plain|flat|raised|machined|convex"
    r"|concave|domed|dished|stamped|marked|painted|paint|white|yellow|sharp|square|round(?:ed)?"
    r"|chamfered|bevelled|beveled|close(?:d)?|open|tight|wound|oil|inner|outer|timing|punch|number"
    r"|part[- ]number|sealed|shielded|centre|center|(?-i:OUT|IN|TOP|UP|FRONT))"
)
_NOUN = (
    r"(?:lips?|chamfers?|bevel|arrow|dots?|marks?|numbers?|lettering|writing|boss|step|shoulder"
    r"|grooves?|slots?|flats?|teeth|taper|(?:(?:oil|dowel|pin|drain|bleed) )?holes?|notch|tabs?"
    r"|tang|keyway|gap|crown|bend|mouth|outlet|legs?|vanes|seam|lobes?|corner|recess|relief|dish|dome|cut-?out|cut-?away|hook|shield|splines|dogs?"
    r"|hump|coils|tails?|cone|flange|radius)"
)
_FACE = r"(?:sides?|face|edges?|ends?)"
FEATURE = rf"(?:(?:{_ADJECTIVE}[- ]){{0,3}}{_NOUN}|part[- ]number {_FACE}|[\w-]{{2,20}} {_FACE})"
STAMPED = r"(?-i:OUT|IN|TOP|UP|FRONT|FWD|EX|INT)"
LETTER = r"(?-i:[A-KM-QS-Z])"  # a lone L or R is a hand, unless it says that it faces
_THING = rf"(?<![\w-])(?:the )?(?P<feature>{STAMPED}|{FEATURE}|{LETTER})"
_SEEING = r"(?:fac(?:ing|es?)|point(?:ing|s|ed)?|look(?:ing|s)?|turned)(?: (?:to|towards?))?"
_EXPLICIT = rf"(?:{_SEEING}|towards?)"
_VERB = rf"(?:(?:is |are |must )?(?:{_EXPLICIT}|goes|to|on|at|next to|against))"
PART = rf"(?:the )?(?P<part>\w[^\n\0]{{0,60}}?){END}"

# --- clocking

TURNED = (
    r"(?:(?:ring|end|timing|punch|paint|open|oil|spring|locating|drive|rotor|jiggle)[- ]){0,2}"
    r"(?:gaps?|dots?|marks?|tabs?"
    r"|tang|pip|notch|arrow|lug|opening|ends?|keyway|slot|hole|flat|cut-?out|cut-?away|split|lobe"
    r"|groove|boss|hook|peg|letter|arm|bend|connector|pin|key|lead|legs?|lever|nipple|side|outlet"
    r"|pointer|screw|yoke|neutral)"
)
_HOUR_NAMES = "|".join(NUMBERS)
_CLOCK = r"o_['’`]?_clock"
_HOUR = (
    r"(?<![\w.,:/-])(?:(?P<hour>1[0-2]|0?[1-9])(?P<half>:30|[.,]5)?(?::00)?_" + _CLOCK + "|"
    r"(?P<time>1[0-2]|0?[1-9]):(?:(?P<past30>30)|00)|"
    rf"(?P<named>{_HOUR_NAMES})_{_CLOCK}"
    rf"|half past (?P<past>1[0-2]|[1-9]|{_HOUR_NAMES})(?:_{_CLOCK})?)"
    r"(?!\w)"
)
_SEEN = r"(?:(?:seen|viewed|looking|looked at|as seen) )?from (?P<seen>SIDE)"
_AT_HOUR = rf"(?:(?<![\w-])(?P<feature>{TURNED}) )?(?:is )?(?:at |to )?{_HOUR}(?: {_SEEN})?"
_ANYTHING_AT_HOUR = rf"(?P<feature>\w[\w-]*(?: [\w-]+){{0,3}}) (?:is )?at {_HOUR}(?: {_SEEN})?"
_TURNED_TO = (
    rf"(?<![\w-])(?P<feature>(?:(?:timing|punch|paint|locating)[- ]){{0,2}}(?:dots?|marks?|tabs?"
    r"|tang|pip|notch|arrow|lug|gap|opening|keyway|peg)"
    rf"|(?<!in\x20the\x20)(?<!to\x20the\x20){TURNED}(?= (?:is )?(?:in|into|to|against|over"
    r"|opposite|at) (?:the|an?|its|\d)(?![a-z])))"
    r" (?:is )?(?P<how>in|into|to|with|opposite|over|at(?= \d\S?(?: \d/\d)? turns?(?!\w))"
    r"|against|aligned with|in line with|lined up with"
    r"|on(?= (?:the )?(?:\w+ )?(?:line|mark|dot|notch|pip)))"
    rf" (?P<target>\w[^\n\0]{{0,60}}?)(?: {_SEEN})?{END}"
)


def plain(said: str) -> str:
    """A feature as it is called: "Gap", the first word of a sentence, is "gap"; "OUT" stays."""
    words = tidy(said)
    return words[0].lower() + words[1:] if words[1:2].islower() else words


def at_hour(text: str, words: Words) -> Iterator[Found]:
    """`gap at 4 o'clock seen from the clutch side`, `tab at half past 7`."""
    if not rx(f"{_CLOCK}|half past|:[03]0").search(text):
        return
    for match in words.rx(_AT_HOUR).finditer(text):
        if match["time"] and not match["feature"]:
            continue  # a time of day
        side = words.side(match["seen"]) if match["seen"] else None
        fact = Clocking(plain(match["feature"] or ""), _hour(match), seen_from=side)
        yield Found(match.start(), match.end(), "clocking", fact)


def anything_at_hour(piece: str, words: Words) -> Iterator[Found]:
    """`key at 12 o'clock`: a whole piece, whatever it is that stands there."""
    match = whole(words.rx(phrase(_ANYTHING_AT_HOUR)), piece)
    if match:
        side = words.side(match["seen"]) if match["seen"] else None
        fact = Clocking(plain(match["feature"]), _hour(match), seen_from=side)
        yield Found(match.start("p"), match.end("p"), "clocking", fact)


def _hour(match: re.Match[str]) -> float:
    said = match["hour"] or match["time"] or match["named"] or match["past"]
    hour = float(said) if said.isdecimal() else float(VALUES[fold(said)])
    return hour + (0.5 if match["half"] or match["past30"] or match["past"] else 0.0)


def turned_to(text: str, words: Words) -> Iterator[Found]:
    """`tab in the notch`, `dot to the line on the crank gear`."""
    for match in words.rx(_TURNED_TO).finditer(text):
        how, target = fold(match["how"]), tidy(match["target"])
        said = re.sub(r"(?i)^the\s+", "", target) if how == "to" else f"{match['how']} {target}"
        side = words.side(match["seen"]) if match["seen"] else None
        fact = Clocking(plain(match["feature"]), target=said, seen_from=side)
        yield Found(match.start(), match.end(), "clocking", fact)


def seen_from(text: str, words: Words) -> Iterator[Found]:
    """`seen from the clutch side` by itself: its value is the side, for the line's clocking."""
    pattern = phrase(r"(?:seen|viewed|looking|looked at|as seen) from (?P<seen>SIDE)")
    for match in words.rx(pattern).finditer(text):
        yield Found(match.start("p"), match.end("p"), "clocking", words.side(match["seen"]))


# --- faces

_TO_SIDE = rf"(?:(?<=ward|ards) to SIDE{END})?"  # the side that outward is: it follows from it
_FACES = rf"{_THING} (?:{_VERB} )?(?P<way>WAY){_TO_SIDE}"
_SAID = rf"{START}the (?P<feature>\w[^\n\0]{{0,40}}?) faces?"
_SAID_FACES = rf"{_SAID} (?P<way>WAY){_TO_SIDE}{END}"
_SAID_FACES_PART = rf"{_SAID} (?!faces? ){PART}"
_HAND_FACES = rf"{START}(?:the )?(?P<feature>(?-i:[LR])) {_EXPLICIT} (?P<way>WAY){_TO_SIDE}"
_AGAINST = (
    r"against(?! (?:the |its |a )?(?:stop|peg|pin|abutment)s?(?!\w))"  # there it is turned to
)
_FACES_PART = rf"{_THING} (?:{_EXPLICIT}|next to|{_AGAINST}) {PART}"
_FACE_TO_PART = rf"(?<![\w-])(?P<feature>[\w-]{{2,20}} {_FACE}) to {PART}"
_SHAPE = (
    rf"(?:{_ADJECTIVE}[- ]){{0,3}}(?:lips?|chamfers?|bevel|boss|step|shoulder|grooves?|teeth|taper"
    r"|crown|recess|relief|dish|dome|shield|dogs?|cone|radius)"
)
_FEATURE_TO_PART = rf"{START}(?:the )?(?P<feature>{_SHAPE}) to (?=(?:the|its) ){PART}"
_SOME_PART = rf"(?<!\w)(?:{_EXPLICIT}|next to|against|to) "
_ANYTHING = r"(?:the )?(?P<feature>\w[^\n\0]{0,40}?)"
_ANYTHING_FACES = rf"{_ANYTHING} {_EXPLICIT} (?P<way>WAY){_TO_SIDE}"
_ANYTHING_FACES_PART = rf"{_ANYTHING} faces? (?=(?:the|its) ){PART}"


def faces(text: str, words: Words) -> Iterator[Found]:
    """`lip inward`, `OUT outward`, `C faces clutch side`, `arrow to the front`."""
    for pattern in (_SAID_FACES, _FACES, _HAND_FACES):
        for match in words.rx(pattern).finditer(text):
            yield from _faces(match, words)


def said_to_face(text: str) -> Iterator[Found]:
    """`The paint mark faces the block`: said in full, whatever the feature is."""
    for match in rx(_SAID_FACES_PART).finditer(text):
        fact = Faces(plain(match["feature"]), OtherPart(tidy(match["part"])))
        yield Found(match.start(), match.end(), "faces", fact)


def faces_part(text: str, words: Words) -> Iterator[Found]:
    """`sharp edge toward the gear`, `grooves facing gear 3`."""
    if not rx(_SOME_PART).search(text):
        return
    for pattern in (_FACES_PART, _FACE_TO_PART, _FEATURE_TO_PART):
        for match in words.rx(pattern).finditer(text):
            part = OtherPart(tidy(match["part"]))
            fact = Faces(plain(match["feature"]), words.toward(match["part"]) or part)
            yield Found(match.start(), match.end(), "faces", fact)


def anything_faces(piece: str, words: Words) -> Iterator[Found]:
    """`cutaway facing out`: a whole piece, whatever it is that faces."""
    match = whole(words.rx(phrase(_ANYTHING_FACES)), piece)
    if match:
        yield from _faces(match, words)
        return
    match = whole(rx(phrase(_ANYTHING_FACES_PART)), piece)
    if match:
        fact = Faces(plain(match["feature"]), OtherPart(tidy(match["part"])))
        yield Found(match.start("p"), match.end("p"), "faces", fact)


def _faces(match: re.Match[str], words: Words) -> Iterator[Found]:
    toward = words.toward(match["way"])
    if isinstance(toward, Side | Outness):
        fact = Faces(plain(match["feature"]), toward)
        yield Found(match.start(), match.end(), "faces", fact)


# --- match marks

MARK = (
    rf"(?:(?:{_HOUR_NAMES}|an?|[1-9]) )?(?:(?:white|yellow|red|blue|green|black|small|big) ){{0,2}}"
    r"(?:(?:(?:centre|center)[- ])?(?:punch(?:ed)?|paint(?:ed)?|scribed?|scratch(?:ed)?|pen|marker"
    r"|chalk|file|filed|chisel)[- ](?:dots?|marks?|lines?|stripes?|pops?|notch(?:es)?|cuts?)"
    r"|(?:dots?|lines?) of paint|match[- ]?marks?)"
)
_MATCHED = (
    r"(?<!\w)(?:(?:match[- ]?)?marked(?: with)? |match[- ]?marks?_:_)?"
    rf"(?P<mark>{MARK})(?!\w)(?: (?:matching|matched (?:to|with)|with|to|across to) {PART})?"
)
_ANY_MARK = (
    rf"{START}(?:match[- ]?marks?_:_(?P<mark>\w[^\n\0\t]{{0,60}}?)"
    rf"|(?:marked|(?P<matched>\w[^\n\0\t]{{0,60}}?))\t_matched (?:to|with) {PART}){END}"
)


def match_mark(text: str) -> Iterator[Found]:
    """`two punch dots`, `paint line to the housing`."""
    if not rx("mark|punch|paint|scri|scra|pen|chalk|file|chisel").search(text):
        return
    for match in rx(_MATCHED).finditer(text):
        fact = MatchMark(plain(match["mark"]), tidy(match["part"] or ""))
        yield Found(match.start(), match.end(), "match mark", fact)


def any_match_mark(text: str) -> Iterator[Found]:
    """`match mark: cylinder number`, `number, matched to the rod`: whatever the mark is."""
    if not rx("match").search(text):
        return
    for match in rx(_ANY_MARK).finditer(text):
        mark = plain(match["mark"] or match["matched"] or "")
        fact = MatchMark(mark, tidy(match["part"] or ""))
        yield Found(match.start(), match.end(), "match mark", fact)
