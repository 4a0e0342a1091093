"""A scanner that types: telling its keys from a person's, without a clock or a window.

Every key goes through to the window at once, and is remembered here. Holding keys back until it
is clear who types would make each letter lag, and giving them back later would have to imitate
the keyboard; this way nothing a person types can be lost, late or out of order. Only when a whole
tag code has come at a scanner's pace does the verdict say how many keys to take back out of the
field, and only the scanner's own end key is swallowed, so that it presses no default button.

What the window's filter has to do, for a key press on its way to one kind of receiver:

    verdict = wedge.feed(event.timestamp(), event.text())

with the text as Qt gives it: a modifier's is empty and counts for nothing. Before passing on a key
it notes the focused field and its text, cursor and selection, for the last Wedge.LONGEST keys
that had a text; on a code it puts the field back as noted `verdict.take_back` keys ago, which
brings back a selection that the scan had overwritten too. About PAUSE_MS after the last key it
calls `flush`, for scanners that send no end key. As keys go through, no act may hang on a bare
letter or digit.

The times are the events' own: when the window was busy, a person's keys arrive together.
Scanners take 5 to 20 ms a character with a hiccup here and there, people rarely under 50
(https://bitsnpixels.dev/blog/scanner-or-person-part-1.html).
"""

from dataclasses import dataclass
from itertools import pairwise

from bagtag.domain import codes

PACE_MS = 35.0
PAUSE_MS = 120.0
HICCUPS = 2
"""A scanner's key follows within PACE_MS; this many of a scan may be later, but under PAUSE_MS."""

_END_KEYS = "\r\n\t"


@dataclass(frozen=True, slots=True)
class Verdict:
    """What to do about the key just fed.

    `code` is the bare tag code that it completes, or None; `swallow` this key and pass nothing on;
    `take_back` that many keys, those before this one, out of the field that had them.
    """

    code: str | None = None
    swallow: bool = False
    take_back: int = 0


PASS = Verdict()


class Wedge:
    """Remembers the last keys of one keyboard; feed it every key press, in order."""

    LONGEST = codes.LENGTH + 2  # a code may have a hyphen and a space in it

    def __init__(self) -> None:
        self._keys: list[tuple[float, str]] = []
        self._scanned_at: float | None = None

    def feed(self, time_ms: float, text: str) -> Verdict:
        """The verdict on a key press; `text` is what it types, CR, LF or Tab for an end key."""
        if not text:
            return PASS
        if text in _END_KEYS:
            return self._ended(time_ms)
        self._scanned_at = None
        if len(text) == 1 and text.isprintable():
            self._keys = [*self._keys[-self.LONGEST :], (time_ms, text)]
        else:
            self._keys = []
        return PASS

    def flush(self, time_ms: float) -> Verdict:
        """The verdict when no key has come for a while; the time is on the keys' own clock.

        Called early, or over half a code, it changes nothing.
        """
        if not self._keys or time_ms - self._keys[-1][0] < PAUSE_MS:
            return PASS
        return self._completed(self._keys[-1][0], swallow=False)

    def _ended(self, time_ms: float) -> Verdict:
        if self._scanned_at is not None and 0 <= time_ms - self._scanned_at < PAUSE_MS:
            return Verdict(swallow=True)  # the second of CR and LF, or one that came after flush
        verdict = self._completed(time_ms, swallow=True)
        self._keys = []
        return verdict

    def _completed(self, end_ms: float, *, swallow: bool) -> Verdict:
        for start in range(len(self._keys)):
            code = self._scanned_from(start, end_ms)
            if code:
                taken = len(self._keys) - start
                self._keys, self._scanned_at = [], end_ms
                return Verdict(code, swallow, taken)
        return PASS

    def _scanned_from(self, start: int, end_ms: float) -> str:
        """The code that the keys from `start` on are, all of it and nothing else, or nothing."""
        keys = self._keys[start:]
        code = codes.bare("".join(text for _, text in keys))
        if len(keys) > self.LONGEST or not codes.bare(keys[0][1]) or not codes.is_valid(code):
            return ""
        if len(set(code)) == 1:
            return ""  # a key held down: AAAAAA is valid, and far rarer on a tag than on a keyboard
        if start and 0 <= keys[0][0] - self._keys[start - 1][0] <= PACE_MS:
            return ""  # the end of something longer
        return code if _scanner_paced([*(time for time, _ in keys), end_ms]) else ""


def _scanner_paced(times: list[float]) -> bool:
    gaps = [later - earlier for earlier, later in pairwise(times)]
    late = sum(gap > PACE_MS for gap in gaps)
    return min(gaps) >= 0 and max(gaps) < PAUSE_MS and late <= HICCUPS
